#pragma once
// One part file, one folder and one lock at the level of the system. Errors are errno values: who calls has the words.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace rackwright::results {

/// Writes, closes and brings to disk. 0, or the errno of what failed.
int write_part(const std::string& path, std::uint64_t mark, const std::string& name, std::string_view content);
/// The content, when the file is whole and bears that mark and name.
std::optional<std::string> read_part(const std::string& path, std::uint64_t mark, const std::string& name);
/// The mark of the study it says it belongs to; nothing when it does not even begin like a part.
std::optional<std::uint64_t> mark_of(const std::string& path);
/// Brings the names in a folder to disk. 0, or an errno.
int sync_folder(const std::string& folder);

enum class Lock { none, shared, alone };
/// Locks an open file at once, or says false when another holds it.
bool try_lock(int file, Lock lock);
inline bool try_lock(int file, bool alone) { return try_lock(file, alone ? Lock::alone : Lock::shared); }
/// Waits until it can have it alone; false on an error.
bool wait_for_lock(int file);
/// Closes and forgets.
void close_lock(int& file);

}  // namespace rackwright::results
