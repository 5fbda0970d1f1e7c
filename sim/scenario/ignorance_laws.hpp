#pragma once
// What nobody has measured of sprouting, as laws: how unsure each uncertain parameter is, and which are tied to one another. The centres
// stand with the parameters themselves. docs/models/ignorance.md lists the laws from the table here.

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "models/base/symmetric.hpp"
#include "models/germination/germination.hpp"
#include "models/growth/mat.hpp"

namespace rackwright {

/// The place is a law's identity in draws and files: append, never reorder.
enum class Law { mould, sour, pace, loss, swelling, measured_time, borrowed_time, flatness, ageing, warmth, carry, height, dead, lag, dead_power };
inline constexpr std::size_t law_count = 15;
constexpr std::size_t place_of(Law law) { return static_cast<std::size_t>(law); }

/// One law: a lognormal factor about its centre, or for `flatness` a normal cut at -1 and 1.
struct IgnoranceLaw {
  std::string_view name, what;
  double spread;             ///< standard deviation of the natural logarithm (flatness: of itself) [1]
  std::string_view source;
};
std::span<const IgnoranceLaw> ignorance_laws();
std::optional<Law> find_law(std::string_view name);

/// Two laws that go together: correlation of their scores. What a log of mats tells is often a sum of two, not either by itself.
struct Tie {
  Law first, second;
  double correlation;
  friend bool operator==(const Tie&, const Tie&) = default;
};

/// How unsure this scenario takes each to be; the laws' own where nothing else is stated.
struct Doubts {
  std::array<double, law_count> spread = usual_spread();
  std::vector<Tie> ties{};

  static std::array<double, law_count> usual_spread();
  friend bool operator==(const Doubts&, const Doubts&) = default;
};

/// Lower triangle that turns independent scores into tied ones; nothing when the ties contradict one another.
std::optional<Matrix> tied_scores(const Doubts& doubts);

/// The keeper's own line against what is published: factors on every species, 1 as published.
struct OwnLine {
  double pace = 1.0;           ///< growth days a day
  double loss = 1.0;           ///< dry matter lost, and the heat of it
  double swelling = 1.0;       ///< water a mat holds beyond soaked grain
  double height = 1.0;         ///< of a full mat
  double warmth = 1.0;         ///< how much warmer heat makes a mat
  double measured_time = 1.0, borrowed_time = 1.0;  ///< time to germinate, of species measured and borrowed
  double flatness = 0.0;       ///< spread of germination: -1 steeper, 0 as published, 1 flatter
  friend bool operator==(const OwnLine&, const OwnLine&) = default;
};

/// A species' mats on that line: pace, loss, swelling and height are taken in; the others act elsewhere.
growth::Parameters on_line(growth::Parameters species, const OwnLine& line);

}  // namespace rackwright
