#pragma once
// The scenario as a result file keeps it: every key with its value, as text, and what a chosen design changes in it.

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace rackwright::report {

/// KEY, VALUE as a design sets them.
using Setting = std::pair<std::string, std::string>;

/// Looks keys up in the resolved text of a file (one key a line). Keys of lists are addressed by name:
/// "grain.barley.price".
class StoredScenario {
 public:
  explicit StoredScenario(std::string_view resolved, const std::vector<Setting>& settings = {});

  struct Section {
    std::string name;  ///< "rack", or "grain.barley" for one of a list; "" for the keys on top
    std::vector<Setting> items{};
  };
  [[nodiscard]] const std::vector<Section>& sections() const { return sections_; }
  /// Values of one list's items by name: names("grain").
  [[nodiscard]] std::vector<std::string> names(std::string_view list) const;
  [[nodiscard]] std::optional<std::string> text(std::string_view key) const;
  /// In that native unit; nothing where the key is absent or no number.
  [[nodiscard]] std::optional<double> number(std::string_view key, std::string_view unit) const;

 private:
  /// The settings with what kits among them bring.
  [[nodiscard]] std::vector<Setting> with_kits(const std::vector<Setting>& settings) const;

  std::vector<Section> sections_;
};

}  // namespace rackwright::report
