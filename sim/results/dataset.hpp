#pragma once
// Makes datasets as the schema table says, in a way netCDF-4 understands.

#include <string>
#include <vector>

#include "sim/results/array.hpp"
#include "sim/results/hdf5.hpp"
#include "sim/results/schema.hpp"

namespace rackwright::results {

/// Makes a new file over an existing empty one, with the root group netCDF-4 wants and no times of day in it.
h5::Id make_file(const std::string& path);
/// Makes a group of the root.
h5::Id make_group(hid_t file, const std::string& name);

/// How large a dataset is made: its first shape, and the chunk to grow by along the first dimension (0: it does not
/// grow).
struct Extent {
  std::vector<std::size_t> shape;
  std::size_t grow_by = 0;
};

/// Makes the dataset with its attributes and ties it to the coordinates of its group, which must be there.
h5::Id make_dataset(hid_t file, const Dataset& dataset, const Extent& extent, const std::string& start_date);
/// Makes it and writes all of it. Expects the array to fit the dataset's dimensions and type.
void write_array(hid_t file, const Dataset& dataset, const Array& array, const std::string& start_date);
/// Adds rows at the end of a growing dataset; `row_size` numbers make a row.
void append_rows(hid_t dataset, const double* numbers, std::size_t rows, std::size_t row_size);

/// The same with texts, one a row.
void append_texts(hid_t dataset, const std::vector<std::string>& texts);

}  // namespace rackwright::results
