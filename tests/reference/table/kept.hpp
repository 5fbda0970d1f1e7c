#pragma once
// Comparisons with data sets that only R has. Their figures are kept here so that the page can be printed without R;
// tests/reference/outside/kept.cpp works all of them out anew and holds them to it.

#include <array>
#include <string_view>

#include "tests/reference/table/sheet.hpp"

namespace rackwright::validation {

struct Kept {
  std::string_view model, what, unit;
  double expected, tolerance, got;
  std::string_view source;
  Bound bound;
};

inline constexpr std::string_view growth_model = "herd: growth and young", weather_model = "climate";
inline constexpr std::string_view
    pigs = "72 pigs (R package geepack, dietox): weeks 9 to 12 foretold from 8 weeks of each; two standard errors over animals",
    chicks = "50 chicks on four diets (base R, ChickWeight): days 14 to 21 foretold from 12 days of each, expecting the published layer; "
             "two standard errors over animals",
    naive = "no better than a straight line through the last three weighings, a curve is worth nothing (our reading)",
    badajoz = "Badajoz 1955-2015 (R package ks, tempb): 400 years drawn with what fit weather finds there; two standard errors of 61 years "
              "(of quantiles by drawing years anew)",
    badajoz_in_r = "the same, by R's lm and acf; two standard errors of 61 years (Bartlett)";

inline constexpr std::array<Kept, 22> kept_rows{{
    {growth_model, "bias of foretold weights, pigs", "%", 0, 1.27, 0.016596, pigs, Bound::scatter},
    {growth_model, "error of foretold weights to a straight line's, pigs", "1", 0.5, 0.5, 0.93327, naive, Bound::ours},
    {growth_model, "bias of foretold weights, chicks", "%", 0, 5.31, 11.785, chicks, Bound::scatter},
    {growth_model, "error of foretold weights to a straight line's, chicks", "1", 0.5, 0.5, 1.5241, naive, Bound::ours},
    {weather_model, "0.1 % of daily maxima, drawn", "degC", 5.8, 0.438, 6.5634, badajoz, Bound::scatter},
    {weather_model, "0.1 % of daily minima, drawn", "degC", -5.3, 0.61, -6.7567, badajoz, Bound::scatter},
    {weather_model, "1 % of daily maxima, drawn", "degC", 9.2, 0.395, 9.0665, badajoz, Bound::scatter},
    {weather_model, "1 % of daily minima, drawn", "degC", -3, 0.347, -3.2217, badajoz, Bound::scatter},
    {weather_model, "10 % of daily maxima, drawn", "degC", 13.6, 0.174, 13.204, badajoz, Bound::scatter},
    {weather_model, "10 % of daily minima, drawn", "degC", 2.2, 0.427, 2.3726, badajoz, Bound::scatter},
    {weather_model, "50 % of daily maxima, drawn", "degC", 22.55, 0.293, 22.755, badajoz, Bound::scatter},
    {weather_model, "50 % of daily minima, drawn", "degC", 10.4, 0.205, 10.149, badajoz, Bound::scatter},
    {weather_model, "90 % of daily maxima, drawn", "degC", 35.3, 0.295, 34.85, badajoz, Bound::scatter},
    {weather_model, "90 % of daily minima, drawn", "degC", 17.4, 0.2, 17.825, badajoz, Bound::scatter},
    {weather_model, "99 % of daily maxima, drawn", "degC", 40, 0.371, 40.398, badajoz, Bound::scatter},
    {weather_model, "99 % of daily minima, drawn", "degC", 21.4, 0.347, 21.733, badajoz, Bound::scatter},
    {weather_model, "99.9 % of daily maxima, drawn", "degC", 42.25, 0.59, 43.853, badajoz, Bound::scatter},
    {weather_model, "99.9 % of daily minima, drawn", "degC", 23.6, 0.528, 24.303, badajoz, Bound::scatter},
    {weather_model, "spread of the daily mean, drawn", "K", 2.7949, 0.0531, 2.7993, badajoz_in_r, Bound::scatter},
    {weather_model, "memory of a day, drawn", "1", 0.7756, 0.00846, 0.77765, badajoz_in_r, Bound::scatter},
    {weather_model, "spread of monthly means, drawn", "K", 1.4171, 0.0816, 1.5103, badajoz_in_r, Bound::scatter},
    {weather_model, "memory from month to month, drawn", "1", 0.30974, 0.0703, 0.3297, badajoz_in_r, Bound::scatter},
}};

/// Adds those of a model to its sheet.
void add_kept(Sheet& sheet, std::string_view model);

}  // namespace rackwright::validation
