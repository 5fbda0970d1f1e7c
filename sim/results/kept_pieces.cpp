#include "sim/results/kept_pieces.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "sim/results/bytes.hpp"

namespace rackwright::results {
namespace {

constexpr std::string_view what = "pieces-";
constexpr std::chrono::milliseconds pause{250};

}  // namespace

KeptPieces::KeptPieces(Parts& parts) : parts_(parts) {
  for (const std::string& name : parts_.names())
    if (name.starts_with(what)) read(name);
}

void KeptPieces::read(const std::string& part) {
  next_part_ = std::max<std::uint64_t>(next_part_, std::strtoull(part.c_str() + what.size(), nullptr, 10) + 1);
  const auto content = parts_.read(part);
  if (!content) return;
  ByteReader bytes(*content);
  for (auto count = bytes.get<std::uint64_t>(); count > 0; --count) {
    std::string name = bytes.text();
    known_.insert_or_assign(std::move(name), bytes.text());
  }
}

std::optional<std::string> KeptPieces::recall(const std::string& name) {
  const auto found = known_.find(name);
  if (found == known_.end()) return std::nullopt;
  return found->second;
}

void KeptPieces::keep(const std::string& name, std::string_view bytes) {
  known_.insert_or_assign(name, std::string(bytes));
  waiting_.push_back(name);
  if (Clock::now() - flushed_ >= pause) flush();
}

void KeptPieces::flush() {
  flushed_ = Clock::now();
  if (waiting_.empty()) return;
  ByteWriter bytes;
  bytes.put(static_cast<std::uint64_t>(waiting_.size()));
  for (const std::string& name : waiting_) {
    bytes.put_text(name);
    bytes.put_text(known_.at(name));
  }
  parts_.write(fmt::format("{}{:08}", what, next_part_++), bytes.take());
  waiting_.clear();
}

}  // namespace rackwright::results
