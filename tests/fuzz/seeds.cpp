// Runs every fuzz function on its seeds, among them all inputs that once broke a reader, and
// on beginnings of them. A failure stops the program, as under libFuzzer.
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#define FUZZ(name) extern "C" int fuzz_##name(const std::uint8_t* data, std::size_t size);
#include "fuzz_targets.inc"
#undef FUZZ

namespace {

struct Target {
  const char* name;
  int (*run)(const std::uint8_t*, std::size_t);
};
constexpr Target k_targets[] = {
#define FUZZ(name) {#name, fuzz_##name},
#include "fuzz_targets.inc"
#undef FUZZ
};

std::vector<std::uint8_t> bytes_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

}  // namespace

int main(int count, char** words) {
  if (count < 2) {
    std::fputs("usage: fuzz_seeds FOLDER [TARGET]\n", stderr);
    return 2;
  }
  int empty = 0;
  for (const Target& target : k_targets) {
    if (count > 2 && target.name != std::string(words[2])) {
      continue;
    }
    int files = 0;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::filesystem::path(words[1]) / target.name)) {
      const std::vector<std::uint8_t> bytes = bytes_of(entry.path());
      // Said before it is run, so that a crash names its input.
      std::printf("%s %s\n", target.name, entry.path().filename().c_str());
      std::fflush(stdout);
      for (const std::size_t share : {4, 3, 2, 1}) {
        const std::vector<std::uint8_t> part(
            bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(bytes.size() * share / 4));
        target.run(part.data(), part.size());
      }
      ++files;
    }
    if (files == 0) {
      std::printf("%s has no seeds\n", target.name);
      ++empty;
    }
  }
  return empty == 0 ? 0 : 1;
}
