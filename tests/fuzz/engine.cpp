// The targets under clang's coverage-guided engine. `--write-seeds FOLDER` of the engine's program writes where to start.

#include "tests/fuzz/target.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  rackwright::fuzz::attempt(std::string(reinterpret_cast<const char*>(data), size));
  return 0;
}

// The engine's own name for it; the seeds of a target go into its corpus folder.
extern "C" int LLVMFuzzerInitialize(int* argc, char*** argv);
extern "C" int LLVMFuzzerInitialize(int* argc, char*** argv) {
  for (int i = 1; i + 1 < *argc; ++i) {
    if (std::string((*argv)[i]) != "--write-seeds") continue;
    const std::string folder = (*argv)[i + 1];
    int n = 0;
    for (const std::string& seed : rackwright::fuzz::seeds()) {
      if (std::FILE* file = std::fopen((folder + "/seed-" + std::to_string(n++)).c_str(), "wb")) {
        std::fwrite(seed.data(), 1, seed.size(), file);
        std::fclose(file);
      }
    }
    if (std::FILE* file = std::fopen((folder + ".words").c_str(), "w")) {
      for (const std::string& word : rackwright::fuzz::words()) {
        std::fputc('"', file);
        for (const char c : word) std::fprintf(file, "\\x%02X", static_cast<unsigned>(static_cast<unsigned char>(c)));
        std::fputs("\"\n", file);
      }
      std::fclose(file);
    }
    std::exit(0);
  }
  return 0;
}
