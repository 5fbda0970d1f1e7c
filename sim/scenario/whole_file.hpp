#pragma once
// A whole file as text, of bounded size.

#include <cstddef>
#include <string>
#include <variant>

namespace rackwright {

/// Why a file could not be read, as it goes behind its name.
struct FileFault { std::string why; };

/// What may stand behind a name: what a scenario names must be a file, what the keeper types may be a pipe.
enum class FileKind { regular, any };

/// All bytes, of at most `mebibytes`; of a pipe or device no more than one beyond them is read. Never throws.
std::variant<std::string, FileFault> whole_file(const std::string& path, std::size_t mebibytes, FileKind kind);

}  // namespace rackwright
