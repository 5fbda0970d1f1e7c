#pragma once
// A thin, checked shell around the HDF5 C library. Its C++ classes lose errors in destructors, so they are not used.

#include <hdf5.h>

#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace rackwright::results::h5 {

/// The library refused. `system_error` is the errno behind it, 0 where there was none.
class Fault : public std::runtime_error {
 public:
  Fault(const std::string& what, int error) : std::runtime_error(what), system_error_(error) {}
  [[nodiscard]] int system_error() const { return system_error_; }

 private:
  int system_error_;
};

/// Stops the library from printing its own errors and from cleaning up at exit. Call at every way in, before any other
/// call of the library: the first setting is each thread's own.
void be_quiet();
/// Throws a Fault made from the library's error stack.
[[noreturn]] void fail(std::string_view doing);

/// Owns one HDF5 object. close() reports failure; the destructor, for the way out after one, cannot.
class Id {
 public:
  using Closer = herr_t (*)(hid_t);
  Id() = default;
  /// Throws Fault("could not DOING ...") unless id is valid.
  Id(hid_t id, Closer closer, std::string_view doing) : id_(id), closer_(closer) { if (id < 0) fail(doing); }
  ~Id() { if (id_ >= 0) closer_(id_); }
  Id(Id&& other) noexcept : id_(std::exchange(other.id_, -1)), closer_(other.closer_) {}
  Id& operator=(Id&& other) noexcept { std::swap(id_, other.id_); std::swap(closer_, other.closer_); return *this; }
  [[nodiscard]] hid_t get() const { return id_; }
  void close(std::string_view doing) { if (id_ >= 0 && closer_(std::exchange(id_, -1)) < 0) fail(doing); }

 private:
  hid_t id_ = -1;
  Closer closer_ = nullptr;
};

/// Throws Fault when a call that returns a negative number for failure did.
template <class Result>
Result check(Result result, std::string_view doing) {
  if (result < 0) fail(doing);
  return result;
}

/// UTF-8 text of that many bytes, or of any length.
Id text_type(std::size_t size = H5T_VARIABLE);
void write_attribute(hid_t object, const char* name, const std::string& value);
/// A short text stored as characters, as netCDF programs want units and names.
void write_label(hid_t object, const char* name, const std::string& value);
void write_attribute(hid_t object, const char* name, std::uint64_t value);
/// Throw Fault when absent or of another kind.
std::string read_text_attribute(hid_t object, const char* name);
std::uint64_t read_whole_attribute(hid_t object, const char* name);

/// Writes a whole dataset of text.
void write_texts(hid_t dataset, const std::vector<std::string>& texts);
/// Reads `count` texts, of fixed or any length.
std::vector<std::string> read_texts(hid_t dataset, std::size_t count);

}  // namespace rackwright::results::h5
