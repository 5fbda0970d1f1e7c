#pragma once
// Pieces of a study that were finished before and need not be worked again.

#include <atomic>
#include <cstring>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

namespace rackwright::study {

/// Remembers finished pieces by name, as bytes. Used from one thread.
class PieceMemory {
 public:
  virtual ~PieceMemory() = default;
  virtual std::optional<std::string> recall(const std::string& name) = 0;
  virtual void keep(const std::string& name, std::string_view bytes) = 0;
};

/// The rows of a piece: those `memory` (may be nullptr) knows under that name, or else what `make()` gives, which is kept
/// unless `stop` cut it short. A name stands for everything that decides the rows. Rows hold values only, none that may be unset.
template <class Make>
auto remembered(PieceMemory* memory, const std::string& name, const std::atomic<bool>* stop, const Make& make)
    -> std::invoke_result_t<const Make&> {
  using Rows = std::invoke_result_t<const Make&>;
  using Row = typename Rows::value_type;
  static_assert(std::is_trivially_copyable_v<Row> && std::is_same_v<Rows, std::vector<Row>>);
  if (memory == nullptr) return make();
  if (const auto bytes = memory->recall(name); bytes && bytes->size() % sizeof(Row) == 0) {
    Rows rows(bytes->size() / sizeof(Row));
    if (!rows.empty()) std::memcpy(rows.data(), bytes->data(), bytes->size());
    return rows;
  }
  Rows rows = make();
  const bool whole = stop == nullptr || !stop->load();
#if __has_builtin(__builtin_clear_padding)
  for (Row& row : rows) __builtin_clear_padding(&row);  // what lies between members is nobody's: a file shall not tell it
#endif
  if (whole) memory->keep(name, {reinterpret_cast<const char*>(rows.data()), rows.size() * sizeof(Row)});
  return rows;
}

}  // namespace rackwright::study
