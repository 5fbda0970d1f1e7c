#pragma once
// The choice itself, apart from what is simulated: which design to run next, which is out, which is best, and what that
// promises. docs/models/sizing.md gives the rules and the proof.

#include <concepts>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "sim/study/limits.hpp"
#include "sim/study/sequential.hpp"

namespace rackwright::study {

/// What the choice must promise.
struct ChoiceRules {
  std::vector<Requirement> requirements{Requirement{}};  ///< all of them must hold
  double confidence = 0.95;        ///< of the whole choice
  double indifference = 0.02;      ///< share of cost not worth a decision [1]
  std::uint32_t first_stage = 16;  ///< years every design gets
  std::uint32_t most = 2000;       ///< years a design may get
};

/// Sample sizes at which a design is looked at: first_stage, each half as many again as the last, most last.
std::vector<std::uint32_t> looks(const ChoiceRules& rules);

/// Error allowed to each part so that all together hold with the confidence asked.
struct Levels {
  double meets = 0.0;    ///< one requirement of one design wrongly shown to hold, over all its looks
  double fails = 0.0;    ///< one requirement of the best design wrongly shown to be missed, over all its looks
  double dearer = 0.0;   ///< one question of cost about one pair at one look
};
Levels levels(const ChoiceRules& rules, std::size_t designs);

/// Fewest years of one design that can show it to keep every share asked for: those of one that keeps them in all years, looked at as `rules` have it with so many
/// years that they suffice. 0 where only means are asked.
std::uint64_t least_years(const ChoiceRules& rules, std::size_t designs);

/// What is known of a design.
enum class Standing { open, meets, fails, costlier, dropped };  // costlier: whatever its target

/// Asks for years of designs and is told how they went. Same answers in, same choice out.
class Elimination {
 public:
  Elimination(std::size_t designs, const ChoiceRules& rules);

  /// Years first .. first + count - 1 of a design.
  struct Work { std::size_t design = 0; std::uint32_t first = 0, count = 0; };
  /// Looks at what was recorded and says what to run next; empty when the choice is made or the years are spent.
  std::vector<Work> next();
  /// The next year of a design, in order: what it gave for each requirement (1 or 0 where a share is asked), and what it
  /// cost.
  void record(std::size_t design, std::span<const double> given, double cost);
  template <std::same_as<bool> Success>  // nothing else that turns into a bool
  void record(std::size_t design, Success success, double cost) {
    const double given[] = {success ? 1.0 : 0.0};
    record(design, std::span<const double>(given), cost);
  }
  /// Takes a design that cannot be simulated out of the choice.
  void drop(std::size_t design);

  [[nodiscard]] std::size_t designs() const { return tries_.size(); }
  [[nodiscard]] Standing standing(std::size_t design) const {
    return tries_[design].costlier ? Standing::costlier : tries_[design].standing;
  }
  [[nodiscard]] std::uint32_t years(std::size_t design) const;
  /// Does a design look as if it met every requirement?
  [[nodiscard]] bool seems_to_meet(std::size_t design) const;
  /// Cheapest design shown to meet the target so far.
  [[nodiscard]] std::optional<std::size_t> best() const { return best_; }
  /// True when the promise holds: no design left could meet the target and be cheaper than best() by more than the
  /// indifference; or every design is shown to fail.
  [[nodiscard]] bool settled() const { return settled_; }
  /// Was this design still able to beat best() when the search ended?
  [[nodiscard]] bool rival(std::size_t design) const;
  /// Mean of cost(a) - cost(b) over the years both were simulated.
  [[nodiscard]] double cost_difference(std::size_t a, std::size_t b) const;

 private:
  struct Try {
    Standing standing = Standing::open;
    std::vector<double> costs{};  ///< by year
    std::vector<Moments> given{};      ///< by requirement
    std::vector<char> shown{};         ///< by requirement: shown to hold at some look
    std::uint32_t looked = 0;
    bool costlier = false;        ///< than best(), judged anew whenever best() has more years
    bool rival = false;           ///< may yet beat best()
  };
  [[nodiscard]] bool alive(std::size_t design) const;
  [[nodiscard]] bool can_grow(std::size_t design) const { return alive(design) && years(design) < rules_.most; }
  [[nodiscard]] double unseen_excess(std::size_t design, std::size_t common) const;
  [[nodiscard]] bool surely_dearer(std::size_t design, std::size_t than, double factor) const;
  void judge_target();
  [[nodiscard]] Proof proof_of(const Try& each, std::size_t requirement, std::size_t look) const;
  void judge_cost();
  void find_best();
  [[nodiscard]] std::vector<std::size_t> against_best() const;
  [[nodiscard]] std::vector<std::size_t> before_any_is_shown() const;
  [[nodiscard]] std::uint32_t next_look(std::uint32_t years) const;

  ChoiceRules rules_;
  Levels levels_;
  std::vector<std::uint32_t> looks_;
  std::vector<ShareTest> target_;  ///< by requirement; of a mean only its levels are used
  std::vector<Try> tries_;
  std::optional<std::size_t> best_{};
  bool settled_ = false;
};

}  // namespace rackwright::study
