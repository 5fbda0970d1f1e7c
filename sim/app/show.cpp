#include "sim/app/show.hpp"

#include <cmath>
#include <cstdint>
#include <cstdio>
#include <nlohmann/json.hpp>

#include <fmt/core.h>

#include "sim/report/text.hpp"
#include "sim/results/result_file.hpp"
#include "sim/results/schema.hpp"

namespace rackwright::app {

namespace {

using Json = nlohmann::ordered_json;
using results::ResultFile;

/// A number of the file: counts, indices and switches, which the schema calls whole, as whole numbers.
Json value_of(double value, const results::Dataset* dataset) {
  constexpr double exact = 9007199254740992.0;  // 2^53: whole numbers are exact up to there
  const bool whole = dataset != nullptr && dataset->type == results::Type::whole && std::abs(value) <= exact && value == std::trunc(value);
  return whole ? Json(static_cast<std::int64_t>(value)) : Json(value);
}

Json interval(const study::Estimate& e) { return {{"mean", e.mean}, {"low", e.low}, {"high", e.high}}; }

Json summary(const ResultFile& file) {
  Json all = Json::object();
  const auto* names = file.find("summary/quantity");
  if (names == nullptr) return all;
  const auto& units = file.at("summary/unit").texts;
  for (std::size_t i = 0; i < names->texts.size(); ++i) {
    Json one = interval(file.estimate(names->texts[i]).value());
    one["unit"] = units[i];
    all[names->texts[i]] = one;
  }
  return all;
}

/// How sure: each quantity with luck alone, with the unmeasured numbers off as well, and the share of the spread that is not knowing.
Json doubt(const ResultFile& file) {
  Json all = Json::object();
  const auto& names = file.at("doubt/quantity").texts;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const auto at = [&](const char* path) { return file.at(path).numbers[i]; };
    const auto range = [&](const char* mean, const char* low, const char* high) { return Json{{"mean", at(mean)}, {"low", at(low)}, {"high", at(high)}}; };
    all[names[i]] = {{"luck", range("doubt/luck_mean", "doubt/luck_low", "doubt/luck_high")},
                     {"both", range("doubt/both_mean", "doubt/both_low", "doubt/both_high")},
                     {"share", range("doubt/share", "doubt/share_low", "doubt/share_high")},
                     {"unit", file.at("doubt/unit").texts[i]}};
    all[names[i]]["luck"]["sd"] = at("doubt/luck_sd");
  }
  return all;
}

Json design(const ResultFile& file, std::size_t candidate) {
  Json choices = Json::object();
  if (const auto* keys = file.find("design/choice")) {
    const auto& values = file.at("design/value").texts;
    for (std::size_t k = 0; k < keys->texts.size(); ++k)
      choices[keys->texts[k]] = values[candidate * keys->texts.size() + k];
  }
  Json one = {{"candidate", candidate},
              {"choices", choices},
              {"verdict", file.at("design/verdict").texts[candidate]},
              {"why", file.at("design/why").texts[candidate]},
              {"replications", value_of(file.at("design/replications").numbers[candidate], results::find_dataset("design/replications"))}};
  for (const char* quantity :
       {"success", "fill_rate", "cost_year", "short_days", "spoiled_trays", "overdue_trays", "labour"})
    one[quantity] = interval(file.design(quantity, candidate));
  return one;
}

Json texts_or_numbers(const std::string& path, const results::Array& array) {
  if (!array.texts.empty()) return Json(array.texts);
  Json values = Json::array();
  for (const double value : array.numbers) values.push_back(value_of(value, results::find_dataset(path)));
  return values;
}

/// A candidate's number, or null for -1.
Json candidate_or_none(const ResultFile& file, const char* path) {
  const double at = file.number(path).value_or(-1.0);
  return at < 0.0 ? Json() : value_of(at, results::find_dataset(path));
}

// Everything of a sweep that does not grow with its points, as it stands in the file.
Json sweep(const ResultFile& file) {
  Json all = Json::object();
  for (const auto& [path, array] : file.arrays) {
    if (!path.starts_with("sweep/")) continue;
    const Json values = texts_or_numbers(path, array);
    all[path.substr(6)] = array.shape.empty() ? values.front() : values;
  }
  return all;
}

// Every dataset of a group that is a list, entry by entry.
Json entries(const ResultFile& file, const std::string& group, const std::string& dimension) {
  Json all = Json::array();
  const auto* names = file.find(group + "/" + dimension);
  if (names == nullptr) return all;
  const std::size_t count = names->shape.at(0);
  for (std::size_t i = 0; i < count; ++i) {
    Json one = Json::object();
    for (const auto& [path, array] : file.arrays) {
      if (!path.starts_with(group + "/") || array.shape.empty() || array.shape[0] != count) continue;
      const std::string name = path.substr(group.size() + 1);
      const results::Dataset* dataset = results::find_dataset(path);
      if (dataset == nullptr || dataset->dimensions.front() != dimension) continue;
      const std::size_t width = array.shape.size() > 1 ? array.shape[1] : 1;
      Json value = Json::array();
      for (std::size_t k = i * width; k < (i + 1) * width; ++k) {
        if (array.texts.empty()) value.push_back(value_of(array.numbers[k], dataset));
        else value.push_back(array.texts[k]);
      }
      one[name] = array.shape.size() > 1 ? value : value[0];
    }
    all.push_back(one);
  }
  return all;
}

Json as_json(const ResultFile& file) {
  const auto& h = file.header;
  Json all = {{"kind", h.kind},
              {"title", h.title},
              {"currency", h.currency},
              {"random_seed", h.random_seed},
              {"replications_asked", h.replications_asked},
              {"replications_completed", h.replications_completed},
              {"replications_failed", h.replications_failed}};
  if (file.find("summary/quantity") != nullptr) all["summary"] = summary(file);
  if (file.find("doubt/quantity") != nullptr) all["doubt"] = doubt(file);
  if (file.number("design/chosen")) {
    all["chosen"] = candidate_or_none(file, "design/chosen");
    all["nearest"] = candidate_or_none(file, "design/nearest");
    all["binding"] = file.text("design/binding");
    all["promise"] = file.text("design/promise");
    all["designs"] = Json::array();
    for (std::size_t i = 0; i < file.candidates(); ++i) all["designs"].push_back(design(file, i));
  }
  if (h.kind == "sweep") all["sweep"] = sweep(file);
  if (h.kind == "stress") {
    all["signs"] = file.at("stress/sign").texts;
    all["hard_times"] = entries(file, "stress", "hard_time");
    all["countermeasures"] = entries(file, "countermeasure", "trial");
  }
  if (const auto* quantities = file.find("against/quantity")) {
    all["quantities"] = quantities->texts;
    all["against"] = entries(file, "against", "change");
  }
  return all;
}

}  // namespace

void show_result(const std::string& path, bool json) {
  const ResultFile file = results::read_result(path, results::Part::summary);
  if (json)
    fmt::print("{}\n", as_json(file).dump(2));
  else
    fmt::print("{}", report::terminal_text(file));
}

}  // namespace rackwright::app
