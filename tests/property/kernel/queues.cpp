#include <cmath>

#include "sim/kernel/queue_models.hpp"
#include "sim/random/philox_stream.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::kernel;

TEST_CASE("Little's law holds in every run") {
  // The integral of the number waiting and the summed waits are kept apart. Over a finite run they differ by what those
  // still waiting at its end have waited so far: of the order of 1e-5 of the sum here.
  for (const int servers : {1, 2, 5})
    for (const ServiceLaw law : {ServiceLaw::exponential, ServiceLaw::constant}) {
      random::Stream engine(random::make_key(9, 0), random::Purpose::test, static_cast<std::uint32_t>(servers));
      Queue queue({servers, 0.7 * servers, 1.0, law}, engine);
      const QueueTotals t = queue.serve(2'000'000);
      INFO("servers " << servers << ", waits " << t.wait << ", integral " << t.waiting_time);
      CHECK(std::abs(t.waiting_time - t.wait) <= 1e-3 * t.wait);
      CHECK(t.customers == 2'000'000);
      CHECK(t.in_system_time >= t.waiting_time);
    }
}

TEST_CASE("the unit of time does not matter") {
  const auto run = [](double scale) {
    random::Stream engine(random::make_key(10, 0), random::Purpose::test);
    Queue queue({2, 1.5 / scale, 1.0 / scale, ServiceLaw::exponential}, engine);
    return queue.serve(10000);
  };
  const QueueTotals minutes = run(60.0), hours = run(1.0);
  CHECK(minutes.waited == hours.waited);
  CHECK(minutes.wait / 60.0 == Approx(hours.wait).epsilon(1e-6));
}

TEST_CASE("serving in two stretches is serving in one") {
  random::Stream a(random::make_key(11, 0), random::Purpose::test), b = a;
  const QueueModel model{3, 2.5, 1.0, ServiceLaw::exponential};
  Queue<random::Stream, Fingerprint> whole(model, a), parts(model, b);
  const QueueTotals all = whole.serve(5000), first = parts.serve(1234), second = parts.serve(5000 - 1234);
  CHECK(whole.fingerprint() == parts.fingerprint());
  CHECK(all.wait == Approx(first.wait + second.wait).epsilon(1e-12));
  CHECK(all.elapsed == Approx(first.elapsed + second.elapsed).epsilon(1e-12));
}
