#include "sim/results/result_file.hpp"

#include <algorithm>

#include "models/base/expects.hpp"

namespace rackwright::results {

const Array* ResultFile::find(std::string_view path) const {
  const auto found = arrays.find(path);
  return found == arrays.end() ? nullptr : &found->second;
}

const Array& ResultFile::at(std::string_view path) const {
  const Array* found = find(path);
  EXPECTS(found != nullptr);
  return *found;
}

std::optional<double> ResultFile::number(std::string_view path) const {
  const Array* found = find(path);
  if (found == nullptr || found->numbers.size() != 1) return std::nullopt;
  return found->numbers.front();
}

std::string ResultFile::text(std::string_view path) const {
  const Array* found = find(path);
  return found == nullptr || found->texts.empty() ? std::string() : found->texts.front();
}

std::optional<study::Estimate> ResultFile::estimate(std::string_view quantity) const {
  const Array* names = find("summary/quantity");
  if (names == nullptr) return std::nullopt;
  const auto found = std::find(names->texts.begin(), names->texts.end(), quantity);
  if (found == names->texts.end()) return std::nullopt;
  const auto i = static_cast<std::size_t>(found - names->texts.begin());
  const auto value = [&](std::string_view path) { return at(path).numbers[i]; };
  study::Estimate e;
  e.mean = value("summary/mean");
  e.low = value("summary/low");
  e.high = value("summary/high");
  e.sd = value("summary/sd");
  e.least = value("summary/least");
  e.most = value("summary/most");
  return e;
}

study::Estimate ResultFile::design(std::string_view quantity, std::size_t candidate) const {
  EXPECTS(candidate < candidates());
  const std::string path = "design/" + std::string(quantity);
  study::Estimate e;
  e.mean = at(path).numbers[candidate];
  e.low = at(path + "_low").numbers[candidate];
  e.high = at(path + "_high").numbers[candidate];
  return e;
}

std::size_t ResultFile::candidates() const {
  const Array* found = find("design/candidate");
  return found == nullptr ? 0 : found->numbers.size();
}

}  // namespace rackwright::results
