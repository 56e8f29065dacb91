#include "server/pairing.h"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <set>

#include "server/device_file.h"
#include "server/qr_code.h"

namespace maslin {
namespace {

/// A clock that is set by hand, and bytes that never repeat.
struct Bench {
  std::int64_t now_ms = 1'000'000;
  std::uint64_t drawn = 0;
  int kept = 0;
  PairingWorld world() {
    return {[this] { return now_ms; },
            [this](std::size_t count) {
              std::string out;
              for (std::size_t i = 0; i < count; ++i) {
                drawn = drawn * 6364136223846793005ULL + 1442695040888963407ULL;
                out += static_cast<char>(drawn >> 56);
              }
              return out;
            },
            [this](const std::vector<Device>&) { ++kept; }};
  }
};

using Outcome = Pairing::Outcome;

}  // namespace

TEST_CASE("A code joins one device, typed in any case and without its dash") {
  Bench bench;
  Pairing pairing(bench.world(), {});
  std::string typed = pairing.code()->text;
  typed.erase(typed.find('-'), 1);
  for (char& c : typed) {
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  const auto joined = pairing.join(" " + typed + " ", "Anna's phone");
  REQUIRE(joined.outcome == Outcome::paired);
  CHECK(pairing.device_with(joined.device.secret)->name == "Anna's phone");
  CHECK(bench.kept == 1);
  CHECK(!pairing.code());
  CHECK(pairing.join(typed, "another").outcome == Outcome::no_code);
}

TEST_CASE("Five wrong tries end a code, also for who has the right one") {
  Bench bench;
  Pairing pairing(bench.world(), {});
  const std::string code = pairing.code()->text;
  for (int i = 0; i < 4; ++i) {
    CHECK(pairing.join("2222-2222", "").outcome == Outcome::wrong_code);
  }
  CHECK(pairing.join("2222-2222", "").outcome == Outcome::too_many_tries);
  CHECK(pairing.join(code, "").outcome == Outcome::too_many_tries);
  CHECK(!pairing.code());
  const std::string fresh = pairing.renew_code().text;
  CHECK(fresh != code);
  CHECK(pairing.join(fresh, "").outcome == Outcome::paired);
}

TEST_CASE("A code runs out after ten minutes") {
  Bench bench;
  Pairing pairing(bench.world(), {});
  const std::string code = pairing.code()->text;
  bench.now_ms += 10 * 60 * 1000;
  CHECK(!pairing.code());
  CHECK(pairing.join(code, "").outcome == Outcome::no_code);
}

TEST_CASE("A removed device is let in no more, and near secrets never are") {
  Bench bench;
  Pairing pairing(bench.world(), {});
  const Device device = pairing.join(pairing.code()->text, "tablet").device;
  CHECK(!pairing.device_with(""));
  CHECK(!pairing.device_with(device.secret.substr(1)));
  CHECK(!pairing.device_with(std::string(device.secret.size(), 'a')));
  CHECK(!pairing.remove("nobody"));
  CHECK(pairing.remove(device.id));
  CHECK(!pairing.device_with(device.secret));
}

TEST_CASE("Codes differ, and names are cut where a letter ends") {
  Bench bench;
  Pairing pairing(bench.world(), {});
  std::set<std::string> codes;
  for (int i = 0; i < 200; ++i) {
    codes.insert(pairing.renew_code().text);
  }
  CHECK(codes.size() == 200);
  std::string name;
  for (int i = 0; i < 30; ++i) {
    name += "ü";
  }
  const Device device = pairing.join(pairing.code()->text, "x" + name + "\n").device;
  CHECK(device.name.size() <= 40);
  CHECK(device.name == "x" + name.substr(0, 38));
  CHECK(device.name.find('\n') == std::string::npos);
}

TEST_CASE("Devices are kept in a file that only its owner may read") {
  const auto folder = std::filesystem::temp_directory_path() / "maslin-devices-test";
  std::filesystem::remove_all(folder);
  const std::string file = folder / "deep" / "devices.json";
  const std::vector<Device> devices = {{"a1", "Anna's \"phone\"", "secret", 5, 6}};
  REQUIRE(save_devices(file, devices));
  struct stat seen{};
  REQUIRE(::stat(file.c_str(), &seen) == 0);
  CHECK((seen.st_mode & 0777) == 0600);
  const std::vector<Device> back = load_devices(file);
  REQUIRE(back.size() == 1);
  CHECK(back[0].name == devices[0].name);
  CHECK(back[0].secret == "secret");
  CHECK(back[0].seen_ms == 6);
  std::ofstream(file) << "{\"devices\": [1, {\"id\": 3}, {\"id\": \"x\"}]}";
  CHECK(load_devices(file).empty());
  CHECK(load_devices(folder / "none").empty());
  std::filesystem::remove_all(folder);
}

TEST_CASE("A QR code is square, with the three finders of ISO/IEC 18004") {
  const std::vector<std::string> rows = qr_rows("http://192.168.1.20:8420/#pair=K7QM-4TXA");
  if (rows.empty()) {
    return;  // built without the library
  }
  const std::size_t size = rows.size();
  CHECK((size - 17) % 4 == 0);
  const auto finder = [&](std::size_t row, std::size_t column) {
    const std::vector<std::string> wanted = {"1111111", "1000001", "1011101", "1011101",
                                             "1011101", "1000001", "1111111"};
    for (std::size_t i = 0; i < 7; ++i) {
      CHECK(rows[row + i].substr(column, 7) == wanted[i]);
    }
  };
  finder(0, 0);
  finder(0, size - 7);
  finder(size - 7, 0);
}

}  // namespace maslin
