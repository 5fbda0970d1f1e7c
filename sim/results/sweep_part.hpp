#pragma once
// A block of a sweep as a part, and a sweep as datasets.

#include <string>
#include <vector>

#include "sim/results/array.hpp"
#include "sim/study/sobol_indices.hpp"
#include "sim/study/sweep_digest.hpp"
#include "sim/study/sweep_run.hpp"

namespace rackwright::results {

/// Name of a block's part.
std::string block_part(std::uint64_t block);
/// Rows to bytes and back; the latter throws std::runtime_error on bytes that end too early.
std::string bytes_of(const std::vector<study::SweepRow>& rows);
std::vector<study::SweepRow> rows_of(const std::string& content);

/// What is known before the first point: method, keys, their units, ranges and words.
Arrays sweep_arrays(const study::Sweep& sweep);
/// The next rows of the growing datasets; those of /sweep/refused only when a row has a why.
Arrays row_arrays(const study::Sweep& sweep, const std::vector<study::SweepRow>& rows);
/// Counts, leaders and effects.
Arrays digest_arrays(const study::Sweep& sweep, const study::SweepDigest& digest);
/// Indices of fill rate and cost, in this order.
Arrays index_arrays(const study::Sweep& sweep, const std::vector<study::SobolIndices>& indices);

}  // namespace rackwright::results
