#pragma once
// A whole file as text, of bounded size.

#include <cstddef>
#include <string>
#include <variant>

namespace rackwright {

/// Why a file could not be read, as it goes behind its name.
struct FileFault { std::string why; };

/// The bytes of a regular file of at most `mebibytes`; never throws.
std::variant<std::string, FileFault> whole_file(const std::string& path, std::size_t mebibytes);

}  // namespace rackwright
