#include "sim/app/play.hpp"

#include <algorithm>
#include <chrono>
#include <utility>

#include "sim/app/interrupt.hpp"
#include "sim/study/threads.hpp"

namespace rackwright::app {

namespace {

using results::Stretch;
using Clock = std::chrono::steady_clock;

// What a sudden end may cost; shorter stretches would leave cores idle more often while the last block is played.
constexpr double seconds_a_stretch = 2.0;
// Outcomes of a stretch wait in memory: a few hundred bytes each.
constexpr double most_in_a_stretch = 16384.0;
// A study that ends sooner than this is not worth a part.
constexpr double least_seconds = 0.5;

// Replications whose days are kept whole: the first few, enough to look at.
std::vector<std::uint32_t> kept_whole(std::uint32_t asked) {
  std::vector<std::uint32_t> list;
  for (std::uint32_t i = 0; i < std::min(asked, 3U); ++i) list.push_back(i);
  return list;
}

double seconds_since(Clock::time_point begun) { return std::chrono::duration<double>(Clock::now() - begun).count(); }

void join(study::Block& whole, const study::Block& block) {
  whole.outcomes.insert(whole.outcomes.end(), block.outcomes.begin(), block.outcomes.end());
  whole.failures.insert(whole.failures.end(), block.failures.begin(), block.failures.end());
  whole.series.insert(whole.series.end(), block.series.begin(), block.series.end());
}

}  // namespace

Player::Player(const Plan& plan, const Options& options, results::Parts& parts, std::string stage)
    : plan_(plan), parts_(parts), kept_(parts), progress_(options.quiet), stage_(std::move(stage)) {
  request_.random_seed = plan.scenario.run.random_seed;
  request_.threads = study::thread_count(options.threads);
  request_.series = kept_whole(replications());
  request_.stop = &catch_interrupts();
  pace_ = 4 * request_.block * static_cast<std::uint32_t>(request_.threads);
}

std::uint32_t Player::replications() const { return static_cast<std::uint32_t>(plan_.scenario.run.replications); }

bool Player::all_finished() {
  kept_ = results::KeptRuns(parts_);
  std::uint32_t end = 0;
  for (const Stretch& each : kept_.finished())
    if (each.first == end) end = each.end();
  return end == replications();
}

std::uint32_t Player::play(Stretch range, study::Bands* bands, const Sink& sink) {
  std::uint32_t at = range.first;
  for (const Stretch& each : kept_.finished()) {
    if (each.end() <= range.first || each.first >= range.end()) continue;
    const std::uint32_t begin = std::max(each.first, at);
    if (begin > at) at += fill({at, begin - at}, false, bands, sink);
    if (at < begin) break;
    if (sink) sink(kept_.read(each));
    at = std::min(each.end(), range.end());
  }
  const bool stopped_before = stopped();
  if (at < range.end() && !stopped_before) at += fill({at, range.end() - at}, true, bands, sink);
  progress_.finish();
  if (bands != nullptr) kept_.add_bands(*bands, at);
  return at - range.first;
}

std::uint32_t Player::fill(Stretch gap, bool last, study::Bands* bands, const Sink& sink) {
  study::Bands chain(days());
  std::uint32_t done = 0;
  const auto begun = Clock::now();
  while (done < gap.count && !stopped()) {
    study::RunRequest request = request_;
    request.first = gap.first + done;
    request.replications = std::min(pace_, gap.count - done);
    request.progress = [&](std::uint32_t now) { progress_.show(stage_, request.first + now, replications()); };
    study::Block stretch;
    stretch.first = request.first;
    const auto start = Clock::now();
    const std::uint32_t played = study::run_replications(plan_, request, &chain, [&](const study::Block& block) {
      join(stretch, block);
      if (sink) sink(block);
    });
    const double seconds = seconds_since(start);
    done += played;
    const bool quickly_over = !keep_all_ && last && sink && done == gap.count && seconds_since(begun) < least_seconds;
    if (played > 0 && !quickly_over) kept_.keep(stretch, played, chain, gap.first);
    const double wanted = seconds > 0.0 ? played * seconds_a_stretch / seconds : 4.0 * pace_;
    const auto next = static_cast<std::uint32_t>(std::clamp(wanted, 1.0, std::min(4.0 * pace_, most_in_a_stretch)));
    pace_ = (next + request_.block - 1) / request_.block * request_.block;
  }
  if (bands != nullptr) bands->merge(chain);
  return done;
}

}  // namespace rackwright::app
