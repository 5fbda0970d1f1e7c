#pragma once
// A file that appears whole or not at all: written beside its place, then renamed.

#include <string>

namespace rackwright::results {

/// Holds the name under which a file is written before it is finished. Unless put_in_place() succeeds, the
/// destructor removes what was written.
class OutputFile {
 public:
  /// Refuses, with a WriteFault, a folder that is not there or not writable, and an existing file unless `force`.
  /// `temporary`: the name to write under, on the same disk; one beside the path when empty. Given one, an existing file
  /// is not refused here (who names it has asked check_output before the work began) but when it is put in place.
  OutputFile(std::string path, bool force, std::string temporary = "");
  ~OutputFile();
  OutputFile(const OutputFile&) = delete;
  OutputFile& operator=(const OutputFile&) = delete;

  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] const std::string& temporary() const { return temporary_; }
  /// Brings the closed temporary file to disk and gives it its name. Without `force`, a file that has appeared since is
  /// kept.
  void put_in_place();
  /// The same for what took long to make: where a file has appeared under the name meanwhile, both are kept. The new one
  /// is put beside it under a free name (runs-2.h5 for runs.h5), and the WriteFault (Cause::taken) says which.
  void put_in_place_or_beside();

 private:
  int rename_unless_there(const std::string& to) const;

  std::string path_, temporary_;
  bool force_ = false, placed_ = false;
};

/// The same refusals of a name, before anything is written; a symbolic link is refused too, whatever it leads to.
void check_output(const std::string& path, bool force);

/// WriteFault for a system error met while `doing` something with `path`.
[[noreturn]] void throw_write_fault(const std::string& path, int system_error, const std::string& otherwise);

}  // namespace rackwright::results
