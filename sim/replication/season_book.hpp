#pragma once
// Fodder wanted and served by season, for the worst one of a run.

#include <algorithm>
#include <cstddef>

namespace rackwright {

/// Fed day by day; a season of a run counts when at least four weeks of it lie in the run.
class SeasonBook {
 public:
  /// A day of a season (0 to 3) with the fodder wanted and served [kg].
  void add(std::size_t season, double wanted, double served) {
    if (season != season_) close();
    season_ = season;
    ++days_;
    wanted_ += wanted;
    served_ += served;
  }
  /// Least share served of any season that counts; `otherwise` when none does.
  [[nodiscard]] double worst(double otherwise) {
    close();
    return any_ ? worst_ : otherwise;
  }

 private:
  static constexpr int least_days = 28;
  void close() {
    if (days_ >= least_days && wanted_ > 0.0) {
      worst_ = std::min(worst_, served_ / wanted_);
      any_ = true;
    }
    days_ = 0;
    wanted_ = served_ = 0.0;
  }

  std::size_t season_ = 4;
  int days_ = 0;
  double wanted_ = 0.0, served_ = 0.0, worst_ = 1.0;
  bool any_ = false;
};

}  // namespace rackwright
