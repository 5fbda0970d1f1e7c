#pragma once
// Writes one result file: replications as they arrive, then what they say together. One thread only.

#include <cstdint>
#include <memory>
#include <string>

#include "sim/results/array.hpp"
#include "sim/results/header.hpp"
#include "sim/study/run.hpp"

namespace rackwright::results {

/// Memory does not grow with the number of replications. Every member throws WriteFault; after one, or when the
/// writer goes without finish(), nothing is left on disk and an existing file is as it was.
class Writer {
 public:
  /// A file of kind simulate has a /replication group, any other one once something is appended. `block`: replications
  /// the run delivers at a time. `temporary`: see OutputFile.
  Writer(const std::string& path, bool force, Header header, std::uint32_t block = 32, const std::string& temporary = "");
  ~Writer();
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;

  /// Takes the next replications, in order.
  void append(const study::Block& block);
  /// Writes whole datasets before the end, such as those that name what comes.
  void put(const Arrays& arrays);
  /// Takes the next rows of growing datasets: arrays of one length along their first dimension. A dataset begins with the
  /// first rows it is given, coordinates first.
  void append(const Arrays& rows);
  /// Adds the other datasets (paths of the schema table), closes the file and gives it its name.
  void finish(const Arrays& arrays);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace rackwright::results
