#include "sim/app/show.hpp"

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
              {"replications", file.at("design/replications").numbers[candidate]}};
  for (const char* quantity :
       {"success", "fill_rate", "cost_year", "short_days", "spoiled_trays", "overdue_trays", "labour"})
    one[quantity] = interval(file.design(quantity, candidate));
  return one;
}

Json texts_or_numbers(const results::Array& array) {
  return array.texts.empty() ? Json(array.numbers) : Json(array.texts);
}

// Everything of a sweep that does not grow with its points, as it stands in the file.
Json sweep(const ResultFile& file) {
  Json all = Json::object();
  for (const auto& [path, array] : file.arrays) {
    if (!path.starts_with("sweep/")) continue;
    const Json values = texts_or_numbers(array);
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
        if (array.texts.empty()) value.push_back(array.numbers[k]);
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
  if (const auto chosen = file.number("design/chosen")) {
    all["chosen"] = *chosen < 0.0 ? Json() : Json(*chosen);
    const double nearest = file.number("design/nearest").value_or(-1.0);
    all["nearest"] = nearest < 0.0 ? Json() : Json(nearest);
    all["binding"] = file.text("design/binding");
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
