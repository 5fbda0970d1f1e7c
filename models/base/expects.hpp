#pragma once
// Contract checks: "our code is wrong". On in every build; wrong *input* is reported as a Problem instead.

namespace rackwright {

/// Throws std::logic_error naming the broken condition and where it stands.
[[noreturn]] void contract_broken(const char* kind, const char* condition, const char* file, int line);

}  // namespace rackwright

#define RACKWRIGHT_CONTRACT(kind, condition) \
  ((condition) ? static_cast<void>(0) : ::rackwright::contract_broken(kind, #condition, __FILE__, __LINE__))
/// What a function asks of its caller.
#define EXPECTS(condition) RACKWRIGHT_CONTRACT("expects", condition)
/// What a function promises its caller.
#define ENSURES(condition) RACKWRIGHT_CONTRACT("ensures", condition)
