#include "sim/results/sweep_part.hpp"

#include <fmt/format.h>

#include "sim/results/bytes.hpp"

namespace rackwright::results {

using study::SweepRow;

std::string block_part(std::uint64_t block) { return fmt::format("block-{:08}", block); }

std::string bytes_of(const std::vector<SweepRow>& rows) {
  ByteWriter bytes;
  bytes.put(static_cast<std::uint64_t>(rows.size()));
  for (const SweepRow& row : rows) {
    bytes.put(row.point);
    bytes.put(row.status);
    bytes.put(row.success);
    bytes.put(row.gap);
    bytes.put_rows(row.values);
    bytes.put_text(row.why);
    bytes.put(row.has_numbers());
    if (row.has_numbers()) bytes.put(row.spreads);
  }
  return bytes.take();
}

std::vector<SweepRow> rows_of(const std::string& content) {
  ByteReader bytes(content);
  std::vector<SweepRow> rows;
  for (auto left = bytes.get<std::uint64_t>(); left > 0; --left) {
    SweepRow row;
    row.point = bytes.get<std::uint64_t>();
    row.status = bytes.get<study::PointStatus>();
    row.success = bytes.get<double>();
    row.gap = bytes.get<double>();
    row.values = bytes.rows<double>();
    row.why = bytes.text();
    if (bytes.get<bool>()) row.spreads = bytes.get<decltype(row.spreads)>();
    else row.spreads.fill({row.success, row.success, row.success, row.success, row.success, row.success});  // all NaN
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace rackwright::results
