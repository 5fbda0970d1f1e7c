#include "sim/results/parts.hpp"

#include <dirent.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <functional>
#include <thread>

#include "sim/results/fault.hpp"
#include "sim/results/output_file.hpp"
#include "sim/results/part_file.hpp"
#include "sim/results/seal.hpp"

namespace rackwright::results {
namespace {

using Cause = WriteFault::Cause;

constexpr std::string_view part_end = ".part";


/// What goes wrong under a run that had begun well is the machine's fault, not a mistake of typing.
[[noreturn]] void part_fault(const std::string& output, int error, const std::string& what) {
  if (error == ENOSPC || error == EDQUOT || error == EFBIG) throw_write_fault(output, error, "");
  if (error == ENOENT)
    throw WriteFault(Cause::disk, what + " was not written: its folder is gone, removed by somebody while this ran");
  throw WriteFault(Cause::disk, what + " was not written: " + std::strerror(error));
}

/// Names in a folder; none when it is not there.
std::vector<std::string> list(const std::string& folder) {
  std::vector<std::string> names;
  DIR* open_folder = opendir(folder.c_str());
  if (open_folder == nullptr) return names;
  while (const dirent* entry = readdir(open_folder)) names.emplace_back(entry->d_name);
  closedir(open_folder);
  return names;
}

bool is_temporary(const std::string& name) { return name.find(".tmp-") != std::string::npos; }

/// Whether an open file still bears that name.
bool still_there(int file, const std::string& path) {
  struct stat held {}, named {};
  return fstat(file, &held) == 0 && stat(path.c_str(), &named) == 0 && held.st_ino == named.st_ino &&
         held.st_dev == named.st_dev;
}

}  // namespace

std::uint64_t study_mark(std::string_view text) { return crc64(text.data(), text.size()); }

Parts::Parts(const std::string& output, std::uint64_t mark, Earlier earlier, bool replace, Shard shard)
    : output_(output), folder_(output + ".d"), mark_(mark), alone_(shard.whole()), replace_(replace) {
  check_output(output_, replace);
  lock(shard);
  try {
    look_again();
    if (earlier == Earlier::discard) {
      for (const std::string& name : names()) remove(name);
    } else if (earlier == Earlier::refuse && !empty()) {
      throw WriteFault(Cause::exists, folder_ + " holds the finished work of an earlier run: say --resume to go on with "
                                                "it, --force to begin anew");
    } else {
      for (const std::string& name : names()) {
        const auto found = mark_of(part_of(name));
        if (!found || *found == mark_) continue;  // damaged ones are found out when they are read
        throw WriteFault(Cause::exists, folder_ + " holds work of another study (another scenario, another command or "
                                                  "another version of the program); choose another name, or remove that folder "
                                                  "to throw it away");
      }
    }
    clean();
  } catch (...) {
    close_lock(lock_);
    close_lock(shard_lock_);
    throw;
  }
}

Parts::~Parts() {
  if (alone_ && !finished_ && empty() && lock_ >= 0) {
    clean();
    unlink(path_of("lock").c_str());
    rmdir(folder_.c_str());
  }
  if (!shard_lock_path_.empty()) unlink(shard_lock_path_.c_str());
  close_lock(shard_lock_);
  close_lock(lock_);
}

void Parts::lock(Shard shard) {
  const std::string path = path_of("lock");
  for (;;) {
    if (mkdir(folder_.c_str(), 0777) != 0 && errno != EEXIST) throw_write_fault(output_, errno, "");
    lock_ = open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666);
    if (lock_ < 0 && errno == ENOENT) continue;  // another run has just finished and removed its folder
    if (lock_ < 0) throw_write_fault(folder_ + "/lock", errno, "");
    if (!try_lock(lock_, alone_)) {
      close_lock(lock_);
      throw WriteFault(Cause::exists, "another run is at work on " + output_ +
                                          "; wait until it ends, or choose another name (it holds " + path + ")");
    }
    if (still_there(lock_, path)) break;
    close_lock(lock_);
  }
  if (alone_) return;
  const std::string share = path + "-" + std::to_string(shard.number) + "-of-" + std::to_string(shard.of);
  for (;;) {
    shard_lock_ = open(share.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666);
    if (shard_lock_ < 0) {
      const int error = errno;
      close_lock(lock_);
      throw_write_fault(share, error, "");
    }
    if (!try_lock(shard_lock_, true)) break;
    if (still_there(shard_lock_, share)) {
      shard_lock_path_ = share;  // ours to remove
      return;
    }
    close_lock(shard_lock_);  // whoever held it before has just finished and removed it
  }
  close_lock(shard_lock_);
  close_lock(lock_);
  throw WriteFault(Cause::exists, "another run is at work on the same share of " + output_);
}

