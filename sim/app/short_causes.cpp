#include "sim/app/short_causes.hpp"

#include <algorithm>
#include <array>
#include <numeric>
#include <string>
#include <vector>

#include "sim/app/interrupt.hpp"
#include "sim/app/journal_story.hpp"
#include "sim/replication/replicate.hpp"

namespace rackwright::app {
namespace {

constexpr std::uint32_t most_told = 16;

/// Explains every short feeding of the counted days and keeps the counts.
class Listener : public Journal {
 public:
  explicit Listener(const Plan& plan) : story_(usual_of(plan), plan.scenario.run, plan.scenario.units) {}
  void note(std::int64_t minutes, const Happening& happening) override {
    if (story_.note(minutes, happening)) story_.explain();
  }
  void tell(std::int64_t, const std::string&) override {}
  [[nodiscard]] const Story::Counts& counts() const { return story_.counts(); }

 private:
  Story story_;
};

}  // namespace

results::Arrays short_causes(const Plan& plan, std::uint64_t random_seed, std::uint32_t replications, study::PieceMemory& memory) {
  const std::uint32_t told = std::min(replications, most_told);
  const auto played = study::remembered(&memory, "short-causes", &catch_interrupts(), [&] {
    std::vector<Story::Counts> all;
    Replicator replicator(plan);
    for (std::uint32_t r = 0; r < told && !catch_interrupts().load(); ++r) {
      Listener listener(plan);
      replicator.run(random_seed, r, &listener);
      all.push_back(listener.counts());
    }
    return all;
  });
  if (catch_interrupts().load()) return {};
  Story::Counts sum{};
  for (const Story::Counts& one : played)
    for (std::size_t c = 0; c < cause_count; ++c) sum[c].feedings += one[c].feedings, sum[c].kilograms += one[c].kilograms;
  std::vector<std::size_t> order;
  for (std::size_t c = 0; c < cause_count; ++c)
    if (sum[c].feedings > 0) order.push_back(c);
  if (order.empty()) return {};
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return sum[a].kilograms > sum[b].kilograms; });
  const double a_year = 365.0 / plan.horizon_days / static_cast<double>(played.size());
  std::vector<std::string> causes;
  std::vector<double> feedings, missing;
  for (const std::size_t c : order) {
    causes.push_back(cause_words(static_cast<Cause>(c)));
    feedings.push_back(sum[c].feedings * a_year);
    missing.push_back(sum[c].kilograms * a_year);
  }
  return {{"shortage/cause", results::row(causes)},
          {"shortage/feedings", results::row(feedings)},
          {"shortage/missing", results::row(missing)},
          {"shortage/replications", results::number(static_cast<double>(played.size()))}};
}

}  // namespace rackwright::app
