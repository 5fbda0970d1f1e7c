#include "sim/study/run.hpp"

#include <algorithm>
#include <exception>
#include <memory>
#include <optional>

#include "models/base/expects.hpp"
#include "sim/replication/replicate.hpp"
#include "sim/study/threads.hpp"

namespace rackwright::study {
namespace {

/// One thread's share: its own Replicator and its own bands.
class BlockWorker {
 public:
  BlockWorker(const Plan& plan, const RunRequest& request, Bands* bands)
      : plan_(plan), request_(request), bands_(bands) {}

  Block operator()(std::size_t block_index) {
    const auto offset = static_cast<std::uint32_t>(block_index) * request_.block;
    const std::uint32_t count = std::min(request_.block, request_.replications - offset);
    Block block;
    block.first = request_.first + offset;
    block.outcomes.reserve(count);
    for (std::uint32_t k = 0; k < count; ++k) replicate(block, block.first + k);
    return block;
  }

 private:
  void replicate(Block& block, std::uint32_t replication) {
    try {
      if (!replicator_) replicator_.emplace(plan_);
      Outcome outcome = replicator_->run(request_.random_seed, replication, nullptr, replication - request_.assumptions_back);
      const auto rows = replicator_->daily();
      if (bands_ != nullptr) bands_->add(rows);
      if (std::find(request_.series.begin(), request_.series.end(), replication) != request_.series.end()) {
        block.series.push_back({replication, {rows.begin(), rows.end()}});
      }
      block.outcomes.push_back(outcome);
    } catch (const std::exception& fault) {
      block.failures.push_back({replication, fault.what()});
      replicator_.reset();  // its memory may be half written
    }
  }

  const Plan& plan_;
  const RunRequest& request_;
  Bands* bands_;
  std::optional<Replicator> replicator_{};
};

}  // namespace

std::uint32_t run_replications(const Plan& plan, const RunRequest& request, Bands* bands,
                               const std::function<void(const Block&)>& sink) {
  EXPECTS(request.block > 0);
  const std::size_t blocks = (std::size_t{request.replications} + request.block - 1) / request.block;
  const auto asked = static_cast<std::size_t>(thread_count(request.threads));
  const std::size_t threads = std::min(asked, std::max<std::size_t>(blocks, 1));
  std::vector<std::unique_ptr<Bands>> own(bands != nullptr ? threads : 0);
  for (auto& each : own) each = std::make_unique<Bands>(bands->days());

  std::uint32_t done = 0;
  work_in_order<Block>(
      blocks, static_cast<int>(threads), request.stop,
      [&](int thread) {
        return BlockWorker(plan, request, bands != nullptr ? own[static_cast<std::size_t>(thread)].get() : nullptr);
      },
      [&](std::size_t, const Block& block) {
        sink(block);
        done += static_cast<std::uint32_t>(block.outcomes.size() + block.failures.size());
        if (request.progress) request.progress(done);
      });
  for (const auto& each : own) bands->merge(*each);
  return done;
}

}  // namespace rackwright::study
