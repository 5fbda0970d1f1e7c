// The waiting line behind `evaluate queue`: no formula, but the kernel at work, so that it can be held against the
// formulas.

#include <cmath>

#include "sim/app/evaluate.hpp"
#include "sim/kernel/queue_models.hpp"
#include "sim/random/philox_stream.hpp"

namespace rackwright::app {

namespace {

kernel::QueueModel model_of(const Arguments& given) {
  kernel::QueueModel model;
  const double servers = given.number("servers");
  if (servers != std::floor(servers)) throw BadArguments{"servers must be a whole number"};
  model.servers = static_cast<int>(servers);
  model.arrival_rate = given.number("arrival");
  model.service_rate = given.number("service");
  const std::string& kind = given.word("kind");
  if (kind != "mmc" && kind != "md1")
    throw BadArguments{"kind must be mmc (exponential service) or md1 (constant service, one server), not \"" + kind +
                       "\""};
  if (kind == "md1" && model.servers != 1) throw BadArguments{"kind=md1 has one server"};
  if (kind == "md1") model.service = kernel::ServiceLaw::constant;
  const double use = model.utilisation();
  if (use >= 0.99)
    throw BadArguments{
        "arrival / (servers * service) must be below 0.99, or the line has no end or takes too long to settle"};
  if (use < 1e-6) throw BadArguments{"arrival / (servers * service) must be at least 1e-6, or nobody ever waits"};
  return model;
}

std::vector<Result> run_queue(const Arguments& given) {
  const kernel::QueueModel model = model_of(given);
  random::Stream engine(random::make_key(static_cast<std::uint64_t>(given.number("random_seed")), 0),
                        random::Purpose::queue);
  const kernel::QueueResult answer = kernel::run_queue(model, kernel::plan_for(model), engine);
  return {{"wait_probability", answer.wait_probability.mean, "1"},
          {"wait_probability_standard_error", answer.wait_probability.standard_error, "1"},
          {"wait", answer.wait.mean, "1"},
          {"wait_standard_error", answer.wait.standard_error, "1"}};
}

}  // namespace

std::vector<Evaluator> queue_evaluators() {
  return {
      {.name = "queue",
       .sentence = "A waiting line in steady state, run on the event kernel; rates and waits in any one unit of time.",
       .source =
           "simulated, batch means; to be held against Erlang 1917 (M/M/c) and Pollaczek 1930, Khinchine 1932 (M/D/1)",
       .arguments = {{.name = "servers",
                      .unit = "1",
                      .standard = "1",
                      .least = 1.0,
                      .most = 1000.0,
                      .sentence = "how many serve"},
                     {.name = "arrival",
                      .unit = "1",
                      .standard = "",
                      .least = 1e-9,
                      .most = 1e9,
                      .sentence = "arrivals per unit of time"},
                     {.name = "service",
                      .unit = "1",
                      .standard = "",
                      .least = 1e-9,
                      .most = 1e9,
                      .sentence = "services per unit of time of one busy server"},
                     {.name = "kind",
                      .unit = "",
                      .standard = "mmc",
                      .sentence = "mmc: exponential service; md1: constant service, one server"},
                     {.name = "random_seed",
                      .unit = "1",
                      .standard = "1",
                      .least = 0.0,
                      .most = 9e15,
                      .sentence = "master number of the luck"}},
       .run = run_queue}};
}

}  // namespace rackwright::app
