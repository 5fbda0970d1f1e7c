#pragma once
// A result file in memory, and how to read one.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/results/array.hpp"
#include "sim/results/header.hpp"
#include "sim/study/summary.hpp"

namespace rackwright::results {

/// Plain values; needs no library and no open file.
struct ResultFile {
  Header header;
  Arrays arrays;  ///< by path of the schema table; what the file does not have is absent

  [[nodiscard]] const Array* find(std::string_view path) const;
  /// The dataset at that path; throws std::logic_error when the file has none (ask find() where that may be).
  [[nodiscard]] const Array& at(std::string_view path) const;
  /// A single number or text, if the file has it.
  [[nodiscard]] std::optional<double> number(std::string_view path) const;
  [[nodiscard]] std::string text(std::string_view path) const;
  /// A row of /summary by its quantity: a column, a ratio or "success".
  [[nodiscard]] std::optional<study::Estimate> estimate(std::string_view quantity) const;
  /// A column of /design with its interval, e.g. "cost_year", for one candidate.
  [[nodiscard]] study::Estimate design(std::string_view quantity, std::size_t candidate) const;
  [[nodiscard]] std::size_t candidates() const;

  friend bool operator==(const ResultFile&, const ResultFile&) = default;
};

/// How much of a file to read: everything, or all but what grows with the number of replications.
enum class Part { everything, summary };

/// Throws ReadFault, in plain words, for a file that is absent, foreign, cut short, damaged or of another version.
ResultFile read_result(const std::string& path, Part part = Part::everything);

}  // namespace rackwright::results
