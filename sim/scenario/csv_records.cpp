#include "sim/scenario/csv_records.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace rackwright {
namespace {

std::string trimmed(std::string_view text) {
  const auto from = text.find_first_not_of(" \t");
  return from == std::string_view::npos ? std::string() : std::string(text.substr(from, text.find_last_not_of(" \t") - from + 1));
}

}  // namespace

CsvRecords::CsvRecords(std::string_view text) : text_(text) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (text_.starts_with(byte_order_mark)) text_.remove_prefix(byte_order_mark.size());
  find_separator();
}

void CsvRecords::find_separator() {
  if (!skip_to_record()) return;
  bool quoted = false, comma = false;
  char other = ',';
  for (std::size_t i = at_; i < text_.size() && (quoted || (text_[i] != '\n' && text_[i] != '\r')); ++i) {
    const char c = text_[i];
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    comma = comma || c == ',';
    if (other == ',' && (c == ';' || c == '\t')) other = c;
  }
  if (!comma) separator_ = other;
}

// One end of line, of whichever kind.
void CsvRecords::end_line() {
  if (at_ >= text_.size()) return;
  if (text_[at_] == '\r' && at_ + 1 < text_.size() && text_[at_ + 1] == '\n') ++at_;
  ++at_;
  ++line_;
}

bool CsvRecords::skip_to_record() {
  while (at_ < text_.size()) {
    const auto first = text_.find_first_not_of(" \t", at_);
    if (first == std::string_view::npos) return false;
    const char c = text_[first];
    if (c != '#' && c != '\n' && c != '\r') return true;
    at_ = std::min(text_.find_first_of("\r\n", first), text_.size());
    end_line();
  }
  return false;
}

void CsvRecords::quoted_cell(CsvRecord& record) {
  std::string cell;
  for (++at_; at_ < text_.size(); ++at_) {
    const char c = text_[at_];
    if (c == '"') {
      if (at_ + 1 >= text_.size() || text_[at_ + 1] != '"') break;
      ++at_;
    }
    if (c == '\r' && at_ + 1 < text_.size() && text_[at_ + 1] == '\n') continue;
    const bool end = c == '\n' || c == '\r';
    if (end) ++line_;
    cell += end ? ' ' : c;
  }
  if (at_ >= text_.size()) {
    record.fault = "has a quote that is never closed";
    return;
  }
  ++at_;
  while (!at_end_of_line() && text_[at_] != separator_) {
    if (text_[at_] != ' ' && text_[at_] != '\t') record.fault = "has letters behind a closing quote; a quote inside quotes is written twice";
    ++at_;
  }
  record.cells.push_back(trimmed(cell));
}

void CsvRecords::cell(CsvRecord& record) {
  const auto start = std::min(text_.find_first_not_of(separator_ == '\t' ? " " : " \t", at_), text_.size());
  if (start < text_.size() && text_[start] == '"') {
    at_ = start;
    return quoted_cell(record);
  }
  const auto from = at_;
  while (!at_end_of_line() && text_[at_] != separator_) ++at_;
  record.cells.push_back(trimmed(text_.substr(from, at_ - from)));
}

std::optional<CsvRecord> CsvRecords::next() {
  if (!skip_to_record()) return std::nullopt;
  CsvRecord record;
  record.line = line_;
  const std::size_t start = at_;
  for (;;) {
    cell(record);
    if (at_end_of_line()) break;
    ++at_;  // the separator
  }
  if (at_ - start > longest_record && record.fault.empty()) record.fault = "is longer than 10000 letters";
  if (!record.fault.empty()) record.cells.clear();
  end_line();
  return record;
}

std::string_view trimmed_cell(std::string_view text) {
  const auto from = text.find_first_not_of(" \t\r");
  return from == std::string_view::npos ? std::string_view() : text.substr(from, text.find_last_not_of(" \t\r") - from + 1);
}

std::string plain_heading(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c >= 'A' && c <= 'Z') out += static_cast<char>(c - 'A' + 'a');
    else if (c != ' ' && c != '_' && c != '-' && c != '.') out += c;
  }
  return out;
}

std::optional<double> plain_number(std::string_view text, bool decimal_comma) {
  std::string copy(text);
  if (decimal_comma && copy.find('.') == std::string::npos) std::replace(copy.begin(), copy.end(), ',', '.');
  std::string_view digits = copy;
  if (digits.starts_with('+')) digits.remove_prefix(1);
  double value = 0.0;
  const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
  if (error != std::errc() || end != digits.data() + digits.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

}  // namespace rackwright
