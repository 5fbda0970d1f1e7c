#pragma once
// What can go wrong between a program and a result file, in plain words.

#include <stdexcept>
#include <string>

namespace rackwright::results {

/// A result file could not be written under its name. Nothing half-written is left behind, nothing that was there is touched.
class WriteFault : public std::runtime_error {
 public:
  enum class Cause {
    exists,      ///< the output is there already
    taken,       ///< it appeared while the study ran; the result is beside it, under another name
    folder,      ///< no such folder, or not a folder
    permission,  ///< not allowed, or a read-only disk
    full,        ///< no room on the disk, or a limit on file size or quota
    disk,        ///< anything else the system refuses
  };
  WriteFault(Cause cause, const std::string& why) : std::runtime_error(why), cause_(cause) {}
  [[nodiscard]] Cause cause() const { return cause_; }
  /// True when the user can mend it by typing another output (exit 2), false when the disk is at fault (exit 1).
  [[nodiscard]] bool user_input() const { return cause_ != Cause::taken && cause_ != Cause::full && cause_ != Cause::disk; }

 private:
  Cause cause_;
};

/// A file could not be read as a result: absent, foreign, cut short, damaged or of another version.
class ReadFault : public std::runtime_error {
 public:
  explicit ReadFault(const std::string& why) : std::runtime_error(why) {}
};

}  // namespace rackwright::results
