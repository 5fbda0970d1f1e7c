#pragma once
// A group of a result file as comma-separated values, for spreadsheets.

#include <string>
#include <string_view>
#include <vector>

#include "sim/results/result_file.hpp"

namespace rackwright::report {

/// The groups of this file that csv() can write.
std::vector<std::string> csv_groups(const results::ResultFile& file);

/// One line a value of the group's first dimension (of /series: a replication and day), headed by names with units; a
/// second dimension becomes more columns, named "name at value". Groups of single values give lines name,value.
/// Quoted as RFC 4180 says, lines end in LF. Expects one of csv_groups().
std::string csv(const results::ResultFile& file, std::string_view group);

}  // namespace rackwright::report
