#include "sim/replication/beta_tables.hpp"

#include <map>
#include <mutex>

namespace rackwright {

std::shared_ptr<const random::BetaTable> beta_table(double rho) {
  static std::mutex mutex;
  static std::map<double, std::shared_ptr<const random::BetaTable>> tables;
  const std::lock_guard lock(mutex);
  auto& table = tables[rho];
  if (!table) table = std::make_shared<const random::BetaTable>(rho);
  return table;
}

}  // namespace rackwright
