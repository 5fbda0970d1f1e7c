#pragma once
// Thin strong types: one native unit per dimension, no conversion anywhere inside. Units as text live in sim/scenario.

#include <compare>

namespace rackwright {

/// A number in the native unit of its Tag. Adds with its own kind, scales by a plain number, divides by its own kind to a ratio.
template <class Tag>
class Quantity {
 public:
  constexpr Quantity() = default;
  constexpr explicit Quantity(double value) : value_(value) {}
  /// The bare number, in the native unit.
  [[nodiscard]] constexpr double value() const { return value_; }
  /// The native unit as UDUNITS spells it.
  static constexpr const char* unit = Tag::unit;

  friend constexpr auto operator<=>(Quantity, Quantity) = default;
  friend constexpr Quantity operator+(Quantity a, Quantity b) { return Quantity(a.value_ + b.value_); }
  friend constexpr Quantity operator-(Quantity a, Quantity b) { return Quantity(a.value_ - b.value_); }
  friend constexpr Quantity operator-(Quantity a) { return Quantity(-a.value_); }
  friend constexpr Quantity operator*(Quantity a, double k) { return Quantity(a.value_ * k); }
  friend constexpr Quantity operator*(double k, Quantity a) { return Quantity(k * a.value_); }
  friend constexpr Quantity operator/(Quantity a, double k) { return Quantity(a.value_ / k); }
  friend constexpr double operator/(Quantity a, Quantity b) { return a.value_ / b.value_; }
  constexpr Quantity& operator+=(Quantity other) { value_ += other.value_; return *this; }
  constexpr Quantity& operator-=(Quantity other) { value_ -= other.value_; return *this; }

 private:
  double value_ = 0.0;
};

namespace tag {
struct Mass { static constexpr const char* unit = "kg"; };
struct Time { static constexpr const char* unit = "h"; };
struct Length { static constexpr const char* unit = "m"; };
struct Area { static constexpr const char* unit = "m2"; };
struct Volume { static constexpr const char* unit = "m3"; };
struct Flow { static constexpr const char* unit = "L/h"; };
struct Temperature { static constexpr const char* unit = "degC"; };
struct TemperatureDifference { static constexpr const char* unit = "K"; };
struct Power { static constexpr const char* unit = "W"; };
struct Energy { static constexpr const char* unit = "kWh"; };
struct Pressure { static constexpr const char* unit = "Pa"; };
struct ArealDensity { static constexpr const char* unit = "kg/m2"; };
struct Density { static constexpr const char* unit = "kg/m3"; };
struct Transmittance { static constexpr const char* unit = "W/m2/K"; };
struct HeatCapacity { static constexpr const char* unit = "kJ/K"; };
struct Angle { static constexpr const char* unit = "degree"; };
struct Money { static constexpr const char* unit = "1"; };
}  // namespace tag

using Kilograms = Quantity<tag::Mass>;
using Hours = Quantity<tag::Time>;
using Metres = Quantity<tag::Length>;
using SquareMetres = Quantity<tag::Area>;
using CubicMetres = Quantity<tag::Volume>;
using LitresPerHour = Quantity<tag::Flow>;
using Celsius = Quantity<tag::Temperature>;
using Kelvins = Quantity<tag::TemperatureDifference>;
using Watts = Quantity<tag::Power>;
using KilowattHours = Quantity<tag::Energy>;
using Pascals = Quantity<tag::Pressure>;
using KilogramsPerSquareMetre = Quantity<tag::ArealDensity>;
using KilogramsPerCubicMetre = Quantity<tag::Density>;
using Transmittance = Quantity<tag::Transmittance>;
using HeatCapacity = Quantity<tag::HeatCapacity>;
using Degrees = Quantity<tag::Angle>;
using Money = Quantity<tag::Money>;

constexpr Hours days(double n) { return Hours(24.0 * n); }
constexpr double in_days(Hours t) { return t.value() / 24.0; }
constexpr SquareMetres operator*(Metres a, Metres b) { return SquareMetres(a.value() * b.value()); }
constexpr CubicMetres operator*(SquareMetres a, Metres b) { return CubicMetres(a.value() * b.value()); }
constexpr Kilograms operator*(KilogramsPerSquareMetre d, SquareMetres a) { return Kilograms(d.value() * a.value()); }
constexpr Kilograms operator*(KilogramsPerCubicMetre d, CubicMetres v) { return Kilograms(d.value() * v.value()); }
constexpr Celsius operator+(Celsius t, Kelvins d) { return Celsius(t.value() + d.value()); }

}  // namespace rackwright
