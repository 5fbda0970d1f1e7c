#include "sim/study/year_memory.hpp"

#include "models/base/expects.hpp"

namespace rackwright::study {
namespace {

/// A stretch of one item of work: known, or still to be simulated.
struct Piece {
  std::size_t design = 0;
  std::uint32_t first = 0, count = 0;
  bool known = false;
};

std::vector<Piece> pieces_of(const std::vector<Elimination::Work>& work, YearMemory& memory) {
  std::vector<Piece> pieces;
  for (const Elimination::Work& each : work) {
    const std::uint32_t end = each.first + each.count;
    for (std::uint32_t at = each.first; at < end;) {
      const std::uint32_t known = memory.next_known(each.design, at, end);
      if (known > at) {
        pieces.push_back({each.design, at, known - at, false});
        at = known;
        continue;
      }
      const auto years = static_cast<std::uint32_t>(memory.recall(each.design, at, end - at).size());
      EXPECTS(years > 0);
      pieces.push_back({each.design, at, years, true});
      at += years;
    }
  }
  return pieces;
}

/// Gives the sink what is known in between what is simulated.
class Joiner {
 public:
  Joiner(const std::vector<Piece>& pieces, YearMemory& memory, const std::function<void(const DesignYears&)>& sink)
      : pieces_(pieces), memory_(memory), sink_(sink) {}

  void simulated(const DesignYears& years) {
    recall();
    EXPECTS(at_ < pieces_.size() && pieces_[at_].design == years.design);
    if (years.fault.empty()) memory_.keep(years.design, pieces_[at_].first + within_, years.outcomes);
    sink_(years);
    // A task that broke off delivers no years, but its share of the piece is over all the same.
    within_ += years.asked;
    if (within_ < pieces_[at_].count) return;
    within_ = 0;
    ++at_;
  }
  void recall() {
    for (; within_ == 0 && at_ < pieces_.size() && pieces_[at_].known; ++at_) {
      const Piece& piece = pieces_[at_];
      DesignYears years{piece.design, piece.count, memory_.recall(piece.design, piece.first, piece.count), {}};
      EXPECTS(years.outcomes.size() == piece.count);
      sink_(years);
    }
  }

 private:
  const std::vector<Piece>& pieces_;
  YearMemory& memory_;
  const std::function<void(const DesignYears&)>& sink_;
  std::size_t at_ = 0;
  std::uint32_t within_ = 0;
};

}  // namespace

bool run_or_recall(const Scenario& scenario, const std::vector<std::vector<std::string>>& values,
                   const std::vector<Elimination::Work>& work, const SizeRequest& request,
                   const std::function<void(const DesignYears&)>& sink) {
  if (request.memory == nullptr) return run_designs(scenario, values, work, request, sink);
  const std::vector<Piece> pieces = pieces_of(work, *request.memory);
  std::vector<Elimination::Work> missing;
  for (const Piece& piece : pieces)
    if (!piece.known) missing.push_back({piece.design, piece.first, piece.count});
  Joiner joiner(pieces, *request.memory, sink);
  const bool whole = run_designs(scenario, values, missing, request,
                                 [&](const DesignYears& years) { joiner.simulated(years); });
  if (whole) joiner.recall();
  return whole;
}

}  // namespace rackwright::study
