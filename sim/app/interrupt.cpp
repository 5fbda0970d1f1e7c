#include "sim/app/interrupt.hpp"

#include <csignal>

namespace rackwright::app {

namespace {

std::atomic<bool> interrupted{false};
static_assert(std::atomic<bool>::is_always_lock_free, "a signal handler may only touch lock-free atomics");

extern "C" void note_interrupt(int) { interrupted.store(true); }

}  // namespace

const std::atomic<bool>& catch_interrupts() {
  struct sigaction action {};
  action.sa_handler = note_interrupt;
  action.sa_flags = static_cast<int>(SA_RESETHAND);
  sigemptyset(&action.sa_mask);
  sigaction(SIGINT, &action, nullptr);
  sigaction(SIGTERM, &action, nullptr);
  struct sigaction before {};
  sigaction(SIGHUP, nullptr, &before);
  if (before.sa_handler != SIG_IGN) sigaction(SIGHUP, &action, nullptr);  // nohup asked for it to be ignored
  // Past the soft limit of processor time it comes again every second, until the hard limit ends the program.
  action.sa_flags = 0;
  sigaction(SIGXCPU, &action, nullptr);
  return interrupted;
}

}  // namespace rackwright::app
