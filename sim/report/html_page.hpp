#pragma once
// A result file as one page for a browser or a printer, complete in itself.

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "sim/report/html_scenario.hpp"
#include "sim/results/result_file.hpp"

namespace rackwright::report {

/// What follows from the stored scenario by arithmetic, worked out above this layer, ready to read.
struct DesignFact {
  std::string label, value, remark, key = {};
};
struct DesignSection {
  std::string key, title;  ///< key: line, grain, rack, water, work
  std::vector<DesignFact> facts;
};
struct DesignFacts {
  std::vector<DesignSection> sections{};
  std::vector<std::string> cautions{};  ///< of this very design; where empty the file's own are shown
  std::vector<std::string> tiers{};     ///< one sentence a tier about its water, lowest first
  /// Where the default of a key comes from: by dotted name, of lists without the entry's name ("grain.price").
  std::map<std::string, std::string, std::less<>> sources{};
};

/// What the design on the page sets: the recommended one of a size file, else the nearest miss; the best point of a sweep;
/// nothing for simulate.
std::vector<Setting> design_settings(const results::ResultFile& file);

/// The whole page. Nothing in it points outside of it, and every text of the file shows as text. Bands and causes need
/// results::Part::everything.
std::string html_page(const results::ResultFile& file, const DesignFacts& facts);

}  // namespace rackwright::report
