#include "sim/results/dataset.hpp"

#include <hdf5_hl.h>

#include <algorithm>

#include "models/base/expects.hpp"

namespace rackwright::results {
namespace {

using h5::check;
using h5::Id;

// Coarse enough to compress well, small enough to read a part.
constexpr std::size_t most_in_chunk = 1 << 16;

std::size_t product(const std::vector<std::size_t>& shape, std::size_t from = 0) {
  std::size_t n = 1;
  for (std::size_t i = from; i < shape.size(); ++i) n *= shape[i];
  return n;
}

Id file_type_of(Type type) {
  switch (type) {
    case Type::real: return {H5Tcopy(H5T_IEEE_F64LE), H5Tclose, "make a type"};
    case Type::single: return {H5Tcopy(H5T_IEEE_F32LE), H5Tclose, "make a type"};
    case Type::whole: return {H5Tcopy(H5T_STD_I64LE), H5Tclose, "make a type"};
    case Type::text: break;
  }
  return h5::text_type();
}

void track_creation_order(hid_t properties) {
  check(H5Pset_link_creation_order(properties, H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED), "set up a group");
  check(H5Pset_attr_creation_order(properties, H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED), "set up a group");
  check(H5Pset_obj_track_times(properties, false), "set up a group");  // the same results give the same bytes
}

Id creation_properties(const Dataset& dataset, const Extent& extent) {
  Id properties(H5Pcreate(H5P_DATASET_CREATE), H5Pclose, "set up a dataset");
  const hid_t p = properties.get();
  check(H5Pset_attr_creation_order(p, H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED), "set up a dataset");
  check(H5Pset_obj_track_times(p, false), "set up a dataset");
  if (extent.shape.empty() || (dataset.type == Type::text && extent.grow_by == 0)) return properties;
  std::vector<hsize_t> chunk(extent.shape.begin(), extent.shape.end());
  if (extent.grow_by > 0) chunk[0] = extent.grow_by;
  else chunk[0] = std::min(extent.shape[0], std::max<std::size_t>(1, most_in_chunk / product(extent.shape, 1)));
  check(H5Pset_chunk(p, static_cast<int>(chunk.size()), chunk.data()), "set up a dataset");
  if (dataset.type == Type::text) return properties;  // text of any length takes no filter
  check(H5Pset_shuffle(p), "set up a dataset");
  check(H5Pset_deflate(p, 4), "set up a dataset");
  check(H5Pset_fletcher32(p), "set up a dataset");
  return properties;
}

Id space_of(const Extent& extent) {
  if (extent.shape.empty()) return {H5Screate(H5S_SCALAR), H5Sclose, "make a single value"};
  const std::vector<hsize_t> now(extent.shape.begin(), extent.shape.end());
  std::vector<hsize_t> most = now;
  if (extent.grow_by > 0) most[0] = H5S_UNLIMITED;
  return {H5Screate_simple(static_cast<int>(now.size()), now.data(), most.data()), H5Sclose, "make a shape"};
}

void describe(hid_t id, const Dataset& dataset, const std::string& start_date) {
  h5::write_label(id, "long_name", dataset.long_name);
  if (dataset.unit == "days since") {
    h5::write_label(id, "standard_name", "time");
    h5::write_label(id, "units", "days since " + start_date);
    h5::write_label(id, "calendar", "proleptic_gregorian");
  } else if (dataset.type != Type::text) {
    h5::write_label(id, "units", dataset.unit);
  }
}

}  // namespace

Id make_file(const std::string& path) {
  Id creation(H5Pcreate(H5P_FILE_CREATE), H5Pclose, "set up a file");
  track_creation_order(creation.get());
  Id access(H5Pcreate(H5P_FILE_ACCESS), H5Pclose, "set up a file");
  check(H5Pset_libver_bounds(access.get(), H5F_LIBVER_V18, H5F_LIBVER_V18), "set up a file");
  check(H5Pset_fclose_degree(access.get(), H5F_CLOSE_STRONG), "set up a file");
  return {H5Fcreate(path.c_str(), H5F_ACC_TRUNC, creation.get(), access.get()), H5Fclose, "make the file"};
}

Id make_group(hid_t file, const std::string& name) {
  Id properties(H5Pcreate(H5P_GROUP_CREATE), H5Pclose, "set up a group");
  track_creation_order(properties.get());
  return {H5Gcreate2(file, name.c_str(), H5P_DEFAULT, properties.get(), H5P_DEFAULT), H5Gclose, "make a group"};
}

Id make_dataset(hid_t file, const Dataset& dataset, const Extent& extent, const std::string& start_date) {
  EXPECTS(extent.shape.size() == dataset.dimensions.size());
  const Id type = file_type_of(dataset.type);
  const Id space = space_of(extent);
  const Id properties = creation_properties(dataset, extent);
  // Chunks are written whole and once: the usual megabyte of cache for each of some hundred datasets would be wasted.
  const Id access(H5Pcreate(H5P_DATASET_ACCESS), H5Pclose, "set up a dataset");
  check(H5Pset_chunk_cache(access.get(), 11, 1 << 13, 1.0), "set up a dataset");
  Id made(H5Dcreate2(file, dataset.path.c_str(), type.get(), space.get(), H5P_DEFAULT, properties.get(), access.get()),
          H5Dclose, "make dataset " + dataset.path);
  if (dataset.coordinate()) check(H5DSset_scale(made.get(), dataset.name.c_str()), "make a dimension");
  for (unsigned i = 0; i < dataset.dimensions.size() && !dataset.coordinate(); ++i) {
    const std::string path = dataset.group + "/" + dataset.dimensions[i];
    Id scale(H5Dopen2(file, path.c_str(), H5P_DEFAULT), H5Dclose, "find dimension " + path);
    check(H5DSattach_scale(made.get(), scale.get(), i), "tie a dataset to its dimension");
    scale.close("tie a dataset to its dimension");
  }
  describe(made.get(), dataset, start_date);
  return made;
}

void write_array(hid_t file, const Dataset& dataset, const Array& array, const std::string& start_date) {
  const std::size_t count = product(array.shape);
  EXPECTS(count > 0);
  EXPECTS(dataset.type == Type::text ? array.texts.size() == count : array.numbers.size() == count);
  Id made = make_dataset(file, dataset, {array.shape, 0}, start_date);
  if (dataset.type == Type::text) h5::write_texts(made.get(), array.texts);
  else
    check(H5Dwrite(made.get(), H5T_NATIVE_DOUBLE, H5S_ALL, H5S_ALL, H5P_DEFAULT, array.numbers.data()),
          "write " + dataset.path);
  made.close("write " + dataset.path);
}

namespace {

/// Makes room for more rows and selects it; gives the selection.
Id grow(hid_t dataset, std::size_t rows) {
  Id before(H5Dget_space(dataset), H5Sclose, "grow a dataset");
  std::vector<hsize_t> shape(
      static_cast<std::size_t>(check(H5Sget_simple_extent_ndims(before.get()), "grow a dataset")));
  check(H5Sget_simple_extent_dims(before.get(), shape.data(), nullptr), "grow a dataset");
  std::vector<hsize_t> start(shape.size(), 0), count = shape;
  start[0] = shape[0];
  count[0] = rows;
  shape[0] += rows;
  check(H5Dset_extent(dataset, shape.data()), "grow a dataset");
  Id after(H5Dget_space(dataset), H5Sclose, "grow a dataset");
  check(H5Sselect_hyperslab(after.get(), H5S_SELECT_SET, start.data(), nullptr, count.data(), nullptr),
        "grow a dataset");
  return after;
}

void write_selected(hid_t dataset, hid_t type, const Id& selected, hsize_t size, const void* values) {
  Id memory(H5Screate_simple(1, &size, nullptr), H5Sclose, "grow a dataset");
  check(H5Dwrite(dataset, type, memory.get(), selected.get(), H5P_DEFAULT, values), "add rows");
}

}  // namespace

void append_rows(hid_t dataset, const double* numbers, std::size_t rows, std::size_t row_size) {
  write_selected(dataset, H5T_NATIVE_DOUBLE, grow(dataset, rows), rows * row_size, numbers);
}

void append_texts(hid_t dataset, const std::vector<std::string>& texts) {
  std::vector<const char*> starts;
  starts.reserve(texts.size());
  for (const std::string& t : texts) starts.push_back(t.c_str());
  const Id type = h5::text_type();
  write_selected(dataset, type.get(), grow(dataset, texts.size()), texts.size(), starts.data());
}

}  // namespace rackwright::results
