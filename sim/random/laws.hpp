#pragma once
// Samplers. Each receives the engine and keeps nothing, so a draw depends on the engine's place and the law only.
// Elementary laws are Boost.Random's: the same bits with every compiler, which the standard library does not promise.

#include <boost/random/bernoulli_distribution.hpp>
#include <boost/random/binomial_distribution.hpp>
#include <boost/random/exponential_distribution.hpp>
#include <boost/random/normal_distribution.hpp>
#include <boost/random/poisson_distribution.hpp>
#include <boost/random/uniform_01.hpp>

#include "models/base/expects.hpp"

namespace rackwright::random {

/// Uniform on [0, 1).
template <class Engine>
double uniform01(Engine& engine) {
  return boost::random::uniform_01<double>()(engine);
}

/// Uniform on [low, high).
template <class Engine>
double uniform(Engine& engine, double low, double high) {
  EXPECTS(low <= high);
  return low + (high - low) * uniform01(engine);
}

template <class Engine>
bool bernoulli(Engine& engine, double chance) {
  EXPECTS(chance >= 0.0 && chance <= 1.0);
  return boost::random::bernoulli_distribution<double>(chance)(engine);
}

/// Mean in the unit of the result. Exp(1) is the threshold of an integrated hazard.
template <class Engine>
double exponential(Engine& engine, double mean = 1.0) {
  EXPECTS(mean >= 0.0);
  return mean * boost::random::exponential_distribution<double>(1.0)(engine);
}

template <class Engine>
double normal(Engine& engine, double mean = 0.0, double sd = 1.0) {
  EXPECTS(sd >= 0.0);
  return mean + sd * boost::random::normal_distribution<double>()(engine);
}

template <class Engine>
int poisson(Engine& engine, double mean) {
  EXPECTS(mean >= 0.0);
  return mean > 0.0 ? boost::random::poisson_distribution<int, double>(mean)(engine) : 0;
}

template <class Engine>
int binomial(Engine& engine, int trials, double chance) {
  EXPECTS(trials >= 0 && chance >= 0.0 && chance <= 1.0);
  return boost::random::binomial_distribution<int, double>(trials, chance)(engine);
}

}  // namespace rackwright::random
