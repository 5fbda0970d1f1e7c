// Every model of `evaluate` at the ends of its keys, at their standards and between: an answer in numbers, or a refusal in words.
#include <algorithm>
#include <cmath>
#include <exception>
#include <random>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "sim/app/evaluate.hpp"
#include "sim/app/evaluate_arguments.hpp"
#include "sim/scenario/units.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::app;

namespace {

/// A value of the key, written out, or nothing: it is left out.
std::string value_of(const Argument& key, std::mt19937_64& luck) {
  const auto pick = [&](int n) { return std::uniform_int_distribution<int>(0, n - 1)(luck); };
  const bool may_lack = !key.standard.empty() || key.optional;
  if (may_lack && pick(3) == 0) return {};
  if (key.name == "coupling") return "fair";
  if (key.name == "class") return pick(2) == 0 ? "goat-milking" : "laying-hen";
  if (key.unit.empty()) return std::string(key.standard);
  const auto one = [&] {
    const int kind = pick(4);
    const double share = kind == 0 ? 0.0 : kind == 1 ? 1.0 : std::uniform_real_distribution<double>(0.0, 1.0)(luck);
    // Ranges over many powers of ten are drawn over the powers.
    const double value = key.least > 0.0 && key.most > 1000.0 * key.least ? key.least * std::pow(key.most / key.least, share)
                                                                          : key.least + share * (key.most - key.least);
    return fmt::format("{:.17g}", std::clamp(value, key.least, key.most));
  };
  std::string text = one();
  if (key.list) for (int more = pick(14); more > 0; --more) text += "," + one();
  return key.unit == "1" ? text : text + " " + std::string(key.unit);
}

}  // namespace

TEST_CASE("evaluators: over the whole range of every key the answer is numbers, or a refusal in words") {
  std::mt19937_64 luck(20261129);
  for (const Evaluator& model : evaluators()) {
    if (model.name == "queue") continue;  // plays until its wait is known, seconds a time; refusals are tested with its figures
    int answered = 0;
    for (int i = 0; i < 300; ++i) {
      std::vector<std::string> words;
      for (const Argument& key : model.arguments)
        if (const std::string value = value_of(key, luck); !value.empty()) words.push_back(fmt::format("{}={}", key.name, value));
      INFO(fmt::format("{} {}", model.name, fmt::join(words, " ")));
      Problems problems;
      const Arguments arguments = read_arguments(model, words, problems);
      for (const Problem& p : problems) CHECK_FALSE(p.why.empty());
      if (!problems.empty()) continue;
      try {
        for (const Result& result : model.run(arguments)) {
          INFO(result.name << " = " << result.value);
          // Half of what never germinates has germinated at no time.
          CHECK((std::isfinite(result.value) || (result.name == "median_time" && result.value > 0.0)));
          ++answered;
        }
      } catch (const BadArguments& refused) {
        CHECK_FALSE(refused.why.empty());
      } catch (const std::exception& broken) {
        FAIL_CHECK(broken.what());
      }
    }
    INFO(model.name);
    CHECK(answered > 0);
  }
}
