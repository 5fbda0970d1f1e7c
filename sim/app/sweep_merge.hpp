#pragma once
// The parts of a sweep made into one file.

#include "sim/app/load.hpp"
#include "sim/app/options.hpp"
#include "sim/app/study_output.hpp"
#include "sim/study/sweep.hpp"

namespace rackwright::app {

/// Reads one part at a time, in order: memory does not grow with the points. Every block must be there.
void merge_sweep(const Loaded& loaded, const Options& options, const study::Sweep& sweep, const StudyMark& mark,
                 results::Parts& parts);

}  // namespace rackwright::app
