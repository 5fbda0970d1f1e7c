#pragma once
// Runs the built program as a stranger would, and looks at what it said, how it ended and what it left behind.

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <thread>
#include <vector>

#include "tests/paths.hpp"

extern char** environ;

namespace rackwright::test {

/// A folder of its own that goes away with it.
class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "rackwright-test-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    path_ = name;
  }
  ~Folder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::string operator/(const std::string& name) const { return (path_ / name).string(); }
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(path_ / name) << text;
    return *this / name;
  }
  /// Names of all it holds, hidden ones too.
  [[nodiscard]] std::vector<std::string> names() const {
    std::vector<std::string> list;
    for (const auto& entry : std::filesystem::directory_iterator(path_))
      list.push_back(entry.path().filename().string());
    return list;
  }

 private:
  std::filesystem::path path_;
};

inline std::string whole_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

struct Said {
  int code = -1;  ///< exit code, or minus the signal that ended it
  std::string out, err;
};

/// A program under way, its two outputs going to files of its own.
class Running {
 public:
  /// Standard output may go to another place, which is then not read.
  explicit Running(std::vector<std::string> words, const std::string& elsewhere = "") {
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 0, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, 1, elsewhere.empty() ? out_.c_str() : elsewhere.c_str(),
                                     O_WRONLY | O_CREAT, 0600);
    posix_spawn_file_actions_addopen(&actions, 2, err_.c_str(), O_WRONLY | O_CREAT, 0600);
    std::vector<char*> argv;
    for (std::string& word : words) argv.push_back(word.data());
    argv.push_back(nullptr);
    const int failed = posix_spawnp(&pid_, argv[0], &actions, nullptr, argv.data(), environ);
    posix_spawn_file_actions_destroy(&actions);
    if (failed != 0) throw std::runtime_error("cannot start " + words.front());
  }
  [[nodiscard]] pid_t pid() const { return pid_; }
  Said wait() const {
    int status = 0;
    waitpid(pid_, &status, 0);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status), whole_file(out_), whole_file(err_)};
  }

 private:
  Folder folder_;
  std::string out_ = folder_ / "out", err_ = folder_ / "err";
  pid_t pid_ = 0;
};

inline std::string program() { return std::string(RACKWRIGHT_BINARY_DIR) + "/rackwright"; }
inline std::string shipped(const std::string& scenario) {
  return std::string(RACKWRIGHT_SOURCE_DIR) + "/scenarios/" + scenario;
}

inline Said run(std::vector<std::string> words) {
  words.insert(words.begin(), program());
  return Running(std::move(words)).wait();
}

/// Until a study that writes there has finished a part of its work: a busy machine may take long to begin.
inline void wait_for_part(const std::string& out) {
  for (int i = 0; i < 12000; ++i) {
    std::error_code gone;
    for (const auto& entry : std::filesystem::directory_iterator(out + ".d", gone))
      if (entry.path().extension() == ".part") return;
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
  throw std::runtime_error("no part was ever finished");
}

inline bool contains(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace rackwright::test
