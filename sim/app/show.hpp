#pragma once
// What a result file says, on standard output.

#include <string>

namespace rackwright::app {

/// The report layer's page for the terminal, or the same numbers as one JSON object. Reads the file anew, so that what
/// is shown is what was written. Throws results::ReadFault.
void show_result(const std::string& path, bool json);

}  // namespace rackwright::app
