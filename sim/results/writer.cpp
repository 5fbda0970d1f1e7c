#include "sim/results/writer.hpp"

#include <map>
#include <set>
#include <system_error>
#include <vector>

#include "models/base/expects.hpp"
#include "sim/replication/columns.hpp"
#include "sim/results/dataset.hpp"
#include "sim/results/fault.hpp"
#include "sim/results/output_file.hpp"
#include "sim/results/schema.hpp"
#include "sim/results/seal.hpp"

namespace rackwright::results {
namespace {

// Chunks of whole blocks, about this many replications: smaller ones cost more than they hold.
constexpr std::uint32_t chunk_at_least = 512;
// Failures are our faults and rare; beyond this many only their number is kept, so that memory stays flat.
constexpr std::size_t most_failures = 10000;

std::uint32_t chunk_of(std::uint32_t block) { return (chunk_at_least + block - 1) / block * block; }

/// One growing dataset and the numbers that wait for a full chunk.
struct Stream {
  h5::Id dataset;
  std::vector<double> waiting{};
};

/// A growing dataset of the schema table, and what waits for a full chunk.
struct Growing {
  h5::Id dataset;
  std::size_t row_size = 1, rows = 0;  ///< rows that wait
  std::vector<double> numbers{};
  std::vector<std::string> texts{};
};
constexpr std::size_t growing_chunk = 2048;

template <class Work>
void guarded(const std::string& path, Work work) {
  h5::be_quiet();
  try {
    work();
  } catch (const h5::Fault& fault) {
    throw_write_fault(path, fault.system_error(), fault.what());
  } catch (const std::system_error& error) {
    throw_write_fault(path, error.code().value(), error.what());
  }
}

}  // namespace

struct Writer::State {
  OutputFile output;  // before the file: removed from disk only after HDF5 has let go of it
  Header header;
  std::uint32_t chunk;
  h5::Id file;
  std::set<std::string> made_groups;
  Stream numbers;               // of the replications
  std::vector<Stream> columns;  // by outcome_columns()
  std::vector<study::Failure> failures;
  std::map<std::string, Growing, std::less<>> growing;  // by path
  h5::Id series_numbers;
  std::vector<h5::Id> series;   // by daily_columns()

  State(const std::string& path, bool force, Header h, std::uint32_t block, const std::string& temporary)
      : output(path, force, temporary), header(std::move(h)), chunk(chunk_of(block)) {}

  void group(const std::string& name) {
    if (made_groups.insert(name).second) make_group(file.get(), name).close("make a group");
  }

  h5::Id grown(const std::string& path, const Extent& extent) {
    return make_dataset(file.get(), *find_dataset(path), extent, header.start_date);
  }

  void open() {
    file = make_file(output.temporary());
    if (header.kind == "simulate") open_replications();
  }

  void open_replications() {
    group("replication");
    numbers.dataset = grown("replication/replication", {{0}, chunk});
    for (const Column& c : outcome_columns())
      columns.push_back({grown("replication/" + std::string(c.name), {{0}, chunk})});
  }

  void flush(Stream& stream) {
    if (!stream.waiting.empty()) append_rows(stream.dataset.get(), stream.waiting.data(), stream.waiting.size(), 1);
    stream.waiting.clear();
  }

  void flush(Growing& g, std::size_t rows) {
    if (rows == 0) return;
    const auto values = static_cast<std::ptrdiff_t>(rows * g.row_size);
    if (g.texts.empty()) {
      append_rows(g.dataset.get(), g.numbers.data(), rows, g.row_size);
      g.numbers.erase(g.numbers.begin(), g.numbers.begin() + values);
    } else {
      append_texts(g.dataset.get(), {g.texts.begin(), g.texts.begin() + values});
      g.texts.erase(g.texts.begin(), g.texts.begin() + values);
    }
    g.rows -= rows;
  }

  void flush_all() {
    flush(numbers);
    for (Stream& s : columns) flush(s);
    for (auto& [path, g] : growing) flush(g, g.rows);
  }

  Growing& begin(const Dataset& d, const Array& rows) {
    Extent extent{rows.shape, growing_chunk};
    extent.shape[0] = 0;
    group(d.group);
    Growing made{make_dataset(file.get(), d, extent, header.start_date), 1, 0, {}, {}};
    for (std::size_t i = 1; i < rows.shape.size(); ++i) made.row_size *= rows.shape[i];
    return growing.emplace(d.path, std::move(made)).first->second;
  }

