#include "sim/results/collect.hpp"

namespace rackwright::results {
namespace {

using study::Estimate;
using study::Influence;
using study::Shift;

struct ShiftColumn {
  const char* name;
  Estimate Shift::*member;
};
constexpr ShiftColumn columns[] = {
    {"fill_rate", &Shift::fill_rate}, {"short_days", &Shift::short_days}, {"cost_year", &Shift::cost_year}};

void add_side(Arrays& all, const std::string& side, const std::vector<Influence>& from, Shift Influence::*member) {
  std::vector<std::string> values;
  values.reserve(from.size());
  for (const Influence& i : from) values.push_back((i.*member).value);
  all["assumption/" + side] = row(std::move(values));
  for (const ShiftColumn& column : columns) {
    const std::string path = "assumption/" + side + "_" + column.name;
    std::vector<double> mean, low, high;
    for (const Influence& i : from) {
      const Estimate& e = (i.*member).*column.member;
      mean.push_back(e.mean), low.push_back(e.low), high.push_back(e.high);
    }
    all[path] = row(std::move(mean));
    all[path + "_low"] = row(std::move(low));
    all[path + "_high"] = row(std::move(high));
  }
}

}  // namespace

Arrays influence_arrays(const std::vector<Influence>& influences) {
  Arrays all;
  if (influences.empty()) return all;
  std::vector<std::string> keys, used, meanings, sources;
  for (const Influence& i : influences) {
    keys.push_back(i.key), used.push_back(i.used), meanings.push_back(i.sentence), sources.push_back(i.source);
  }
  all["assumption/key"] = row(std::move(keys));
  all["assumption/used"] = row(std::move(used));
  all["assumption/meaning"] = row(std::move(meanings));
  all["assumption/source"] = row(std::move(sources));
  add_side(all, "less", influences, &Influence::less);
  add_side(all, "more", influences, &Influence::more);
  return all;
}

}  // namespace rackwright::results
