#pragma once
// How far long work has come: a bar on a terminal, a line now and then elsewhere, nothing when quiet.

#include <chrono>
#include <cstddef>
#include <string>
#include <string_view>

namespace rackwright::app {

class Progress {
 public:
  explicit Progress(bool quiet);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  /// Says that `done` of `of` units of `what` are done. A new `what` begins a new bar.
  void show(std::string_view what, std::size_t done, std::size_t of);
  /// Ends the bar, so that other talk starts on a fresh line.
  void finish();

 private:
  using Clock = std::chrono::steady_clock;
  enum class Kind { none, bar, lines };
  Kind kind_;
  std::string what_{};
  Clock::time_point begun_{}, shown_{};
  std::size_t begun_at_ = 0;
  bool open_ = false;
};

}  // namespace rackwright::app
