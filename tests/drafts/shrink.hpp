#pragma once
// From a draft that fails to the least that fails the same way.

#include <functional>
#include <string>

#include "tests/drafts/draft.hpp"

namespace rackwright::test {

/// `fails` is asked again and again with fewer statements; runs of them go first, then one by one, until none can be spared.
/// An entry of a list goes whole or loses what it can do without.
inline Draft shrunk(Draft draft, const std::function<bool(const Draft&)>& fails) {
  bool smaller = true;
  while (smaller) {
    smaller = false;
    for (std::size_t length = std::max<std::size_t>(draft.size() / 2, 1);; length /= 2) {
      for (std::size_t from = 0; from < draft.size();) {
        Draft less;
        for (std::size_t i = 0; i < draft.size(); ++i) {
          const bool within = i >= from && i < from + length;
          if (!within || draft[i].needed) less.push_back(draft[i]);
        }
        if (less.size() < draft.size() && fails(less)) {
          draft = std::move(less);
          smaller = true;
        } else {
          from += length;
        }
      }
      if (length == 1) break;
    }
    for (std::size_t i = 0; i < draft.size(); ++i) {
      if (draft[i].list.empty()) continue;
      Draft less;
      for (const Statement& s : draft) {
        if (s.list != draft[i].list || s.item != draft[i].item) less.push_back(s);
      }
      if (!fails(less)) continue;
      draft = std::move(less);
      smaller = true;
      break;
    }
  }
  return draft;
}

}  // namespace rackwright::test
