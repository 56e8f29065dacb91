// A store of 10 000 versions and 50 000 notes: opening it, searching it, and the history
// of a recipe are each to stay under 30 ms. MASLIN_BENCH_VERSIONS says another number of
// versions; MASLIN_BENCH_STORE names a file to keep the store in, used again when it is there.
#include <benchmark/benchmark.h>

#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <string>

#include "app/app.h"
#include "app/library.h"
#include "app/trials.h"
#include "recipe/json.h"
#include "store/documents.h"
#include "store/store.h"
#include "store/trials.h"

namespace {

using namespace maslin;

constexpr int k_names = 500;  // the first has half of all versions, the others share the rest
constexpr int k_trials = 2500;
constexpr int k_notes = 50000;

int versions() {
  const char* said = std::getenv("MASLIN_BENCH_VERSIONS");
  return said == nullptr ? 10000 : std::atoi(said);
}

/// The pamphlet of the demo with other amounts, and one line that few versions share.
Recipe variant(const Recipe& pamphlet, int number) {
  Recipe out = pamphlet;
  out.title = "Knots no. " + std::to_string(number % k_names);
  Line& flour = out.parts.front().lines.front();
  flour.grams = point(400.0 + 0.01 * number);
  Line extra;
  extra.text = "a pinch of spice" + std::to_string(number % 997);
  out.parts.front().lines.push_back(extra);
  return out;
}

std::string note_text(int number) {
  const std::string minutes = std::to_string(20 + number % 90);
  switch (number % 5) {
    case 0:
      return "doubled at " + minutes + " min";
    case 1:
      return "core " + std::to_string(90 + number % 9) + " °C, a shade dark";
    case 2:
      return "tacky, " + minutes + " g flour left";
    case 3:
      return "crumb " + std::to_string(1 + number % 9) + "/9, smells of spice" +
             std::to_string(number % 997);
    default:
      return "turned the tray after " + minutes + " minutes, butter ran at the edge";
  }
}

/// Filled once, in a folder of its own that goes with the program, or in the file that is named.
class FullStore {
 public:
  FullStore() {
    if (const char* named = std::getenv("MASLIN_BENCH_STORE")) {
      file_ = named;
      if (!std::filesystem::exists(file_)) {
        fill();
      }
      return;
    }
    folder_ = std::filesystem::temp_directory_path() / ("maslin_bench_" + std::to_string(now_ms()));
    std::filesystem::create_directories(folder_);
    file_ = folder_ / "store.sqlite";
    fill();
  }
  ~FullStore() {
    std::error_code ignored;
    if (!folder_.empty()) {
      std::filesystem::remove_all(folder_, ignored);
    }
  }
  FullStore(const FullStore&) = delete;
  FullStore& operator=(const FullStore&) = delete;
  std::string file() const { return file_.string(); }

 private:
  void fill() {
    const Tools tools;
    const Recipe pamphlet = *read_recipe(tools, {demo_text(), "pamphlet", ""}).value;
    Store store(file());
    Transaction change(store.database());
    std::int64_t document = 0;
    std::int64_t name = 0;
    const int count = versions();
    for (int i = 0; i < count; ++i) {
      const std::string called =
          "knots " + std::to_string(i % 2 == 0 ? 0 : 1 + i / 2 % (k_names - 1));
      const Kept kept = keep_recipe(change, variant(pamphlet, i),
                                    Keep{called, "a little drier", std::nullopt, 1000 * i});
      document = kept.document.number;
      name = kept.name;
      if (i % (count / k_trials) == 0) {
        start_trial(change, {name, document, std::nullopt, std::nullopt, 1000 * i});
      }
    }
    const NoteWords words;
    for (int i = 0; i < k_notes; ++i) {
      NewNote note;
      note.trial = 1 + i % k_trials;
      note.at_ms = 1000 * i;
      note.text = note_text(i);
      note.observations = observations_to_json(read_note(note.text, words).observations);
      add_note(change, note);
    }
    change.commit();
  }

  static std::string demo_text() {
    return text_at(parse_json(demo_to_json()).value_or(Json::object()), "text");
  }

  std::filesystem::path folder_;
  std::filesystem::path file_;
};

const FullStore& full_store() {
  static const FullStore store;
  return store;
}

void open_a_full_store(benchmark::State& state) {
  const std::string file = full_store().file();
  for (auto _ : state) {
    Store store(file);
    benchmark::DoNotOptimize(store.database().last_row());
  }
}
BENCHMARK(open_a_full_store)->Unit(benchmark::kMillisecond);

void search(benchmark::State& state, const char* words) {
  Store store(full_store().file());
  std::size_t found = 0;
  for (auto _ : state) {
    const Result<SearchResult> result = search_library(store, words);
    found = result.value->recipes.size() + result.value->notes.size();
    benchmark::DoNotOptimize(found);
  }
  state.counters["found"] = static_cast<double>(found);
}
BENCHMARK_CAPTURE(search, a_word_in_ten_versions, "spice123")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(search, a_word_in_every_version, "cardamom")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(search, a_word_everywhere, "butter")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(search, a_beginning_of_a_thousand_words, "spice")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(search, two_common_words, "flour butter")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(search, one_letter, "b")->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(search, nothing, "zzyzx")->Unit(benchmark::kMillisecond);

void history(benchmark::State& state, const char* name, int most) {
  Store store(full_store().file());
  std::size_t places = 0;
  for (auto _ : state) {
    places = history_of(store, DocumentKind::recipe, name, most).value->course.size();
    benchmark::DoNotOptimize(places);
  }
  state.counters["places"] = static_cast<double>(places);
}
BENCHMARK_CAPTURE(history, of_a_recipe, "knots 7", 200)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(history, newest_200_of_half, "knots 0", 200)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(history, all_of_half, "knots 0", 1000000)->Unit(benchmark::kMillisecond);

void list_recipes(benchmark::State& state) {
  Store store(full_store().file());
  for (auto _ : state) {
    benchmark::DoNotOptimize(list_library(store, DocumentKind::recipe, "").value->size());
  }
}
BENCHMARK(list_recipes)->Unit(benchmark::kMillisecond);

void show_a_trial(benchmark::State& state) {
  Store store(full_store().file());
  for (auto _ : state) {
    benchmark::DoNotOptimize(view_trial(store, 17).value->notes.size());
  }
}
BENCHMARK(show_a_trial)->Unit(benchmark::kMillisecond);

/// To the disk and back, so it measures the disk too.
void write_a_note(benchmark::State& state) {
  Store store(full_store().file());
  const NoteWords words;
  NoteRequest request;
  request.trial = 5;
  request.text = "doubled at 48 min, tacky";
  for (auto _ : state) {
    benchmark::DoNotOptimize(write_note(store, words, request).value->note.number);
  }
}
BENCHMARK(write_a_note)->Unit(benchmark::kMillisecond);

}  // namespace
