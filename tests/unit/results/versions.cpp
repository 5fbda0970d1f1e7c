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
