#pragma once
// The way that a tier's water takes, and what is lost on it.

#include <cstddef>
#include <vector>

#include "models/water/network.hpp"

namespace rackwright::water {

/// Indices of the pipes from the source to a tier (0 the lowest), in order; where ways join, the one that brings most. Pressure goes before what falls;
/// a tier that gets only what falls has the way of the tiers it falls from before its drops. The solution must be the network's.
std::vector<int> way_to(const Network& network, const Solution& solution, std::size_t tier);

/// Head that the water loses from one end of a pipe to the other; nothing over a drop.
Metres head_lost(const Network& network, const Solution& solution, int pipe);

/// The pipe of a tier's way that loses most head, the one nearest to the source of several; -1 where none loses any.
int costliest_pipe(const Network& network, const Solution& solution, std::size_t tier);

}  // namespace rackwright::water
