// The waiting line behind `evaluate queue`: no formula, but the kernel at work, so that it can be held against the
// formulas.

#include <array>
#include <cmath>

#include <fmt/format.h>

#include "sim/app/evaluate.hpp"
#include "sim/kernel/queue_precise.hpp"
#include "sim/random/philox_stream.hpp"

namespace rackwright::app {

namespace {

struct Kind {
  std::string_view name;
  bool one_server;
  kernel::ServiceLaw service;
};
constexpr std::array<Kind, 4> kinds{{{"mmc", false, kernel::ServiceLaw::exponential},
                                     {"mm1", true, kernel::ServiceLaw::exponential},
                                     {"md1", true, kernel::ServiceLaw::constant},
                                     {"mdc", false, kernel::ServiceLaw::constant}}};

Kind kind_of(const std::string& word) {
  for (const Kind& kind : kinds) {
    if (kind.name == word) return kind;
  }
  throw BadArguments{"kind must be mmc or mm1 (exponential service), or mdc or md1 (constant service), not \"" + word +
                     "\""};
}

kernel::QueueModel model_of(const Arguments& given) {
  kernel::QueueModel model;
  const double servers = given.number("servers");
  if (servers != std::floor(servers)) throw BadArguments{"servers must be a whole number"};
  model.servers = static_cast<int>(servers);
  model.arrival_rate = given.number("arrival");
  model.service_rate = given.number("service");
  const Kind kind = kind_of(given.word("kind"));
  if (kind.one_server && model.servers != 1)
    throw BadArguments{fmt::format("kind={0} has one server; for more, kind={1}c", kind.name, kind.name.substr(0, 2))};
  model.service = kind.service;
  const double use = model.utilisation();
  if (use >= 0.99)
    throw BadArguments{
        fmt::format("arrival / (servers * service) is {:.4g}: from 1 on the line grows without end, and from 0.99 on it "
                    "takes too long to settle",
                    use)};
  if (use < 1e-6) throw BadArguments{"arrival / (servers * service) must be at least 1e-6, or nobody ever waits"};
  return model;
}

std::vector<Result> run_queue(const Arguments& given) {
  const kernel::QueueModel model = model_of(given);
  const std::string_view unit = given.unit("arrival");
  if (unit != given.unit("service"))
    throw BadArguments{"arrival and service must both be plain numbers, or both rates such as \"8 /h\""};
  random::Stream engine(random::make_key(static_cast<std::uint64_t>(given.number("random_seed")), 0),
                        random::Purpose::queue);
  const kernel::PreciseQueue answer = kernel::run_queue_precisely(model, {}, engine);
  const std::string time = unit.empty() ? "1" : "h";
  return {{"wait_probability", answer.wait_probability.mean, "1"},
          {"wait_probability_standard_error", answer.wait_probability.standard_error, "1"},
          {"wait", answer.wait.mean, time},
          {"wait_standard_error", answer.wait.standard_error, time},
          {"customers", static_cast<double>(answer.customers), "1"}};
}

}  // namespace

std::vector<Evaluator> queue_evaluators() {
  return {
      {.name = "queue",
       .sentence = "A waiting line in steady state, run on the event kernel until the standard error of the wait is below 0.2 % (or "
                   "30 million customers have come, 150 million from 90 % utilisation; from 98.6 % 160 to 310 million, "
                   "up to some minutes, which leave a standard error near 1 %); rates in any one unit of time, the wait in the same.",
       .source =
           "simulated, batch means with control variates; to be held against Erlang 1917 (M/M/c) and Pollaczek 1930, Khinchine 1932 (M/D/1)",
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
                      .sentence = "arrivals per unit of time",
                      .or_unit = "1/h"},
                     {.name = "service",
                      .unit = "1",
                      .standard = "",
                      .least = 1e-9,
                      .most = 1e9,
                      .sentence = "services per unit of time of one busy server",
                      .or_unit = "1/h"},
                     {.name = "kind",
                      .unit = "",
                      .standard = "mmc",
                      .sentence = "mmc or mm1: exponential service; mdc or md1: constant"},
                     {.name = "random_seed",
                      .unit = "1",
                      .standard = "1",
                      .least = 0.0,
                      .most = 9e15,
                      .sentence = "master number of the luck", .whole = true}},
       .run = run_queue}};
}

}  // namespace rackwright::app
