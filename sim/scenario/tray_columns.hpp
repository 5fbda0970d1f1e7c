#pragma once
// The columns of a tray log: which is which, in what unit, and how a cell becomes a number.

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "sim/scenario/problem.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright::trays {

enum class Column { sown, lot, species, germination, grain, soak, area, room_max, room_min, days, fresh, height, spoiled, notes };
inline constexpr std::size_t column_count = 14;

/// What a column is called in messages and in the starter header.
std::string_view name_of(Column column);

/// Bytes of a piece of a file that a message shows.
inline constexpr std::size_t longest_shown = 40;

/// Where each column stands and how its numbers become native units.
struct Header {
  std::array<std::optional<std::size_t>, column_count> place{};
  std::array<double, column_count> factor{}, offset{};
  std::array<bool, column_count> has_unit{};   ///< for bare numbers of the column
  std::vector<std::string> set_aside{};        ///< names not known

  [[nodiscard]] bool has(Column column) const { return place[static_cast<std::size_t>(column)].has_value(); }
};

/// Reads the first record. Complaints go to `problems`; then the header is not to be used.
Header read_header(const std::vector<std::string>& cells, int line, std::optional<Units> units, Problems& problems);

/// The cell of a column; empty where the record is short, and where it says NA or -.
std::string_view cell(const Header& header, const std::vector<std::string>& cells, Column column);

struct Wrong { std::string why, suggestion; };
/// A cell's number in native units (%, kg, h, m2, degC, d, cm), inside the column's range; nothing where the cell is empty.
std::variant<std::optional<double>, Wrong> read_number(const Header& header, const std::vector<std::string>& cells, Column column,
                                                       bool decimal_comma);

}  // namespace rackwright::trays
