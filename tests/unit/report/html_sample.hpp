#pragma once
// Files for tests of the page, and a reader of markup that is as strict as XML.

#include <cctype>
#include <string>
#include <vector>

#include "sim/results/result_file.hpp"
#include "tests/unit/results/sample.hpp"

namespace rackwright::report::sample {

inline const char* const resolved =
    "title = \"Stone barn\"\nunits = \"metric\"\n\n[rack]\ntiers = 3\ntrays_per_tier = 6\ntray_length = \"0.6 m\"\n"
    "tray_width = \"0.3 m\"\ntier_spacing = \"0.4 m\"\nlowest_tier = \"0.25 m\"\n\n[line]\ndays_on_rack = 7\n"
    "batches_per_day = 1\ntrays_per_batch = 2\nsowing_density = \"5 kg/m2\"\nsoak = \"10 h\"\n\n[water]\ntank = \"120 "
    "L\"\n"
    "pump_power = \"45 W\"\n\n[choose]\n\"rack.tiers\" = [\"3\", \"5\"]\n\n[[grain]]\nname = \"barley\"\nprice = "
    "\"0.36 /kg\"\n"
    "reorder = \"60 kg\"\norder_up_to = \"250 kg\"\nbag = \"25 kg\"\n";

/// As simulate writes it, with forty replications of which those with most short days lost most mats to mould.
inline results::ResultFile simulate_file() {
  results::ResultFile file;
  file.header = results::sample::header("simulate", 40);
  file.header.replications_completed = 40;
  file.arrays = results::sample::arrays();
  file.arrays["scenario/resolved"] = results::text(resolved);
  std::vector<double> short_days, mould;
  for (int i = 0; i < 40; ++i) {
    short_days.push_back(i);
    mould.push_back(100.0 + 3.0 * i);
  }
  file.arrays["replication/short_days"] = results::row(short_days);
  file.arrays["replication/spoiled_mould"] = results::row(mould);
  return file;
}

/// A size file of three designs: 3 tiers fail, 5 are chosen, 6 cost more.
inline results::ResultFile size_file(int chosen, int nearest) {
  results::ResultFile file;
  file.header = results::sample::header("size", 2000);
  auto& a = file.arrays;
  a["scenario/resolved"] = results::text(resolved);
  a["target/fill_rate"] = results::number(0.97);
  a["target/years"] = results::number(0.9);
  a["design/candidate"] = results::row(std::vector<double>{0, 1, 2});
  a["design/choice"] = results::row(std::vector<std::string>{"rack.tiers"});
  a["design/value"] = {{3, 1}, {}, {"3", "5", "6"}};
  a["design/season"] = results::row(std::vector<std::string>{"December to February", "June to August"});
  a["design/short_season"] = {{3, 2}, {0.5, 0.5, 0.25, 0.75, 0.5, 0.5}, {}};
  a["design/verdict"] = results::row(std::vector<std::string>{"fails", "chosen", "costlier"});
  a["design/why"] =
      results::row(std::vector<std::string>{"meets the target in 40 % of years", "the cheapest", "costs 99 EUR more"});
  a["design/runner_up"] = results::row(std::vector<double>{0, 0, 1});
  a["design/replications"] = results::row(std::vector<double>{24, 384, 48});
  const auto estimate = [&](const std::string& name, std::vector<double> mean) {
    std::vector<double> low = mean, high = mean;
    for (double& v : low) v *= 0.96;
    for (double& v : high) v *= 1.01;
    a["design/" + name] = results::row(mean), a["design/" + name + "_low"] = results::row(low);
    a["design/" + name + "_high"] = results::row(high);
  };
  estimate("success", {0.4, 0.953, 0.97}), estimate("fill_rate", {0.8, 0.98, 0.99}),
      estimate("cost_year", {900, 1234, 1333});
  estimate("short_days", {90, 16, 8}), estimate("spoiled_trays", {50, 60, 70}), estimate("overdue_trays", {1, 2, 3});
  estimate("labour", {300, 365, 400});
  a["design/chosen"] = results::number(chosen), a["design/nearest"] = results::number(nearest);
  a["design/binding"] = results::text("3 tiers fall short in summer");
  a["design/spent"] = results::number(456), a["design/settled"] = results::number(1),
  a["design/stopped"] = results::number(0);
  return file;
}

/// What is wrong with the markup: unbalanced or unquoted tags, a bare < or &; empty when it is sound. Knows what the
/// page uses: elements, attributes in double quotes, entities, one doctype, and style as text.
inline std::string markup_fault(const std::string& page) {
  std::vector<std::string> open;
  std::size_t at = page.find('>') + 1;  // behind the doctype
  while (at < page.size()) {
    if (page[at] == '&') {
      const auto end = page.find(';', at);
      if (end == std::string::npos || end - at > 7) return "a bare & at " + page.substr(at, 40);
      at = end;
    } else if (page[at] == '<') {
      const auto end = page.find('>', at);
      if (end == std::string::npos) return "an open tag at the end";
      const std::string tag = page.substr(at + 1, end - at - 1);
      if (tag.find('<') != std::string::npos) return "a bare < at " + tag;
      std::size_t quotes = 0;
      for (const char c : tag) quotes += c == '"' ? 1U : 0U;
      if (quotes % 2 != 0) return "an open quote in " + tag;
      if (tag[0] == '/') {
        if (open.empty() || open.back() != tag.substr(1))
          return "</" + tag.substr(1) + "> does not close " + (open.empty() ? "" : open.back());
        open.pop_back();
      } else if (tag.back() != '/') {
        open.push_back(tag.substr(0, tag.find_first_of(" \n")));
        if (open.back() == "style")
          at = page.find("</style>", end) - 1, open.pop_back(), at += 8;
        else
          at = end;
        ++at;
        continue;
      }
      at = end;
    } else if (page[at] == '>') {
      return "a bare > at " + page.substr(at, 40);
    }
    ++at;
  }
  return open.empty() ? "" : open.back() + " is never closed";
}

}  // namespace rackwright::report::sample
