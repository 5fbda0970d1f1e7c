#include "sim/replication/beta_tables.hpp"

#include <algorithm>
#include <future>
#include <list>
#include <mutex>
#include <utility>

namespace rackwright {
namespace {

using Table = std::shared_ptr<const random::BetaTable>;

struct Kept {
  double rho;
  std::shared_future<Table> table;
};

}  // namespace

Table beta_table(double rho) {
  constexpr std::size_t most = 32;  // of 21 kB; a sweep of many over-dispersions must not keep them all
  static std::mutex mutex;
  static std::list<Kept> last;  // asked for, the latest first
  std::promise<Table> made;
  {
    std::unique_lock lock(mutex);
    const auto found = std::find_if(last.begin(), last.end(), [&](const Kept& one) { return one.rho == rho; });
    if (found != last.end()) {
      last.splice(last.begin(), last, found);
      const std::shared_future<Table> table = found->table;
      lock.unlock();
      return table.get();
    }
    last.push_front({rho, made.get_future().share()});
    if (last.size() > most) last.pop_back();
  }
  try {
    auto table = std::make_shared<const random::BetaTable>(rho);
    made.set_value(table);
    return table;
  } catch (...) {  // whoever waits for it fails alike, and the next to ask makes it anew
    made.set_exception(std::current_exception());
    const std::lock_guard lock(mutex);
    last.remove_if([&](const Kept& one) { return one.rho == rho; });
    throw;
  }
}

}  // namespace rackwright
