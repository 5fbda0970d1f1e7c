// Whole, sealed HDF5 files that still are not what this program reads.

#include <hdf5.h>

#include <functional>

#include "sim/results/fault.hpp"
#include "sim/results/result_file.hpp"
#include "sim/results/seal.hpp"
#include "tests/catch.hpp"
#include "tests/unit/results/sample.hpp"

using namespace rackwright::results;

namespace {

/// Writes a result, lets `change` loose on it, seals it again, and says why it is refused.
std::string why_refused(const std::function<void(hid_t)>& change) {
  const sample::Folder folder;
  const std::string path = folder.file("runs.h5");
  sample::write_simulate(path, 10);
  const hid_t file = H5Fopen(path.c_str(), H5F_ACC_RDWR, H5P_DEFAULT);
  REQUIRE(file >= 0);
  change(file);
  REQUIRE(H5Fclose(file) >= 0);
  seal_file(path);
  try {
    read_result(path);
  } catch (const ReadFault& fault) {
    return fault.what();
  }
  return "";
}

void put_whole(hid_t file, const char* name, unsigned long long value) {
  const hid_t attribute = H5Aopen(file, name, H5P_DEFAULT);
  REQUIRE(H5Awrite(attribute, H5T_NATIVE_ULLONG, &value) >= 0);
  H5Aclose(attribute);
}

void put_dataset(hid_t file, const char* path, std::vector<hsize_t> shape, hid_t type) {
  H5Ldelete(file, path, H5P_DEFAULT);
  const hid_t space = H5Screate_simple(static_cast<int>(shape.size()), shape.data(), nullptr);
  const hid_t dataset = H5Dcreate2(file, path, type, space, H5P_DEFAULT, H5P_DEFAULT, H5P_DEFAULT);
  REQUIRE(dataset >= 0);
  H5Dclose(dataset);
  H5Sclose(space);
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("an untouched file that is sealed again is read") { CHECK(why_refused([](hid_t) {}).empty()); }

TEST_CASE("other formats, and files of other programs, are named as such") {
  CHECK(has(why_refused([](hid_t f) { put_whole(f, "format_version", format_version + 1); }), "newer rackwright"));
  CHECK(has(why_refused([](hid_t f) { put_whole(f, "format_version", 0); }), "older rackwright"));
  CHECK(has(why_refused([](hid_t f) { H5Adelete(f, "file_type"); }), "not a result of rackwright"));
  CHECK(has(why_refused([](hid_t f) { H5Adelete(f, "random_seed"); }), "random_seed"));
}

TEST_CASE("datasets that are missing, misshapen, of the wrong kind or impossibly large are named") {
  CHECK(has(why_refused([](hid_t f) { H5Ldelete(f, "replication/fill_rate", H5P_DEFAULT); }),
            "/replication/fill_rate is missing"));
  CHECK(has(why_refused([](hid_t f) { H5Ldelete(f, "summary", H5P_DEFAULT); }), "/summary/quantity is missing"));
  CHECK(has(why_refused([](hid_t f) { put_dataset(f, "replication/fill_rate", {9}, H5T_NATIVE_DOUBLE); }),
            "does not fit"));
  CHECK(has(why_refused([](hid_t f) {
              put_dataset(f, "replication/fill_rate", {10, 1}, H5T_NATIVE_DOUBLE);
            }),
            "wrong dimensions"));
  CHECK(has(why_refused([](hid_t f) { put_dataset(f, "replication/fill_rate", {10}, H5T_C_S1); }), "wrong kind"));
  CHECK(has(why_refused([](hid_t f) { put_dataset(f, "replication/fill_rate", {1ULL << 40}, H5T_NATIVE_DOUBLE); }),
            "impossibly large"));
  CHECK(has(why_refused([](hid_t f) {
              put_dataset(f, "daily/room_mean", {1ULL << 20, 1ULL << 20}, H5T_NATIVE_DOUBLE);
            }),
            "impossibly large"));
}

TEST_CASE("the checksum is the published one") {
  // Check value of CRC-64/XZ over the digits 1 to 9; from memory.
  CHECK(crc64("123456789", 9) == 0x995DC9BBDF1939FAULL);
  CHECK(crc64("6789", 4, crc64("12345", 5)) == crc64("123456789", 9));
}

TEST_CASE("a file that another program has changed is refused with that reason") {
  const sample::Folder folder;
  const std::string path = folder.file("runs.h5");
  sample::write_simulate(path, 10);
  CHECK(check_seal(path) == Seal::good);
  const hid_t file = H5Fopen(path.c_str(), H5F_ACC_RDWR, H5P_DEFAULT);
  put_whole(file, "random_seed", 5);
  H5Fclose(file);
  CHECK(check_seal(path) == Seal::absent);  // HDF5 cuts a file to its own end
  CHECK_THROWS_AS(read_result(path), ReadFault);
}

TEST_CASE("text of a fixed length, as other programs write it, is read up to its first zero") {
  const sample::Folder folder;
  const std::string path = folder.file("runs.h5");
  sample::write_simulate(path, 10);
  const ResultFile before = read_result(path);
  const hid_t file = H5Fopen(path.c_str(), H5F_ACC_RDWR, H5P_DEFAULT);
  const hid_t fixed = H5Tcopy(H5T_C_S1), one = H5Screate(H5S_SCALAR);
  REQUIRE(H5Tset_size(fixed, 24) >= 0);
  REQUIRE(H5Adelete(file, "title") >= 0);
  const hid_t title = H5Acreate2(file, "title", fixed, one, H5P_DEFAULT, H5P_DEFAULT);
  REQUIRE(H5Awrite(title, fixed, "Stone barn\0left over....") >= 0);
  H5Aclose(title);
  const auto& seasons = before.at("summary/season").texts;
  put_dataset(file, "summary/season", {seasons.size()}, fixed);
  std::string all;
  for (std::size_t i = 0; i < seasons.size(); ++i) all += std::string("season ") + static_cast<char>('a' + i) + std::string(16, '\0');
  const hid_t dataset = H5Dopen2(file, "summary/season", H5P_DEFAULT);
  REQUIRE(H5Dwrite(dataset, fixed, H5S_ALL, H5S_ALL, H5P_DEFAULT, all.data()) >= 0);
  H5Dclose(dataset), H5Sclose(one), H5Tclose(fixed);
  REQUIRE(H5Fclose(file) >= 0);
  seal_file(path);
  const ResultFile after = read_result(path);
  CHECK(after.header.title == "Stone barn");
  CHECK(after.at("summary/season").texts == std::vector<std::string>{"season a", "season b", "season c", "season d"});
}

TEST_CASE("attributes of another kind are named, and text that could not be held is not fetched") {
  CHECK(has(why_refused([](hid_t f) {
              const hid_t one = H5Screate(H5S_SCALAR);
              H5Adelete(f, "title");
              H5Aclose(H5Acreate2(f, "title", H5T_NATIVE_DOUBLE, one, H5P_DEFAULT, H5P_DEFAULT));
              H5Sclose(one);
            }),
            "title is of the wrong kind"));
  CHECK(has(why_refused([](hid_t f) {
              const hsize_t two[] = {2};
              const hid_t pair = H5Screate_simple(1, two, nullptr);
              H5Adelete(f, "random_seed");
              H5Aclose(H5Acreate2(f, "random_seed", H5T_NATIVE_ULLONG, pair, H5P_DEFAULT, H5P_DEFAULT));
              H5Sclose(pair);
            }),
            "random_seed is of the wrong kind"));
  CHECK(has(why_refused([](hid_t f) {
              const hid_t long_text = H5Tcopy(H5T_C_S1);
              H5Tset_size(long_text, std::size_t{1} << 28);
              put_dataset(f, "summary/season", {4}, long_text);
              H5Tclose(long_text);
            }),
            "text is impossibly long"));
}
