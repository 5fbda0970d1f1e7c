// Programs of others open the file with no helper of ours.

#include <cstdio>
#include <cstdlib>

#include "tests/catch.hpp"
#include "tests/unit/results/sample.hpp"

using namespace rackwright::results;

namespace {

bool installed(const std::string& program) {
  return std::system(("command -v " + program + " >/dev/null 2>&1").c_str()) == 0;
}

/// What a command prints on both outputs, and its exit status.
std::pair<int, std::string> run(const std::string& command) {
  std::FILE* const pipe = popen((command + " 2>&1").c_str(), "r");
  REQUIRE(pipe != nullptr);
  std::string printed;
  char buffer[4096];
  while (const std::size_t n = std::fread(buffer, 1, sizeof buffer, pipe)) printed.append(buffer, n);
  return {pclose(pipe), printed};
}

}  // namespace

TEST_CASE("ncdump reads header and data as netCDF-4") {
  if (!installed("ncdump")) {
    WARN("skipped: no ncdump here (Debian package netcdf-bin)");
    return;
  }
  const sample::Folder folder;
  sample::write_simulate(folder.file("runs.h5"));
  const auto [status, head] = run("ncdump -h " + folder.file("runs.h5"));
  INFO(head);
  REQUIRE(status == 0);
  for (const char* line :
       {"replication = UNLIMITED ; // (100 currently)", "double fill_rate(replication) ;", "day = 365 ;",
        "double room_mean(day, quantile) ;", "double room_mean_mean(day) ;", "float served(replication, day) ;",
        "day:units = \"days since 2026-03-01\" ;", "int64 short_days(replication) ;", "string quantity(quantity) ;",
        ":Conventions = \"CF-1.8\" ;", "string :title = \"Ziegen am Südhang\" ;", "water_used:units = \"L\" ;"})
    CHECK(head.find(line) != std::string::npos);
  // Dimensions found as such, none made up for want of a scale.
  CHECK(head.find("phony_dim") == std::string::npos);

  const auto [data_status, data] = run("ncdump -v /summary/quantity,/series/served " + folder.file("runs.h5"));
  CHECK(data_status == 0);
  CHECK(data.find("\"fill_rate\"") != std::string::npos);
  CHECK(data.find("40, 41, 42, 43") != std::string::npos);
}

TEST_CASE("xarray and h5py read the file") {
  const std::string python = "/usr/bin/python3";
  if (!installed(python) || run(python + " -c 'import h5py, xarray, netCDF4'").first != 0) {
    WARN("skipped: no h5py, xarray and netCDF4 here (Debian packages python3-h5py python3-xarray python3-netcdf4)");
    return;
  }
  const sample::Folder folder;
  sample::write_simulate(folder.file("runs.h5"));
  std::ofstream(folder.file("look.py")) << R"(
import sys, h5py, xarray
path = sys.argv[1]
with h5py.File(path) as f:
    assert f.attrs["file_type"] == "rackwright result", f.attrs["file_type"]
    assert int(f.attrs["random_seed"]) == 0xFFFFFFFFFFFFFFF1
    assert f["replication/fill_rate"].shape == (100,)
    assert f["replication/fill_rate"].dims[0].keys() == ["replication"], f["replication/fill_rate"].dims[0].keys()
    assert f["scenario/text"][()].decode().startswith("title = \"Ziegen am S")
runs = xarray.open_dataset(path, group="replication")
assert runs.fill_rate.dims == ("replication",) and 0.98 < float(runs.fill_rate.mean()) < 0.99
assert runs.water_used.attrs["units"] == "L"
daily = xarray.open_dataset(path, group="daily")
assert daily.room_mean.dims == ("day", "quantile")
assert str(daily.day.values[31])[:10] == "2026-04-01", daily.day.values[31]
series = xarray.open_dataset(path, group="series")
assert float(series.served.sel(replication=40)[2]) == 42.0
summary = xarray.open_dataset(path, group="summary")
assert float(summary["mean"].sel(quantity="success")) == float(summary["mean"][-1])
)";
  const auto [status, printed] = run(python + " " + folder.file("look.py") + " " + folder.file("runs.h5"));
  INFO(printed);
  CHECK(status == 0);
}