/// What a killed run was writing. Only who is alone may tell it from what another shard is writing.
void Parts::clean() {
  if (!alone_) return;
  for (const std::string& name : list(folder_))
    if (is_temporary(name) || name.starts_with("lock-")) unlink(path_of(name).c_str());
}

std::string Parts::part_of(const std::string& name) const { return path_of(name + std::string(part_end)); }

std::string Parts::temporary() const { return path_of("result.tmp-" + std::to_string(getpid())); }

std::vector<std::string> Parts::names() const {
  const std::lock_guard guard(mutex_);
  return {names_.begin(), names_.end()};
}

bool Parts::has(const std::string& name) const {
  const std::lock_guard guard(mutex_);
  return names_.count(name) != 0;
}

bool Parts::empty() const {
  const std::lock_guard guard(mutex_);
  return names_.empty();
}

void Parts::look_again() {
  const std::lock_guard guard(mutex_);
  names_.clear();
  for (const std::string& name : list(folder_))
    if (name.ends_with(part_end)) names_.insert(name.substr(0, name.size() - part_end.size()));
}

std::optional<std::string> Parts::read(const std::string& name) {
  if (!has(name)) return std::nullopt;
  auto content = read_part(part_of(name), mark_, name);
  if (!content) remove(name);
  return content;
}

void Parts::write(const std::string& name, std::string_view content) {
  const std::string path = part_of(name);
  const auto thread = std::hash<std::thread::id>{}(std::this_thread::get_id());
  const std::string temporary = path + ".tmp-" + std::to_string(getpid()) + "-" + std::to_string(thread);
  if (const int error = write_part(temporary, mark_, name, content); error != 0) {
    unlink(temporary.c_str());
    part_fault(output_, error, path);
  }
  if (rename(temporary.c_str(), path.c_str()) != 0) {
    const int error = errno;
    unlink(temporary.c_str());
    part_fault(output_, error, path);
  }
  if (const int error = sync_folder(folder_); error != 0) part_fault(output_, error, path);
  const std::lock_guard guard(mutex_);
  names_.insert(name);
}

void Parts::remove(const std::string& name) {
  unlink(part_of(name).c_str());
  const std::lock_guard guard(mutex_);
  names_.erase(name);
}

bool Parts::take_all() {
  if (alone_) return true;
  try_lock(lock_, Lock::none);
  if (!shard_lock_path_.empty()) unlink(shard_lock_path_.c_str());
  shard_lock_path_.clear();
  close_lock(shard_lock_);
  if (!wait_for_lock(lock_)) throw_write_fault(output_, errno, "its folder cannot be locked");
  alone_ = true;
  if (!still_there(lock_, path_of("lock"))) {
    finished_ = true;  // by the other
    return false;
  }
  clean();  // nobody else is writing here now
  look_again();
  return true;
}

void Parts::finish() {
  for (const std::string& name : names()) remove(name);
  clean();
  unlink(path_of("lock").c_str());
  rmdir(folder_.c_str());  // stays when somebody has put something of his own into it
  finished_ = true;
}

void remove_parts(const std::string& output) {
  struct stat what {};
  if (stat((output + ".d").c_str(), &what) != 0) return;
  Parts(output, 0, Earlier::discard, true).finish();
}

}  // namespace rackwright::results
