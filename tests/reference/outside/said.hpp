#pragma once
// What the other programs wrote for these tests to read. Their absence is a failure, never a pass.

#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "tests/paths.hpp"

namespace rackwright::outside {

inline const std::string folder = RACKWRIGHT_BINARY_DIR "/outside/";

inline std::ifstream open(const std::string& name) {
  std::ifstream file(folder + name);
  if (!file) throw std::runtime_error(folder + name + " is not there: run scripts/install test, then ctest -R outside");
  return file;
}

/// name,value rows.
inline std::map<std::string, double> values(const std::string& name) {
  std::ifstream file = open(name);
  std::map<std::string, double> all;
  for (std::string line; std::getline(file, line);) {
    const auto comma = line.find(',');
    if (comma == std::string::npos || line == "name,value") continue;
    all[line.substr(0, comma)] = std::stod(line.substr(comma + 1));
  }
  return all;
}

/// Rows of numbers under a header.
inline std::vector<std::vector<double>> table(const std::string& name) {
  std::ifstream file = open(name);
  std::vector<std::vector<double>> rows;
  std::string line;
  std::getline(file, line);
  while (std::getline(file, line)) {
    std::istringstream cells(line);
    std::vector<double>& row = rows.emplace_back();
    for (std::string cell; std::getline(cells, cell, ',');) row.push_back(std::stod(cell));
  }
  return rows;
}

}  // namespace rackwright::outside
