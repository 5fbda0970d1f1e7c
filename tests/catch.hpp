#pragma once
// One include for Catch2 version 2 and version 3.
#if __has_include(<catch2/catch_all.hpp>)
#include <catch2/catch_all.hpp>
using Catch::Approx;
#else
#include <catch2/catch.hpp>
#endif

/// Equal to within `margin`, and to nothing wider: Approx would take 1.2e-5 of the value as well, whatever margin it is given.
inline Approx near(double value, double margin) { return Approx(value).epsilon(0.0).margin(margin); }
