#include "sim/results/hdf5.hpp"

#include <algorithm>
#include <cstdlib>
#include <cstring>

namespace rackwright::results::h5 {
namespace {

struct Reason {
  std::string first;  ///< innermost message: nearest to the cause
  int error = 0;
};

herr_t look(unsigned, const H5E_error2_t* entry, void* data) {
  auto& reason = *static_cast<Reason*>(data);
  if (entry->desc == nullptr) return 0;
  if (reason.first.empty()) reason.first = entry->desc;
  // The file driver puts the system's errno into its message, and nowhere else.
  if (const char* at = std::strstr(entry->desc, "errno = "); at != nullptr && reason.error == 0)
    reason.error = std::atoi(at + 8);
  return 0;
}

}  // namespace

void be_quiet() {
  // When a disk fills up, closing a file fails halfway, and the library's own clean-up at exit then reads freed memory.
  // We close all we open, so it can be left out; only before its first use will the library agree to that.
  [[maybe_unused]] static const herr_t no_clean_up = H5dont_atexit();
  H5Eset_auto2(H5E_DEFAULT, nullptr, nullptr);
}

void fail(std::string_view doing) {
  Reason reason;
  H5Ewalk2(H5E_DEFAULT, H5E_WALK_UPWARD, look, &reason);
  H5Eclear2(H5E_DEFAULT);
  std::string what = "could not " + std::string(doing);
  if (reason.error != 0) what += ": " + std::string(std::strerror(reason.error));
  else if (!reason.first.empty()) what += ": " + reason.first;
  throw Fault(what, reason.error);
}

Id text_type(std::size_t size) {
  Id type(H5Tcopy(H5T_C_S1), H5Tclose, "make a text type");
  check(H5Tset_size(type.get(), size), "make a text type");
  check(H5Tset_cset(type.get(), H5T_CSET_UTF8), "make a text type");
  return type;
}

namespace {

void write_single(hid_t object, const char* name, hid_t type, const void* value) {
  Id space(H5Screate(H5S_SCALAR), H5Sclose, "make a single value");
  Id attribute(H5Acreate2(object, name, type, space.get(), H5P_DEFAULT, H5P_DEFAULT), H5Aclose, "make an attribute");
  check(H5Awrite(attribute.get(), type, value), "write an attribute");
  attribute.close("write an attribute");
}

}  // namespace

void write_attribute(hid_t object, const char* name, const std::string& value) {
  const char* start = value.c_str();
  write_single(object, name, text_type().get(), &start);
}

void write_label(hid_t object, const char* name, const std::string& value) {
  write_single(object, name, text_type(std::max<std::size_t>(value.size(), 1)).get(), value.c_str());
}

void write_attribute(hid_t object, const char* name, std::uint64_t value) {
  write_single(object, name, H5T_NATIVE_UINT64, &value);
}

namespace {

Id open_single(hid_t object, const char* name, H5T_class_t wanted, Id& type) {
  Id attribute(H5Aopen(object, name, H5P_DEFAULT), H5Aclose, std::string("find attribute ") + name);
  type = Id(H5Aget_type(attribute.get()), H5Tclose, std::string("read attribute ") + name);
  Id space(H5Aget_space(attribute.get()), H5Sclose, std::string("read attribute ") + name);
  if (H5Tget_class(type.get()) != wanted || H5Sget_simple_extent_npoints(space.get()) != 1)
    throw Fault(std::string("attribute ") + name + " is of the wrong kind", 0);
  return attribute;
}

/// Text up to its first zero: what a fixed-length text holds.
std::string trimmed(const char* start, std::size_t size) { return {start, strnlen(start, size)}; }

}  // namespace

std::string read_text_attribute(hid_t object, const char* name) {
  Id type;
  Id attribute = open_single(object, name, H5T_STRING, type);
  if (check(H5Tis_variable_str(type.get()), "read an attribute") == 0) {
    std::vector<char> text(H5Tget_size(type.get()));
    check(H5Aread(attribute.get(), type.get(), text.data()), "read an attribute");
    return trimmed(text.data(), text.size());
  }
  char* text = nullptr;
  check(H5Aread(attribute.get(), type.get(), &text), "read an attribute");
  std::string value = text == nullptr ? "" : text;
  H5free_memory(text);
  return value;
}

std::uint64_t read_whole_attribute(hid_t object, const char* name) {
  Id type;
  Id attribute = open_single(object, name, H5T_INTEGER, type);
  std::uint64_t value = 0;
  check(H5Aread(attribute.get(), H5T_NATIVE_UINT64, &value), "read an attribute");
  return value;
}

void write_texts(hid_t dataset, const std::vector<std::string>& texts) {
  std::vector<const char*> starts;
  starts.reserve(texts.size());
  for (const std::string& t : texts) starts.push_back(t.c_str());
  check(H5Dwrite(dataset, text_type().get(), H5S_ALL, H5S_ALL, H5P_DEFAULT, starts.data()), "write text");
}

std::vector<std::string> read_texts(hid_t dataset, std::size_t count) {
  Id type(H5Dget_type(dataset), H5Tclose, "read text");
  std::vector<std::string> texts;
  texts.reserve(count);
  if (check(H5Tis_variable_str(type.get()), "read text") == 0) {
    const std::size_t size = H5Tget_size(type.get());
    if (size == 0 || size > (std::size_t(1) << 28) / std::max<std::size_t>(count, 1))
      throw Fault("text is impossibly long", 0);
    std::vector<char> all(size * count);
    check(H5Dread(dataset, type.get(), H5S_ALL, H5S_ALL, H5P_DEFAULT, all.data()), "read text");
    for (std::size_t i = 0; i < count; ++i) texts.push_back(trimmed(all.data() + i * size, size));
    return texts;
  }
  std::vector<char*> starts(count, nullptr);
  const bool good = H5Dread(dataset, type.get(), H5S_ALL, H5S_ALL, H5P_DEFAULT, starts.data()) >= 0;
  for (char* start : starts) {
    texts.emplace_back(start == nullptr ? "" : start);
    H5free_memory(start);
  }
  if (!good) fail("read text");
  return texts;
}

}  // namespace rackwright::results::h5