  void add(const Arrays& rows) {
    std::size_t taken = 0;
    for (const Dataset& d : datasets()) {
      const auto found = rows.find(d.path);
      if (found == rows.end()) continue;
      const Array& array = found->second;
      const auto known = growing.find(d.path);
      Growing& g = known != growing.end() ? known->second : begin(d, array);
      g.rows += array.shape[0];
      g.numbers.insert(g.numbers.end(), array.numbers.begin(), array.numbers.end());
      g.texts.insert(g.texts.end(), array.texts.begin(), array.texts.end());
      flush(g, g.rows / growing_chunk * growing_chunk);  // chunks are written whole and once
      ++taken;
    }
    EXPECTS(taken == rows.size());
  }

  void add(const Outcome& outcome) {
    numbers.waiting.push_back(outcome.replication);
    for (std::size_t i = 0; i < columns.size(); ++i) columns[i].waiting.push_back(outcome_columns()[i].get(outcome));
    ++header.replications_completed;
    if (numbers.waiting.size() >= chunk) flush_all();
  }

  void open_series(std::size_t days) {
    group("series");
    series_numbers = grown("series/replication", {{0}, 64});
    Array day = row(std::vector<double>(days));
    for (std::size_t i = 0; i < days; ++i) day.numbers[i] = static_cast<double>(i);
    write_array(file.get(), *find_dataset("series/day"), day, header.start_date);
    for (const DailyColumn& c : daily_columns())
      series.push_back(grown("series/" + std::string(c.name), {{0, days}, 1}));
  }

  void add(const study::Series& one) {
    EXPECTS(!one.rows.empty());
    if (series.empty()) open_series(one.rows.size());
    const double number = one.replication;
    append_rows(series_numbers.get(), &number, 1, 1);
    std::vector<double> values(one.rows.size());
    for (std::size_t c = 0; c < series.size(); ++c) {
      for (std::size_t d = 0; d < values.size(); ++d)
        values[d] = static_cast<double>(one.rows[d].*daily_columns()[c].member);
      append_rows(series[c].get(), values.data(), 1, values.size());
    }
  }

  [[nodiscard]] Arrays failure_arrays() const {
    if (failures.empty()) return {};
    Arrays arrays;
    for (const study::Failure& f : failures) {
      arrays["failures/replication"].numbers.push_back(f.replication);
      arrays["failures/what"].texts.push_back(f.what);
    }
    for (auto& [path, array] : arrays) array.shape = {failures.size()};
    return arrays;
  }

  void write_all(const Arrays& arrays) {
    std::size_t written = 0;
    for (const Dataset& d : datasets()) {
      const auto found = arrays.find(d.path);
      if (found == arrays.end()) continue;
      group(d.group);
      write_array(file.get(), d, found->second, header.start_date);
      ++written;
    }
    EXPECTS(written == arrays.size());  // every path stands in the schema table
  }

  void write_header() {
    h5::write_attribute(file.get(), "file_type", std::string(file_type));
    h5::write_attribute(file.get(), "format_version", format_version);
    h5::write_label(file.get(), "Conventions", "CF-1.8");
    for (const Attribute& a : header_attributes())
      std::visit([&](auto member) { h5::write_attribute(file.get(), std::string(a.name).c_str(), header.*member); },
                 a.member);
  }

  void close() {
    for (Stream& s : columns) s.dataset.close("write replications");
    numbers.dataset.close("write replications");
    for (auto& [path, g] : growing) g.dataset.close("write " + path);
    for (h5::Id& s : series) s.close("write series");
    series_numbers.close("write series");
    h5::check(H5Fflush(file.get(), H5F_SCOPE_GLOBAL), "write the file");
    file.close("close the file");
  }
};

Writer::Writer(const std::string& path, bool force, Header header, std::uint32_t block, const std::string& temporary) {
  EXPECTS(block > 0);
  header.replications_completed = header.replications_failed = 0;
  state_ = std::make_unique<State>(path, force, std::move(header), block, temporary);
  guarded(path, [&] { state_->open(); });
}

Writer::~Writer() { h5::be_quiet(); }

void Writer::append(const study::Block& block) {
  State& s = *state_;
  guarded(s.output.path(), [&] {
    if (s.columns.empty()) s.open_replications();
    for (const Outcome& outcome : block.outcomes) s.add(outcome);
    for (const study::Series& one : block.series) s.add(one);
    s.header.replications_failed += block.failures.size();
    for (const study::Failure& f : block.failures)
      if (s.failures.size() < most_failures) s.failures.push_back(f);
  });
}

void Writer::put(const Arrays& arrays) {
  guarded(state_->output.path(), [&] { state_->write_all(arrays); });
}

void Writer::append(const Arrays& rows) {
  guarded(state_->output.path(), [&] { state_->add(rows); });
}

void Writer::finish(const Arrays& arrays) {
  State& s = *state_;
  guarded(s.output.path(), [&] {
    s.flush_all();
    s.write_all(arrays);
    s.write_all(s.failure_arrays());
    s.write_header();
    s.close();
    seal_file(s.output.temporary());
  });
  s.output.put_in_place_or_beside();
}

}  // namespace rackwright::results
