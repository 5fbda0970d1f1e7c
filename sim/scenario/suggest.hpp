#pragma once
// What somebody may have meant.

#include <string>
#include <string_view>
#include <vector>

namespace rackwright {

/// Least number of single-letter changes, swaps of neighbours counted once (restricted Damerau-Levenshtein); `limit` + 1 for any number beyond
/// it, which is sooner known.
int edit_distance(std::string_view a, std::string_view b, int limit = 1'000'000);

/// The known name nearest to `written`, empty where none is near. A dotted name whose last part is right or nearly
/// right is near: "rack.soak" finds "line.soak"; so is one that has it as a whole word: "goat" finds "goat-milking".
std::string nearest(std::string_view written, const std::vector<std::string>& known);

}  // namespace rackwright
