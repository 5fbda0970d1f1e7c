#pragma once
// A checksum over a whole file, standing behind its last byte. HDF5 ignores what follows its own end, and does not
// check text, tables of contents or heaps; on damaged ones it can crash. So nothing unsealed is given to it.

#include <cstddef>
#include <cstdint>
#include <string>

namespace rackwright::results {

/// CRC-64 with the polynomial of ECMA-182, bits reflected, continued from `before`.
std::uint64_t crc64(const void* data, std::size_t size, std::uint64_t before = 0);

/// Adds the seal to a finished file. Throws std::system_error.
void seal_file(const std::string& path);

/// The seal's own 24 bytes for that checksum.
std::string seal_text(std::uint64_t crc);

enum class Seal { good, broken, absent };
/// Throws std::system_error when the file cannot be read.
Seal check_seal(const std::string& path);

}  // namespace rackwright::results
