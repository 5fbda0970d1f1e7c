#include "sim/app/sweep_merge.hpp"

#include <optional>

#include <fmt/core.h>

#include "sim/app/progress.hpp"
#include "sim/results/collect.hpp"
#include "sim/results/fault.hpp"
#include "sim/results/sweep_part.hpp"
#include "sim/results/writer.hpp"
#include "sim/scenario/cautions.hpp"
#include "sim/scenario/read.hpp"
#include "sim/scenario/sowing_order.hpp"
#include "sim/study/sobol_indices.hpp"
#include "sim/study/sweep_digest.hpp"

namespace rackwright::app {

namespace {

using study::SobolIndices;
using study::SweepRow;

// Takes whole rows of points for the indices of a sensitivity sweep.
class Indices {
 public:
  explicit Indices(const study::Sweep& sweep) : of_(2, SobolIndices(sweep.axes.size())) {}

  /// The points of a block: rows of A, B and one mixed point an input. A row with a point that was not played is left
  /// out.
  void add(const std::vector<SweepRow>& rows, std::size_t inputs) {
    for (std::size_t at = 0; at + inputs + 2 <= rows.size(); at += inputs + 2) {
      bool whole = true;
      for (std::size_t i = 0; i < inputs + 2; ++i) whole = whole && rows[at + i].has_numbers();
      if (!whole) continue;
      for (std::size_t o = 0; o < of_.size(); ++o) {
        const std::size_t column = o == 0 ? study::fill_rate_column : study::cost_year_column;
        std::vector<double> mixed;
        for (std::size_t i = 0; i < inputs; ++i) mixed.push_back(rows[at + 2 + i].spreads[column].mean);
        of_[o].add(rows[at].spreads[column].mean, rows[at + 1].spreads[column].mean, mixed);
      }
    }
  }
  [[nodiscard]] const std::vector<SobolIndices>& all() const { return of_; }

 private:
  std::vector<SobolIndices> of_;  ///< fill rate, cost
};

std::vector<SweepRow> read_block(results::Parts& parts, std::uint64_t block) {
  const auto content = parts.read(results::block_part(block));
  if (!content)
    throw results::WriteFault(results::WriteFault::Cause::disk,
                              fmt::format("{}/{}.part was removed or damaged while this ran", parts.folder(),
                                          results::block_part(block)));
  return results::rows_of(*content);
}

// Those of the scenario, and of what is varied.
std::vector<std::string> cautions_of(const Scenario& scenario, const study::Sweep& sweep) {
  std::vector<std::string> all = cautions(scenario);
  Scenario varied = scenario;
  varied.choose.choices.clear();
  for (const study::SweepAxis& axis : sweep.axes) {
    Choice choice{axis.key, axis.words};
    for (const double number : axis.numbers)
      if (axis.words.empty()) choice.values.push_back(study::axis_text(axis, number));
    varied.choose.choices.push_back(choice);
  }
  same_line_cautions(varied, all);
  return all;
}

}  // namespace

void merge_sweep(const Loaded& loaded, const Options& options, const study::Sweep& sweep, const StudyMark& mark,
                 results::Parts& parts) {
  const Scenario& scenario = loaded.scenario;
  results::Writer writer(parts.output(), parts.replace(),
                         results::describe_run(scenario, "sweep", options.command_line, results::utc_now()), 32,
                         parts.temporary());
  results::Arrays first =
      results::scenario_arrays(scenario, loaded.text, resolved_text(scenario), cautions_of(scenario, sweep));
  first["scenario/mark"] = results::text(mark.text());
  first.merge(results::sweep_arrays(sweep));
  writer.put(first);
  study::SweepDigest digest(sweep);
  Indices indices(sweep);
  Progress progress(options.quiet);
  for (std::uint64_t block = 0; block < sweep.blocks(); ++block) {
    const auto rows = read_block(parts, block);
    writer.append(results::row_arrays(sweep, rows));
    for (const SweepRow& row : rows) digest.add(row);
    if (sweep.method == study::SweepMethod::sensitivity) indices.add(rows, sweep.axes.size());
    progress.show("writing blocks", block + 1, sweep.blocks());
  }
  progress.finish();
  results::Arrays last = results::digest_arrays(sweep, digest);
  if (sweep.method == study::SweepMethod::sensitivity) last.merge(results::index_arrays(sweep, indices.all()));
  finish_file(writer, last, parts, true);
}

}  // namespace rackwright::app
