#pragma once
// Plain values to bytes and back, for part files: read by the program that wrote them and by no other.

#include <cstdint>
#include <cstring>
#include <stdexcept>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

namespace rackwright::results {

class ByteWriter {
 public:
  template <class T>
  void put(const T& value) {
    static_assert(std::is_trivially_copyable_v<T>);
    const auto before = bytes_.size();
    bytes_.resize(before + sizeof value);
    std::memcpy(bytes_.data() + before, &value, sizeof value);
  }
  void put_text(std::string_view text) {
    put(static_cast<std::uint64_t>(text.size()));
    bytes_.append(text);
  }
  template <class T>
  void put_rows(const std::vector<T>& rows) {
    static_assert(std::is_trivially_copyable_v<T>);
    put(static_cast<std::uint64_t>(rows.size()));
    const auto before = bytes_.size();
    bytes_.resize(before + rows.size() * sizeof(T));
    if (!rows.empty()) std::memcpy(bytes_.data() + before, rows.data(), rows.size() * sizeof(T));
  }
  [[nodiscard]] std::string take() { return std::move(bytes_); }

 private:
  std::string bytes_{};
};

/// Reads in the order of writing; throws std::runtime_error when the bytes end too early.
class ByteReader {
 public:
  explicit ByteReader(std::string_view bytes) : left_(bytes) {}

  template <class T>
  T get() {
    static_assert(std::is_trivially_copyable_v<T>);
    T value{};
    std::memcpy(&value, take(sizeof value), sizeof value);
    return value;
  }
  std::string text() {
    const auto size = get<std::uint64_t>();
    return {take(size), static_cast<std::size_t>(size)};
  }
  template <class T>
  std::vector<T> rows() {
    static_assert(std::is_trivially_copyable_v<T>);
    const auto count = get<std::uint64_t>();
    if (count > left_.size() / sizeof(T)) throw std::runtime_error("a part file ends too early");
    std::vector<T> rows(static_cast<std::size_t>(count));
    if (count > 0) std::memcpy(rows.data(), take(count * sizeof(T)), static_cast<std::size_t>(count) * sizeof(T));
    return rows;
  }

 private:
  const char* take(std::uint64_t size) {
    if (size > left_.size()) throw std::runtime_error("a part file ends too early");
    const char* at = left_.data();
    left_.remove_prefix(static_cast<std::size_t>(size));
    return at;
  }

  std::string_view left_;
};

}  // namespace rackwright::results
