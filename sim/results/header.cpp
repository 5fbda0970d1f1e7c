#include "sim/results/header.hpp"

#include <array>

namespace rackwright::results {
namespace {

constexpr std::array attribute_table{
    Attribute{"kind", &Header::kind, "the command that made it: simulate, size, stress or sweep"},
    Attribute{"title", &Header::title, "the scenario's title"},
    Attribute{"currency", &Header::currency, "what money is counted in"},
    Attribute{"display_units", &Header::display_units,
              "metric or us: how the report writes quantities; the file itself is always metric"},
    Attribute{"start_date", &Header::start_date, "first day of every replication"},
    Attribute{"horizon_days", &Header::horizon_days, "days of one replication"},
    Attribute{"random_seed", &Header::random_seed,
              "master seed; with the replication's number it gives the same luck again"},
    Attribute{"replications_asked", &Header::replications_asked,
              "replications asked for; for size, the most a design may get; for sweep, those of each point"},
    Attribute{"replications_completed", &Header::replications_completed, "replications in /replication"},
    Attribute{"replications_failed", &Header::replications_failed, "replications that broke off, see /failures"},
    Attribute{"command_line", &Header::command_line, "as typed"},
    Attribute{"created_utc", &Header::created_utc, "when the run began, UTC"},
    Attribute{"program_version", &Header::program_version, "version of rackwright"},
    Attribute{"commit", &Header::commit, "its source revision"},
    Attribute{"compiler", &Header::compiler, "what compiled it"},
    Attribute{"flags", &Header::flags, "with which options"},
    Attribute{"dependencies", &Header::dependencies, "versions of the libraries in use"},
};

}  // namespace

std::span<const Attribute> header_attributes() { return attribute_table; }

}  // namespace rackwright::results
