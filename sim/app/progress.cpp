#include "sim/app/progress.hpp"
#include "sim/app/say.hpp"

#include <unistd.h>

#include <algorithm>
#include <cstdio>

#include <fmt/core.h>

namespace rackwright::app {

Progress::Progress(bool quiet) : kind_(quiet ? Kind::none : isatty(STDERR_FILENO) != 0 ? Kind::bar : Kind::lines) {}

Progress::~Progress() { finish(); }

void Progress::show(std::string_view what, std::size_t done, std::size_t of) {
  if (kind_ == Kind::none) return;
  const auto now = Clock::now();
  if (what != what_) {
    finish();
    what_ = what;
    begun_ = shown_ = now;
    begun_at_ = done;
  }
  const auto pause = kind_ == Kind::bar ? std::chrono::milliseconds(100) : std::chrono::milliseconds(10'000);
  const bool last = done >= of;
  if (now - shown_ < pause && !(last && (open_ || kind_ == Kind::bar))) return;
  shown_ = now;
  const double seconds = std::chrono::duration<double>(now - begun_).count();
  const double rate = seconds > 0.0 ? static_cast<double>(done - std::min(done, begun_at_)) / seconds : 0.0;
  const std::size_t left = of > done ? of - done : 0;
  const std::string pace =
      rate > 0.0 ? fmt::format(", {:.3g} a second, {:.0f} s left", rate, static_cast<double>(left) / rate) : "";
  if (kind_ == Kind::bar) {
    constexpr std::size_t width = 30;
    const std::size_t full = of > 0 ? std::min(width, width * done / of) : width;
    message("\r\033[K{} [{}{}] {} of {}{}", what, std::string(full, '='), std::string(width - full, ' '),
               done, of, pace);
  } else {
    message("{}: {} of {}{}\n", what, done, of, pace);
  }
  std::fflush(stderr);
  open_ = true;
}

void Progress::finish() {
  if (open_ && kind_ == Kind::bar) message("\n");
  open_ = false;
  what_.clear();
}

}  // namespace rackwright::app
