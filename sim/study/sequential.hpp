#pragma once
// Looking more than once: deciding while replications come in, with an error that covers every look. The rules, and
// what they do not promise: docs/models/statistics.md.

#include <cstdint>
#include <vector>

#include "sim/study/moments.hpp"

namespace rackwright::study {

/// How an error is spent over the looks.
enum class Spending {
  even,  ///< the same at each look
  late   ///< twice as much at each look as at the one before: little is lost at the last look
};

/// Error of each of `looks` (> 0) looks; they sum to `error` in (0, 1). By the union bound the chance of a wrong
/// decision at any look is at most `error`, whatever the dependence between looks and whatever was decided at earlier
/// ones.
std::vector<double> spend(double error, std::size_t looks, Spending spending);

/// What the trials so far prove.
enum class Proof { open, shown, refuted };

/// Is the share of successes at least `least_share`? Exact binomial bounds at each look.
/// If the true share is below it, `shown` comes at any look with a chance of at most `error_shown`; if it is at or
/// above, `refuted` comes with at most `error_refuted`.
class ShareTest {
 public:
  ShareTest(double least_share, double error_shown, double error_refuted, std::size_t looks,
            Spending spending = Spending::late);

  /// Verdict at one look (0-based), each look to be asked once, with all trials so far.
  [[nodiscard]] Proof at(std::size_t look, std::uint64_t successes, std::uint64_t trials) const;
  [[nodiscard]] std::size_t looks() const { return shown_.size(); }
  /// Fewest successes out of `trials` that show the claim at this look; trials + 1 when not even all do.
  [[nodiscard]] std::uint64_t needed(std::size_t look, std::uint64_t trials) const;
  /// Most successes that refute it at this look, as the first count that does not: 0 when not even none does.
  [[nodiscard]] std::uint64_t refuted_below(std::size_t look, std::uint64_t trials) const;

 private:
  double least_share_;
  std::vector<double> shown_, refuted_;  ///< error by look
};

/// Chance that one look at `trials` shows "share >= least_share" at `error`, when the true share is `share`.
double chance_to_show(double share, double least_share, double error, std::uint64_t trials);
/// Fewest trials that show it when every one succeeds: 59 for 0.95 at 5 %.
std::uint64_t trials_without_failure(double least_share, double error);

/// Two costs compared on the same fortunes.
enum class Costs { open, first_cheaper, second_cheaper, alike };

/// From the moments of paired differences first - second. `alike` when the difference is surely within +-`indifference`
/// (money, >= 0). One-sided t bounds, each at `error`: a wrong "cheaper" has at most a chance of `error` when
/// differences are normal, near it otherwise; divide the error by looks and by pairs when there are several (spend).
Costs compare_costs(const Moments& difference, double error, double indifference);

}  // namespace rackwright::study
