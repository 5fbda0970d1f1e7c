#include "sim/results/seal.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

namespace rackwright::results {
namespace {

constexpr std::string_view mark = "rackwright seal\n";
constexpr std::size_t seal_size = mark.size() + sizeof(std::uint64_t);

constexpr std::array<std::uint64_t, 256> make_table() {
  std::array<std::uint64_t, 256> table{};
  for (std::size_t i = 0; i < table.size(); ++i) {
    std::uint64_t value = i;
    for (int bit = 0; bit < 8; ++bit) value = (value >> 1) ^ ((value & 1) != 0 ? 0xC96C5795D7870F42ULL : 0ULL);
    table[i] = value;
  }
  return table;
}
constexpr std::array<std::uint64_t, 256> table = make_table();

[[noreturn]] void fail() { throw std::system_error(errno, std::generic_category()); }

class File {
 public:
  File(const std::string& path, int flags) : file_(open(path.c_str(), flags | O_CLOEXEC)) { if (file_ < 0) fail(); }
  ~File() { if (file_ >= 0) ::close(file_); }
  File(const File&) = delete;
  File& operator=(const File&) = delete;

  [[nodiscard]] std::size_t size() const {
    const off_t end = lseek(file_, 0, SEEK_END);
    if (end < 0) fail();
    return static_cast<std::size_t>(end);
  }
  /// Reads up to `size` bytes at a place; fewer only at the end of the file.
  std::size_t read_at(std::size_t place, char* data, std::size_t size) const {
    std::size_t got = 0;
    while (got < size) {
      const ssize_t n = pread(file_, data + got, size - got, static_cast<off_t>(place + got));
      if (n < 0 && errno == EINTR) continue;
      if (n < 0) fail();
      if (n == 0) break;
      got += static_cast<std::size_t>(n);
    }
    return got;
  }
  void write_at(std::size_t place, const char* data, std::size_t size) const {
    for (std::size_t done = 0; done < size;) {
      const ssize_t n = pwrite(file_, data + done, size - done, static_cast<off_t>(place + done));
      if (n < 0 && errno == EINTR) continue;
      if (n < 0) fail();
      done += static_cast<std::size_t>(n);
    }
  }
  void close() { if (::close(std::exchange(file_, -1)) != 0) fail(); }

 private:
  int file_;
};

std::uint64_t crc_of(const File& file, std::size_t size) {
  std::vector<char> buffer(1 << 18);
  std::uint64_t crc = 0;
  for (std::size_t place = 0; place < size;) {
    const std::size_t got = file.read_at(place, buffer.data(), std::min(buffer.size(), size - place));
    if (got == 0) break;
    crc = crc64(buffer.data(), got, crc);
    place += got;
  }
  return crc;
}

/// The seal of a file with that checksum; low byte first on every machine.
std::array<char, seal_size> seal_for(std::uint64_t crc) {
  std::array<char, seal_size> seal{};
  std::copy(mark.begin(), mark.end(), seal.begin());
  for (std::size_t i = 0; i < sizeof crc; ++i) seal[mark.size() + i] = static_cast<char>(crc >> (8 * i) & 0xFF);
  return seal;
}

}  // namespace

std::uint64_t crc64(const void* data, std::size_t size, std::uint64_t before) {
  const auto* bytes = static_cast<const unsigned char*>(data);
  std::uint64_t crc = ~before;
  for (std::size_t i = 0; i < size; ++i) crc = table[(crc ^ bytes[i]) & 0xFF] ^ (crc >> 8);
  return ~crc;
}

std::string seal_text(std::uint64_t crc) {
  const auto seal = seal_for(crc);
  return {seal.begin(), seal.end()};
}

void seal_file(const std::string& path) {
  File file(path, O_RDWR);
  const std::size_t size = file.size();
  const auto seal = seal_for(crc_of(file, size));
  file.write_at(size, seal.data(), seal.size());
  file.close();
}

Seal check_seal(const std::string& path) {
  const File file(path, O_RDONLY);
  const std::size_t size = file.size();
  if (size < seal_size) return Seal::absent;
  std::array<char, seal_size> seal{};
  if (file.read_at(size - seal_size, seal.data(), seal_size) < seal_size) return Seal::absent;
  if (!std::equal(mark.begin(), mark.end(), seal.begin())) return Seal::absent;
  return seal == seal_for(crc_of(file, size - seal_size)) ? Seal::good : Seal::broken;
}

}  // namespace rackwright::results
