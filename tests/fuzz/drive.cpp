// Tries a target on inputs made by mutating its seeds, without an engine: the short run of every test day. With clang's
// engine the same targets are searched by coverage (engine.cpp). Usage: fuzz_TARGET [--tries N] [--from SEED] [FILE...]
// A file is tried as it is. An input that breaks something is left in broken-input.

#include <fcntl.h>
#include <unistd.h>

#include <csignal>
#include <cstring>
#include <fstream>
#include <iterator>
#include <random>

#include "tests/fuzz/target.hpp"

namespace {

using Random = std::mt19937_64;

constexpr unsigned longest_try = 20;  // s; more is a hang
constexpr std::size_t longest_input = 1 << 16;
std::string current;  // read by the signal handler

extern "C" void keep_input(int signal) {
  const int file = open("broken-input", O_WRONLY | O_CREAT | O_TRUNC, 0600);
  if (file >= 0 && write(file, current.data(), current.size()) >= 0) close(file);
  const char said[] = "broken by the input now in broken-input\n";
  if (write(2, said, sizeof said - 1) < 0) _exit(1);
  std::signal(signal, SIG_DFL);
  std::raise(signal);
}

std::size_t below(Random& random, std::size_t n) { return n == 0 ? 0 : random() % n; }

/// One change: a bit, a byte, a piece cut or doubled, a word put in or in place of another, another seed's tail.
void mutate(std::string& text, const std::vector<std::string>& seeds, const std::vector<std::string>& words, Random& random) {
  const std::size_t at = below(random, text.size() + 1);
  const std::size_t piece = 1 + below(random, std::size_t(1) << below(random, 8));
  switch (random() % 8) {
    case 0:
      if (at < text.size()) text[at] = static_cast<char>(text[at] ^ (1 << random() % 8));
      break;
    case 1: text.insert(at, 1, static_cast<char>(random())); break;
    case 2: text.erase(at, piece); break;
    case 3: text.insert(at, text.substr(below(random, text.size() + 1), piece)); break;
    case 4:
      if (!words.empty()) text.insert(at, words[below(random, words.size())]);
      break;
    case 5:
      if (!words.empty()) text.replace(at, std::min(piece, text.size() - at), words[below(random, words.size())]);
      break;
    case 6: {
      const std::string& other = seeds[below(random, seeds.size())];
      text.replace(at, std::string::npos, other.substr(below(random, other.size() + 1)));
      break;
    }
    default: {  // a number becomes another
      const std::size_t digit = text.find_first_of("0123456789", at);
      if (digit == std::string::npos) break;
      const std::size_t end = text.find_first_not_of("0123456789.", digit);
      static constexpr const char* numbers[] = {"0", "-1", "1", "2", "1e9", "1e-9", "65536", "4294967296", "0.5", "100", "nan"};
      text.replace(digit, (end == std::string::npos ? text.size() : end) - digit, numbers[below(random, std::size(numbers))]);
    }
  }
  if (text.size() > longest_input) text.resize(longest_input);
}

void attempt(const std::string& input) {
  current = input;
  alarm(longest_try);
  rackwright::fuzz::attempt(input);
  alarm(0);
}

}  // namespace

int main(int argc, char** argv) {
  for (const int signal : {SIGABRT, SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGALRM}) std::signal(signal, keep_input);
  unsigned long tries = 0, from = 1;
  unsigned long files = 0;
  for (int i = 1; i < argc; ++i) {
    if (i + 1 < argc && std::strcmp(argv[i], "--tries") == 0) tries = std::strtoul(argv[++i], nullptr, 10);
    else if (i + 1 < argc && std::strcmp(argv[i], "--from") == 0) from = std::strtoul(argv[++i], nullptr, 10);
    else {
      std::ifstream file(argv[i], std::ios::binary);
      if (!file) {
        std::fprintf(stderr, "%s cannot be read\n", argv[i]);
        return 2;
      }
      attempt({std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()});
      ++files;
    }
  }
  const std::vector<std::string> seeds = rackwright::fuzz::seeds(), words = rackwright::fuzz::words();
  for (const std::string& seed : seeds) attempt(seed);
  Random random(from);
  for (unsigned long n = 0; n < tries; ++n) {
    std::string text = seeds[below(random, seeds.size())];
    for (std::size_t changes = 1 + below(random, 6); changes > 0; --changes) mutate(text, seeds, words, random);
    attempt(text);
  }
  std::printf("%lu files, %zu seeds, %lu mutations tried\n", files, seeds.size(), tries);
}
