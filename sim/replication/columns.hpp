#pragma once
// Every per-replication result once: name, unit, long name, and where it stands in an Outcome. Summaries, the result
// file and the reference page are all made from this table.

#include <span>
#include <string_view>

#include "sim/replication/outcome.hpp"

namespace rackwright {

enum class ColumnType { real, whole };

struct Column {
  std::string_view name;       ///< as in the result file
  std::string_view unit;       ///< UDUNITS text; "1" for counts, shares and money
  std::string_view long_name;
  ColumnType type;
  double (*get)(const Outcome&);
  bool money = false;          ///< counted in the scenario's currency, which no unit library knows: the unit leaves it out
};

/// All columns of an Outcome in file order.
std::span<const Column> outcome_columns();
/// The column of that name, or nullptr.
const Column* find_column(std::string_view name);
/// Is that column in money, or the numerator of that ratio of columns ("cost_total/served")?
bool in_money(std::string_view quantity);

/// Every daily variable once.
struct DailyColumn {
  std::string_view name, unit, long_name;
  float DailyRow::*member;
};
std::span<const DailyColumn> daily_columns();

}  // namespace rackwright
