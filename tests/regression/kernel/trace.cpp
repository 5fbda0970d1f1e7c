// One number for everything that happened, in order. It may change when the order of events at an instant, the layout
// of streams, the size of a tick or the sampling of the queue changes on purpose, or log1p
// of another C library rounds a millionth of a service time the other way: then say so with the new number. A change
// for any other reason is a fault.

#include "sim/kernel/queue_models.hpp"
#include "sim/random/philox_stream.hpp"
#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::kernel;

TEST_CASE("trace of a small M/M/1 run") {
  random::Stream engine(random::make_key(1, 0), random::Purpose::test);
  Queue<random::Stream, Fingerprint> queue({1, 0.8, 1.0, ServiceLaw::exponential}, engine);
  const QueueTotals t = queue.serve(500);
  CHECK(t.waited == 381);
  CHECK(t.wait / 500.0 == near(2.410, 5e-4));
  CHECK(queue.fingerprint() == 0x0598a8d4c19406abULL);
}
