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
    badajoz = "Badajoz 1955-2015 (R package ks, tempb): 4000 years drawn with what fit weather finds there; two standard errors of 61 years "
              "(of quantiles by drawing years anew)",
    badajoz_in_r = "the same, by R's lm and acf; two standard errors of 61 years (Bartlett)";

inline constexpr std::array<Kept, 22> kept_rows{{
    {growth_model, "bias of foretold weights, pigs", "%", 0, 1.27, 0.016596, pigs, Bound::scatter},
    {growth_model, "error of foretold weights to a straight line's, pigs", "1", 0.5, 0.5, 0.93327, naive, Bound::ours},
    {growth_model, "bias of foretold weights, chicks", "%", 0, 5.31, 11.785, chicks, Bound::scatter},
    {growth_model, "error of foretold weights to a straight line's, chicks", "1", 0.5, 0.5, 1.5241, naive, Bound::ours},
    {weather_model, "0.1 % of daily maxima, drawn", "degC", 5.8, 0.438, 6.209, badajoz, Bound::scatter},
    {weather_model, "0.1 % of daily minima, drawn", "degC", -5.3, 0.61, -5.7293, badajoz, Bound::scatter},
    {weather_model, "1 % of daily maxima, drawn", "degC", 9.2, 0.395, 9.3168, badajoz, Bound::scatter},
    {weather_model, "1 % of daily minima, drawn", "degC", -3, 0.347, -3.0094, badajoz, Bound::scatter},
    {weather_model, "10 % of daily maxima, drawn", "degC", 13.6, 0.174, 13.469, badajoz, Bound::scatter},
    {weather_model, "10 % of daily minima, drawn", "degC", 2.2, 0.427, 2.0831, badajoz, Bound::scatter},
    {weather_model, "50 % of daily maxima, drawn", "degC", 22.55, 0.293, 22.397, badajoz, Bound::scatter},
    {weather_model, "50 % of daily minima, drawn", "degC", 10.4, 0.205, 10.32, badajoz, Bound::scatter},
    {weather_model, "90 % of daily maxima, drawn", "degC", 35.3, 0.295, 35.207, badajoz, Bound::scatter},
    {weather_model, "90 % of daily minima, drawn", "degC", 17.4, 0.2, 17.496, badajoz, Bound::scatter},
    {weather_model, "99 % of daily maxima, drawn", "degC", 40, 0.371, 40.184, badajoz, Bound::scatter},
    {weather_model, "99 % of daily minima, drawn", "degC", 21.4, 0.347, 21.341, badajoz, Bound::scatter},
    {weather_model, "99.9 % of daily maxima, drawn", "degC", 42.25, 0.59, 42.302, badajoz, Bound::scatter},
    {weather_model, "99.9 % of daily minima, drawn", "degC", 23.6, 0.528, 23.829, badajoz, Bound::scatter},
    {weather_model, "spread of the daily mean, drawn", "K", 2.7949, 0.0531, 2.7896, badajoz_in_r, Bound::scatter},
    {weather_model, "memory of a day, drawn", "1", 0.7756, 0.00846, 0.77312, badajoz_in_r, Bound::scatter},
    {weather_model, "spread of monthly means, drawn", "K", 1.4171, 0.0816, 1.4118, badajoz_in_r, Bound::scatter},
    {weather_model, "memory from month to month, drawn", "1", 0.30974, 0.0703, 0.31855, badajoz_in_r, Bound::scatter},
}};

/// Adds those of a model to its sheet.
void add_kept(Sheet& sheet, std::string_view model);

}  // namespace rackwright::validation
