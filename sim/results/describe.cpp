#include <fmt/format.h>

#include "sim/results/header.hpp"
#include "sim/results/schema.hpp"

namespace rackwright::results {
namespace {

std::string_view type_name(Type type) {
  switch (type) {
    case Type::real: return "64-bit float";
    case Type::single: return "32-bit float";
    case Type::whole: return "64-bit integer";
    case Type::text: return "text (UTF-8)";
  }
  return "";
}

std::string_view when_name(When when) {
  switch (when) {
    case When::simulate: return "simulate";
    case When::size: return "size";
    case When::sweep: return "sweep";
    case When::stress: return "stress";
    case When::sometimes: return "if any";
  }
  return "";
}

std::string dataset_row(const Dataset& d) {
  const std::string unit = d.unit == "days since" ? "days since *start_date*" : d.unit;
  return fmt::format("| `{}` | {} | {} | {} | {} | {} |\n", d.name, fmt::join(d.dimensions, ", "), type_name(d.type),
                     unit, d.long_name, when_name(d.when));
}

}  // namespace

std::string describe_results() {
  std::string page =
      "# The result file\n\n"
      "<!-- Made by `rackwright describe results` from the table in sim/results/schema.cpp; do not edit. -->\n\n"
      "One HDF5 file a study, which is also a netCDF-4 file: `ncdump -h`, h5py, xarray and R open it as it is. "
      "Dimensions are\n"
      "dimension scales; the values of each stand in the dataset of the same name. Every number carries `units` that "
      "UDUNITS\n"
      "reads and a `long_name`. Money is in the scenario's own `currency` and has unit 1. Results of a replication are "
      "totals\n"
      "over its whole run of `horizon_days`; the report scales them to a year.\n\n"
      "The file is written beside its place under another name, closed, brought to disk and only then renamed: a file "
      "that\n"
      "bears its name is whole. The same inputs give the same bytes, except `created_utc` and `command_line`. Numbers "
      "are\n"
      "checksummed by HDF5, and 24 bytes behind the file's own end (\"rackwright seal\", newline, CRC-64 of all "
      "before, low byte first)\n"
      "seal the whole; rackwright reads sealed files only, other programs need not care.\n"
      "Files hold replications in order; a study stopped early says so by `replications_completed`.\n\n"
      "## Root attributes\n\n| name | meaning |\n|---|---|\n";
  page += fmt::format(
      "| `file_type` | \"{}\" |\n| `format_version` | {}; raised when an older reader would be misled |\n"
      "| `Conventions` | \"CF-1.8\" |\n",
      file_type, format_version);
  for (const Attribute& a : header_attributes()) page += fmt::format("| `{}` | {} |\n", a.name, a.meaning);
  page += "\n*In* below: the kind of file that always has the dataset; *if any*: only files with something to say.\n";
  for (const Group& g : groups()) {
    page += fmt::format("\n## /{}\n\n{}", g.name, g.sentence);
    page += "\n\n| dataset | dimensions | type | unit | what | in |\n|---|---|---|---|---|---|\n";
    for (const Dataset& d : datasets())
      if (d.group == g.name) page += dataset_row(d);
  }
  return page;
}

}  // namespace rackwright::results
