#pragma once
// Records of a table as text: cells apart by a comma, semicolon or tab, quoted as in RFC 4180, lines ended in any way.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace rackwright {

/// One record; its cells trimmed, quotes taken off and doubled ones made one.
struct CsvRecord {
  int line = 0;                        ///< where it begins, 1-based
  std::vector<std::string> cells{};
  std::string fault{};                 ///< what is wrong with its quotes or its size; empty: nothing. Then there may be no cells.
};

/// Without blanks, tabs and returns at its ends.
std::string_view trimmed_cell(std::string_view text);
/// A heading as names are compared: "Date sown" and "date_sown" are datesown.
std::string plain_heading(std::string_view text);
/// A finite number that fills the text, a plus before it allowed; "4,5" is four and a half where `decimal_comma` says so.
std::optional<double> plain_number(std::string_view text, bool decimal_comma);

/// Walks a text. Empty lines and those that begin with # are passed over; a byte order mark too.
class CsvRecords {
 public:
  static constexpr std::size_t longest_record = 10000;  ///< bytes

  explicit CsvRecords(std::string_view text);
  /// Nothing at the end of the text.
  std::optional<CsvRecord> next();
  /// Semicolon or tab where the first record has one outside quotes and no comma, else a comma.
  [[nodiscard]] char separator() const { return separator_; }

 private:
  void find_separator();
  bool skip_to_record();
  void end_line();
  void cell(CsvRecord& record);
  void quoted_cell(CsvRecord& record);
  [[nodiscard]] bool at_end_of_line() const { return at_ >= text_.size() || text_[at_] == '\n' || text_[at_] == '\r'; }

  std::string_view text_;
  std::size_t at_ = 0;
  int line_ = 1;
  char separator_ = ',';
};

}  // namespace rackwright
