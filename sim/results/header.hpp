#pragma once
// The root attributes of a result file: what it is, who made it, from what.

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <variant>

namespace rackwright::results {

inline constexpr std::uint64_t format_version = 1;  ///< raised when a reader of the old format would be misled
inline constexpr std::string_view file_type = "rackwright result";

struct Header {
  std::string kind = "simulate";           ///< the command: simulate, size, stress, sweep
  std::string title, currency;
  std::string display_units = "metric";    ///< metric or us: how the report writes quantities
  std::string start_date;                  ///< first day, YYYY-MM-DD
  std::uint64_t horizon_days = 0;
  std::uint64_t random_seed = 0, replications_asked = 0;
  std::uint64_t replications_completed = 0, replications_failed = 0;  ///< kept by the writer
  std::string command_line, created_utc;
  std::string program_version, commit, compiler, flags, dependencies;  ///< see build_info.hpp

  friend bool operator==(const Header&, const Header&) = default;
};

/// One root attribute: its name, where it stands in a Header, and what it means.
struct Attribute {
  std::string_view name;
  std::variant<std::string Header::*, std::uint64_t Header::*> member;
  std::string_view meaning;
};

/// All of them in file order. `file_type`, `format_version` and `Conventions` come before these in every file.
std::span<const Attribute> header_attributes();

}  // namespace rackwright::results
