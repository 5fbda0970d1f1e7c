#pragma once
// The tables of a result file as comma-separated values, for spreadsheets.

#include <string>
#include <string_view>
#include <vector>

#include "sim/results/result_file.hpp"

namespace rackwright::report {

/// The tables of this file: one a group, named after it, with the lines of its first dimension; one more, GROUP_DIMENSION, for every other
/// dimension that has values of its own (of a sweep its keys, words, refused points, leaders and effects); and GROUP_values for the single
/// values of a group that has tables.
std::vector<std::string> csv_tables(const results::ResultFile& file);

/// One line a value of the table's dimension (of /series: a replication and day), headed by names with units; a
/// second dimension becomes more columns, named "name at value". Points of a sweep have their keys' units in the headings, and words for what
/// is no number. Single values are lines name,value. Quoted as RFC 4180 says, lines end in LF. Expects one of csv_tables().
std::string csv(const results::ResultFile& file, std::string_view name);

}  // namespace rackwright::report
