#pragma once
// Moist air by the ASHRAE forms: Hyland & Wexler saturation pressure, ideal-gas mixture (no enhancement factor).
// Source: ASHRAE Handbook Fundamentals, chapter "Psychrometrics"; equations and range on docs/models/room.md.

#include "models/base/quantity.hpp"

namespace rackwright::room {

/// Saturation pressure of water, over ice below 0.01 degC; -100 to 200 degC.
Pascals saturation_pressure(Celsius temperature);

/// Temperature whose saturation pressure is `vapour`, by a bracketed solve (1e-9 K); ends of the range where it lies outside.
Celsius dew_point(Pascals vapour);

/// State of moist air.
struct MoistAir {
  double humidity_ratio = 0.0;     ///< kg water per kg dry air [1]
  double relative_humidity = 0.0;  ///< [1]
  Celsius dew_point{};             ///< -100 degC where the air is as dry as that or drier
  double enthalpy = 0.0;           ///< per kg dry air, zero for dry air at 0 degC [kJ/kg]
  double volume = 0.0;             ///< per kg dry air [m3/kg]
};

/// From relative humidity 0..1; needs saturation pressure * humidity below `pressure`.
MoistAir from_relative_humidity(Celsius temperature, double relative_humidity, Pascals pressure = Pascals(101325.0));

/// From the thermodynamic wet bulb (over ice below 0 degC); needs wet_bulb <= temperature and a humidity ratio not below 0.
MoistAir from_wet_bulb(Celsius temperature, Celsius wet_bulb, Pascals pressure = Pascals(101325.0));

/// Humidity ratio that a wet bulb means [1]; negative where no air can show that wet bulb.
double wet_bulb_humidity_ratio(Celsius temperature, Celsius wet_bulb, Pascals pressure = Pascals(101325.0));

/// Thermodynamic wet bulb of air of a given humidity ratio, not above saturation (1e-9 K).
Celsius wet_bulb(Celsius temperature, double humidity_ratio, Pascals pressure = Pascals(101325.0));

/// Humidity ratio of saturated air [1]; needs saturation pressure below `pressure`.
double saturation_humidity_ratio(Celsius temperature, Pascals pressure = Pascals(101325.0));

/// The range of saturation_pressure.
inline constexpr Celsius coldest{-100.0};
inline constexpr Celsius hottest{200.0};

}  // namespace rackwright::room
