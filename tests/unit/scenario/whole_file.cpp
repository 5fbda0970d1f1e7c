// Files as a whole: what stands behind a name decides whether it is read, and no more than allowed is.
#include "sim/scenario/whole_file.hpp"

#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <thread>

#include "tests/catch.hpp"

using namespace rackwright;

namespace {

struct Place {
  Place() { std::filesystem::create_directory(path); }
  ~Place() {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
  }
  std::filesystem::path path = std::filesystem::temp_directory_path() / ("rackwright-whole-" + std::to_string(getpid()));
};

std::string why(const std::variant<std::string, FileFault>& read) {
  const auto* fault = std::get_if<FileFault>(&read);
  return fault == nullptr ? "" : fault->why;
}

}  // namespace

TEST_CASE("a whole file: its bytes, up to the last that is allowed") {
  const Place place;
  const std::string path = (place.path / "a").string();
  for (const std::size_t size : {std::size_t{0}, std::size_t{1}, std::size_t{65536}, std::size_t{65537}, std::size_t{1} << 20U}) {
    std::string bytes(size, 'x');
    if (size > 2) bytes[size / 2] = '\0';
    std::ofstream(path, std::ios::binary) << bytes;
    for (const FileKind kind : {FileKind::regular, FileKind::any}) {
      const auto read = whole_file(path, 1, kind);
      REQUIRE(std::get_if<std::string>(&read) != nullptr);
      CHECK(std::get<std::string>(read) == bytes);
    }
  }
  std::ofstream(path, std::ios::binary) << std::string((std::size_t{1} << 20U) + 1, 'x');
  CHECK(why(whole_file(path, 1, FileKind::regular)) == "is larger than 1 MiB");
  CHECK(why(whole_file(path, 2, FileKind::regular)).empty());
}

TEST_CASE("a whole file: what is no file") {
  const Place place;
  for (const FileKind kind : {FileKind::regular, FileKind::any}) {
    CHECK(why(whole_file("/no/such", 1, kind)) == "there is no such file");
    CHECK(why(whole_file(place.path.string(), 1, kind)) == "is a folder, not a file");
  }
  CHECK(why(whole_file("/dev/zero", 1, FileKind::regular)) == "is not a file that can be read");
  CHECK(why(whole_file("/dev/zero", 1, FileKind::any)) == "is larger than 1 MiB");  // which has no end
}

TEST_CASE("a whole file: a pipe, where one may stand") {
  const Place place;
  const std::string path = (place.path / "pipe").string();
  REQUIRE(mkfifo(path.c_str(), 0600) == 0);
  CHECK(why(whole_file(path, 1, FileKind::regular)) == "is not a file that can be read");  // and is not waited for
  const std::string bytes(200000, 'y');
  std::thread writer([&] { std::ofstream(path, std::ios::binary) << bytes; });
  const auto read = whole_file(path, 1, FileKind::any);
  writer.join();
  REQUIRE(std::get_if<std::string>(&read) != nullptr);
  CHECK(std::get<std::string>(read) == bytes);
}
