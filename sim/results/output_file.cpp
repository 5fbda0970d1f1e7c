#include "sim/results/output_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>

#include "sim/results/fault.hpp"

namespace rackwright::results {
namespace {

using Cause = WriteFault::Cause;

std::string folder_of(const std::string& path) {
  const auto slash = path.rfind('/');
  if (slash == std::string::npos) return ".";
  return slash == 0 ? "/" : path.substr(0, slash);
}

[[noreturn]] void refuse_existing(const std::string& path) {
  throw WriteFault(Cause::exists, path + " is there already; choose another name, or say --force to replace it");
}

/// Brings a file or folder to disk. Some file systems cannot do it for a folder and say EINVAL.
void bring_to_disk(const std::string& name, const std::string& path, int flags) {
  const int file = open(name.c_str(), flags | O_CLOEXEC);
  if (file < 0) throw_write_fault(path, errno, "cannot be opened");
  const int synced = fsync(file) == 0 || errno == EINVAL ? 0 : errno;
  const int closed = close(file) == 0 ? 0 : errno;
  if (synced != 0 || closed != 0) throw_write_fault(path, synced != 0 ? synced : closed, "cannot be brought to disk");
}

}  // namespace

void throw_write_fault(const std::string& path, int system_error, const std::string& otherwise) {
  switch (system_error) {
    case ENOSPC: throw WriteFault(Cause::full, "the disk is full: " + path + " was not written");
    case EDQUOT: throw WriteFault(Cause::full, "your disk quota is used up: " + path + " was not written");
    case EFBIG: throw WriteFault(Cause::full, path + " was not written: it grew beyond the largest file allowed here");
    case ENOENT:
      if (access(folder_of(path).c_str(), F_OK) == 0)
        throw WriteFault(Cause::folder, "no file can be made in the folder " + folder_of(path));
      throw WriteFault(Cause::folder, "the folder " + folder_of(path) + " does not exist; make it first");
    case ENOTDIR: throw WriteFault(Cause::folder, folder_of(path) + " is not a folder");
    case EISDIR: throw WriteFault(Cause::folder, path + " is a folder; name a file");
    case ENAMETOOLONG: throw WriteFault(Cause::folder, path + " is too long a name");
    case EACCES:
    case EPERM: throw WriteFault(Cause::permission, "not allowed to write in the folder " + folder_of(path));
    case EROFS: throw WriteFault(Cause::permission, "the folder " + folder_of(path) + " is on a read-only disk");
    case 0: throw WriteFault(Cause::disk, path + " was not written: " + otherwise);
    default: throw WriteFault(Cause::disk, path + " was not written: " + std::strerror(system_error));
  }
}

void check_output(const std::string& path, bool force) {
  struct stat what {};
  if (path.empty()) throw WriteFault(Cause::folder, "the output has no name");
  // The last step gives a finished file this name, which would put it in the place of the link and leave the link's own file as it was.
  if (lstat(path.c_str(), &what) == 0 && S_ISLNK(what.st_mode))
    throw WriteFault(Cause::exists, path + " is a link to another place; name the file that is to be written, not the link");
  if (stat(path.c_str(), &what) == 0) {
    if (S_ISDIR(what.st_mode)) throw_write_fault(path, EISDIR, "");
    if (!S_ISREG(what.st_mode)) throw WriteFault(Cause::exists, path + " is not a plain file and cannot be replaced");
    if (!force) refuse_existing(path);
  } else if (errno != ENOENT) {
    throw_write_fault(path, errno, "");
  }
  if (path.back() == '/') throw_write_fault(path, EISDIR, "");
}

OutputFile::OutputFile(std::string path, bool force, std::string temporary)
    : path_(std::move(path)), temporary_(std::move(temporary)), force_(force) {
  // Who names a temporary has begun earlier, and asked by then: what has appeared since must not cost the work done.
  check_output(path_, force_ || !temporary_.empty());
  if (temporary_.empty()) temporary_ = path_ + ".tmp-" + std::to_string(getpid());
  // Taking the name is the only sure test of the folder; O_EXCL keeps off another run's file.
  const int file = open(temporary_.c_str(), O_CREAT | O_EXCL | O_WRONLY | O_CLOEXEC, 0666);
  if (file < 0 && errno == EEXIST)
    throw WriteFault(Cause::exists, temporary_ + " is in the way; remove it if no other run is using it");
  if (file < 0) throw_write_fault(path_, errno, "");
  close(file);
}

OutputFile::~OutputFile() {
  if (!placed_) unlink(temporary_.c_str());
}

int OutputFile::rename_unless_there(const std::string& to) const {
  const int failed = renameat2(AT_FDCWD, temporary_.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0 ? 0 : errno;
  // Not every file system can refuse to replace; there the check and the rename are two steps.
  if (failed != EINVAL && failed != ENOSYS) return failed;
  if (access(to.c_str(), F_OK) == 0) return EEXIST;
  return std::rename(temporary_.c_str(), to.c_str()) == 0 ? 0 : errno;
}

void OutputFile::put_in_place() {
  bring_to_disk(temporary_, path_, O_RDWR);
  const int failed = !force_ ? rename_unless_there(path_) : std::rename(temporary_.c_str(), path_.c_str()) == 0 ? 0 : errno;
  if (failed == EEXIST && !force_) refuse_existing(path_);
  if (failed != 0) throw_write_fault(path_, failed, "cannot be renamed");
  placed_ = true;
  bring_to_disk(folder_of(path_), path_, O_RDONLY | O_DIRECTORY);
}

void OutputFile::put_in_place_or_beside() {
  try {
    put_in_place();
    return;
  } catch (const WriteFault& fault) {
    if (fault.cause() != Cause::exists) throw;
  }
  constexpr int most_names = 1000;
  const auto slash = path_.rfind('/'), dot = path_.rfind('.');
  const bool has_end = dot != std::string::npos && dot > 0 && (slash == std::string::npos || dot > slash + 1);
  const std::string stem = path_.substr(0, has_end ? dot : path_.size()), end = has_end ? path_.substr(dot) : "";
  int failed = EEXIST;
  std::string beside;
  for (int i = 2; failed == EEXIST && i < most_names; ++i) {
    beside = stem;
    beside.append("-").append(std::to_string(i)).append(end);
    failed = rename_unless_there(beside);
  }
  if (failed != 0) throw_write_fault(path_, failed, "cannot be renamed");
  placed_ = true;
  bring_to_disk(folder_of(beside), beside, O_RDONLY | O_DIRECTORY);
  throw WriteFault(Cause::taken, path_ + " was put there by somebody else while this ran, and is left as it is; this result is in " + beside);
}

}  // namespace rackwright::results
