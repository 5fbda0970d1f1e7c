#pragma once
// The file a command is asked to write.

#include <string>

#include "sim/app/options.hpp"
#include "sim/results/output_file.hpp"

namespace rackwright::app {

/// The path of --out. Throws BadInput when it is missing or is the input itself; all else the results layer refuses.
std::string output_path(const Options& options, const std::string& input);

/// Writes a text to its temporary place and closes it there. Throws a WriteFault.
void write_whole(const std::string& text, results::OutputFile& out);

}  // namespace rackwright::app
