#include "sim/results/part_file.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <iterator>

#include "sim/results/bytes.hpp"
#include "sim/results/seal.hpp"

namespace rackwright::results {
namespace {

constexpr std::string_view start = "rackwright part\n";

/// What stands before the content.
std::string head(std::uint64_t mark, const std::string& name) {
  ByteWriter bytes;
  bytes.put(mark);
  bytes.put_text(name);
  return std::string(start) + bytes.take();
}

int write_all(int file, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = ::write(file, bytes.data(), bytes.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return errno;
    bytes.remove_prefix(static_cast<std::size_t>(n));
  }
  return 0;
}

std::string whole(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

}  // namespace

int write_part(const std::string& path, std::uint64_t mark, const std::string& name, std::string_view content) {
  const int file = open(path.c_str(), O_CREAT | O_TRUNC | O_WRONLY | O_CLOEXEC, 0666);
  if (file < 0) return errno;
  const std::string before = head(mark, name);
  std::uint64_t crc = crc64(before.data(), before.size());
  crc = crc64(content.data(), content.size(), crc);
  int failed = write_all(file, before);
  if (failed == 0) failed = write_all(file, content);
  if (failed == 0) failed = write_all(file, seal_text(crc));
  if (failed == 0 && fsync(file) != 0) failed = errno;
  if (close(file) != 0 && failed == 0) failed = errno;
  return failed;
}

std::optional<std::string> read_part(const std::string& path, std::uint64_t mark, const std::string& name) {
  std::string bytes = whole(path);
  const std::string before = head(mark, name);
  const std::size_t seal = seal_text(0).size();
  if (bytes.size() < before.size() + seal || !bytes.starts_with(before)) return std::nullopt;
  if (!bytes.ends_with(seal_text(crc64(bytes.data(), bytes.size() - seal)))) return std::nullopt;
  bytes.resize(bytes.size() - seal);
  return bytes.substr(before.size());
}

std::optional<std::uint64_t> mark_of(const std::string& path) {
  std::string bytes(start.size() + sizeof(std::uint64_t), '\0');
  std::ifstream file(path, std::ios::binary);
  file.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (file.gcount() != static_cast<std::streamsize>(bytes.size()) || !bytes.starts_with(start)) return std::nullopt;
  return ByteReader(std::string_view(bytes).substr(start.size())).get<std::uint64_t>();
}

int sync_folder(const std::string& folder) {
  const int file = open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (file < 0) return errno;
  const int failed = fsync(file) == 0 || errno == EINVAL ? 0 : errno;  // not every file system can
  close(file);
  return failed;
}

bool try_lock(int file, Lock lock) {
  const int how = lock == Lock::none ? LOCK_UN : lock == Lock::shared ? LOCK_SH : LOCK_EX;
  return flock(file, how | LOCK_NB) == 0;
}

bool wait_for_lock(int file) {
  while (flock(file, LOCK_EX) != 0)
    if (errno != EINTR) return false;
  return true;
}

void close_lock(int& file) {
  if (file >= 0) close(file);
  file = -1;
}

}  // namespace rackwright::results
