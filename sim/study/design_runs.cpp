#include "sim/study/design_runs.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <memory>
#include <mutex>
#include <optional>

#include "models/base/expects.hpp"
#include "sim/replication/replicate.hpp"
#include "sim/scenario/read.hpp"
#include "sim/study/threads.hpp"

namespace rackwright::study {
namespace {

/// A plan made by the first task that needs it and freed by the last: thousands of designs never stand side by side.
struct SharedPlan {
  std::once_flag once{};
  std::shared_ptr<const Plan> plan{};
  std::atomic<std::uint32_t> tasks_left{0};
};

struct Task { std::size_t work = 0; std::uint32_t first = 0, count = 0; };

std::vector<Task> split(const std::vector<Elimination::Work>& work, int threads) {
  std::uint64_t years = 0;
  for (const auto& each : work) years += each.count;
  // A few tasks a thread even out the load; short ones would make the same plan's memory anew too often.
  const auto block = static_cast<std::uint32_t>(
      std::clamp<std::uint64_t>(years / (8 * static_cast<std::uint64_t>(threads)), 8, 64));
  std::vector<Task> tasks;
  for (std::size_t w = 0; w < work.size(); ++w) {
    for (std::uint32_t done = 0; done < work[w].count; done += block) {
      tasks.push_back({w, work[w].first + done, std::min(block, work[w].count - done)});
    }
  }
  return tasks;
}

/// One thread's share: keeps its Replicator while tasks are of the same design.
class DesignWorker {
 public:
  using PlanOf = std::function<std::shared_ptr<const Plan>(std::size_t work)>;
  DesignWorker(std::uint64_t random_seed, PlanOf plan_of) : random_seed_(random_seed), plan_of_(std::move(plan_of)) {}

  std::vector<Outcome> run(const Task& task) {
    if (!replicator_ || work_ != task.work) {
      replicator_.reset();
      plan_ = plan_of_(task.work);
      replicator_.emplace(*plan_);
      work_ = task.work;
    }
    std::vector<Outcome> outcomes;
    outcomes.reserve(task.count);
    for (std::uint32_t k = 0; k < task.count; ++k) outcomes.push_back(replicator_->run(random_seed_, task.first + k));
    return outcomes;
  }
  /// After a fault its memory may be half written.
  void forget() { replicator_.reset(); }

 private:
  std::uint64_t random_seed_;
  PlanOf plan_of_;
  std::size_t work_ = 0;
  std::shared_ptr<const Plan> plan_{};
  std::optional<Replicator> replicator_{};  // after the plan it refers to
};

Plan plan_of(const Scenario& scenario, const std::vector<std::string>& values) {
  const auto design = design_of(scenario, values);
  EXPECTS(std::holds_alternative<Scenario>(design));
  return make_plan(std::get<Scenario>(design));
}

}  // namespace

std::variant<Scenario, Problems> design_of(const Scenario& scenario, const std::vector<std::string>& values) {
  EXPECTS(values.size() == scenario.choose.choices.size());
  Scenario design = scenario;
  Problems problems;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (auto problem = set_key(design, scenario.choose.choices[i].key, values[i])) problems.push_back(*problem);
  }
  design.choose.choices.clear();  // settled now; their values have been checked with the scenario
  if (problems.empty()) problems = check_scenario(design);
  if (!problems.empty()) return problems;
  return design;
}

bool run_designs(const Scenario& scenario, const std::vector<std::vector<std::string>>& values,
                 const std::vector<Elimination::Work>& work, const SizeRequest& request,
                 const std::function<void(const DesignYears&)>& sink) {
  const int threads = thread_count(request.threads);
  const std::vector<Task> tasks = split(work, threads);
  std::vector<SharedPlan> plans(work.size());
  for (const Task& task : tasks) ++plans[task.work].tasks_left;

  const auto shared_plan = [&](std::size_t w) {
    SharedPlan& shared = plans[w];
    std::call_once(shared.once,
                   [&] { shared.plan = std::make_shared<const Plan>(plan_of(scenario, values[work[w].design])); });
    return shared.plan;
  };
  const auto make_worker = [&](int) {
    return [&, worker = DesignWorker(request.random_seed, shared_plan)](std::size_t t) mutable {
      const Task& task = tasks[t];
      DesignYears years{work[task.work].design, task.count, {}, {}};
      try {
        years.outcomes = worker.run(task);
      } catch (const std::exception& fault) {
        years.fault = fault.what();
        worker.forget();
      }
      if (--plans[task.work].tasks_left == 0) plans[task.work].plan.reset();
      return years;
    };
  };
  const std::size_t delivered = work_in_order<DesignYears>(tasks.size(), threads, request.stop, make_worker,
                                                           [&](std::size_t, const DesignYears& years) { sink(years); });
  return delivered == tasks.size();
}

}  // namespace rackwright::study
