#include <sys/stat.h>

#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>

#include "sim/results/fault.hpp"
#include "sim/results/hdf5.hpp"
#include "sim/results/result_file.hpp"
#include "sim/results/schema.hpp"
#include "sim/results/seal.hpp"

namespace rackwright::results {
namespace {

using h5::check;
using h5::Id;

// No dataset of ours is larger (half a gigabyte of numbers); a damaged shape may claim to be.
constexpr std::size_t most_values = std::size_t(1) << 26;

/// Refuses what is plainly no whole file of ours before the library sees it.
void look_at(const std::string& path) {
  struct stat what {};
  if (stat(path.c_str(), &what) != 0) throw ReadFault(path + " cannot be read: " + std::strerror(errno));
  if (!S_ISREG(what.st_mode)) throw ReadFault(path + " is not a file");
  if (what.st_size == 0) throw ReadFault(path + " is empty");
  char start[8] = {};
  std::ifstream(path, std::ios::binary).read(start, sizeof start);
  const bool hdf5 = std::memcmp(start, "\x89HDF\r\n\x1a\n", sizeof start) == 0;
  try {
    switch (check_seal(path)) {
      case Seal::good: break;
      case Seal::broken: throw ReadFault(path + " is damaged: its checksum does not fit");
      case Seal::absent:
        throw ReadFault(
            hdf5 ? path +
                       " is no whole result file of rackwright: it is cut short, or another program made or changed it"
                 : path + " is not a result file of rackwright");
    }
  } catch (const std::system_error& error) {
    throw ReadFault(path + " cannot be read: " + error.code().message());
  }
  if (!hdf5) throw ReadFault(path + " is not a result file of rackwright");
}

Header read_header(hid_t file, const std::string& path) {
  if (check(H5Aexists(file, "file_type"), "look for file_type") == 0 ||
      h5::read_text_attribute(file, "file_type") != file_type)
    throw ReadFault(path + " is an HDF5 file, but not a result of rackwright");
  const std::uint64_t version = h5::read_whole_attribute(file, "format_version");
  if (version != format_version)
    throw ReadFault(path + " has result format " + std::to_string(version) + "; this program reads format " +
                    std::to_string(format_version) +
                    (version > format_version ? ": it was written by a newer rackwright"
                                              : ": it was written by an older rackwright"));
  Header header;
  for (const Attribute& a : header_attributes()) {
    const std::string name(a.name);
    if (const auto* text = std::get_if<std::string Header::*>(&a.member))
      header.** text = h5::read_text_attribute(file, name.c_str());
    if (const auto* whole = std::get_if<std::uint64_t Header::*>(&a.member))
      header.** whole = h5::read_whole_attribute(file, name.c_str());
  }
  return header;
}

std::vector<std::size_t> shape_of(hid_t id, const Dataset& d) {
  Id space(H5Dget_space(id), H5Sclose, "read a shape");
  const int rank = check(H5Sget_simple_extent_ndims(space.get()), "read a shape");
  if (static_cast<std::size_t>(rank) != d.dimensions.size())
    throw h5::Fault("/" + d.path + " has the wrong dimensions", 0);
  std::vector<hsize_t> shape(d.dimensions.size());
  if (rank > 0) check(H5Sget_simple_extent_dims(space.get(), shape.data(), nullptr), "read a shape");
  else if (H5Sget_simple_extent_npoints(space.get()) != 1) throw h5::Fault("/" + d.path + " is empty", 0);
  std::size_t count = 1;
  for (const hsize_t n : shape) {
    if (n > most_values || count * n > most_values) throw h5::Fault("/" + d.path + " is impossibly large", 0);
    count *= n;
  }
  return {shape.begin(), shape.end()};
}

bool is_number(H5T_class_t type) { return type == H5T_INTEGER || type == H5T_FLOAT; }

Array read_array(hid_t id, const Dataset& d) {
  Id type(H5Dget_type(id), H5Tclose, "read a type");
  const H5T_class_t kind = H5Tget_class(type.get());
  if (d.type == Type::text ? kind != H5T_STRING : !is_number(kind))
    throw h5::Fault("/" + d.path + " holds the wrong kind of value", 0);
  Array array;
  array.shape = shape_of(id, d);
  std::size_t count = 1;
  for (const std::size_t n : array.shape) count *= n;
  if (count == 0) return array;
  if (d.type == Type::text) {
    array.texts = h5::read_texts(id, count);
  } else {
    array.numbers.resize(count);
    check(H5Dread(id, H5T_NATIVE_DOUBLE, H5S_ALL, H5S_ALL, H5P_DEFAULT, array.numbers.data()), "read /" + d.path);
  }
  return array;
}

bool exists(hid_t file, const Dataset& d) {
  return check(H5Lexists(file, d.group.c_str(), H5P_DEFAULT), "look for /" + d.group) > 0 &&
         check(H5Lexists(file, d.path.c_str(), H5P_DEFAULT), "look for /" + d.path) > 0;
}

bool wanted(const Dataset& d, Part part) {
  return part == Part::everything || (!d.streamed && d.group != "series");
}

bool required(const Dataset& d, const Header& header) {
  return (d.when == When::simulate && header.kind == "simulate") || (d.when == When::size && header.kind == "size") ||
         (d.when == When::sweep && header.kind == "sweep") || (d.when == When::stress && header.kind == "stress");
}

/// Every dataset is as long as the dimensions it names.
void compare_shapes(const Arrays& arrays) {
  for (const Dataset& d : datasets()) {
    const auto found = arrays.find(d.path);
    if (found == arrays.end()) continue;
    for (std::size_t i = 0; i < d.dimensions.size(); ++i) {
      const auto scale = arrays.find(d.group + "/" + d.dimensions[i]);
      if (scale == arrays.end() || scale->second.shape[0] != found->second.shape[i])
        throw h5::Fault("/" + d.path + " does not fit its dimension " + d.dimensions[i], 0);
    }
  }
}

ResultFile read_checked(const std::string& path, Part part) {
  Id access(H5Pcreate(H5P_FILE_ACCESS), H5Pclose, "set up a file");
  check(H5Pset_fclose_degree(access.get(), H5F_CLOSE_STRONG), "set up a file");
  Id file(H5Fopen(path.c_str(), H5F_ACC_RDONLY, access.get()), H5Fclose, "open it");
  ResultFile result;
  result.header = read_header(file.get(), path);
  for (const Dataset& d : datasets()) {
    if (!wanted(d, part)) continue;
    if (!exists(file.get(), d)) {
      if (required(d, result.header)) throw h5::Fault("/" + d.path + " is missing", 0);
      continue;
    }
    Id dataset(H5Dopen2(file.get(), d.path.c_str(), H5P_DEFAULT), H5Dclose, "open /" + d.path);
    result.arrays.emplace(d.path, read_array(dataset.get(), d));
  }
  compare_shapes(result.arrays);
  return result;
}

}  // namespace

ResultFile read_result(const std::string& path, Part part) {
  h5::be_quiet();
  look_at(path);
  try {
    return read_checked(path, part);
  } catch (const h5::Fault& fault) {
    throw ReadFault(path + " cannot be read as a result (" + fault.what() + ")");
  }
}

}  // namespace rackwright::results
