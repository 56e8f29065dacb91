// The power goes in the middle of writing, 300 times: whatever the disk had not yet been
// told to keep may be lost, in any order and by half. Nothing that was answered may be.
#include <doctest/doctest.h>

#include <filesystem>
#include <random>
#include <string>
#include <vector>

#include "cut_disk.h"
#include "store/documents.h"
#include "store/scratch_folder.h"
#include "store/store.h"
#include "store/trials.h"

using namespace maslin;

namespace {

struct Bench {
  std::int64_t trial = 0;
  std::vector<std::int64_t> answered;
};

void begin(Store& store, Bench& bench) {
  Transaction change(store.database());
  Recipe recipe;
  recipe.title = "Knots";
  recipe.parts.push_back({});
  recipe.parts[0].name = "dough";
  Keep keep;
  keep.name = "knots";
  const Kept kept = keep_recipe(change, recipe, keep);
  NewTrial trial;
  trial.recipe = kept.name;
  trial.version = kept.document.number;
  bench.trial = start_trial(change, trial);
  change.commit();
}

/// Writes notes until the power goes or `most` are answered.
void write_notes(const std::string& file, Bench& bench, int most) {
  try {
    Store store(file);
    for (int i = 0; i < most && !power_is_gone(); ++i) {
      Transaction change(store.database());
      NewNote note;
      note.trial = bench.trial;
      note.at_ms = static_cast<std::int64_t>(bench.answered.size());
      note.text = "note " + std::to_string(bench.answered.size()) + std::string(300, 'x');
      const std::int64_t number = add_note(change, note);
      change.commit();
      bench.answered.push_back(number);
    }
  } catch (const StoreError&) {
    // The power went: the note under way was not answered.
    CHECK(power_is_gone());
  }
}

}  // namespace

TEST_CASE("what was answered survives 300 power cuts") {
  use_cut_disk();
  const ScratchFolder scratch;
  const std::string file = scratch.file("store.sqlite");
  Bench bench;
  {
    Store store(file);
    begin(store, bench);
  }
  std::mt19937_64 chance(20);
  int cuts = 0;
  for (std::uint64_t round = 0; round < 300; ++round) {
    CAPTURE(round);
    cut_after(static_cast<std::uint32_t>(chance() % 60), round);
    write_notes(file, bench, 12);
    cuts += power_is_gone() ? 1 : 0;
    power_again();
    // The index of the log lives in memory: with the power it goes.
    std::filesystem::remove(file + "-shm");
    Store store(file);
    const std::vector<std::string> wrong = check_store(store);
    CHECK_MESSAGE(wrong.empty(), (wrong.empty() ? "" : wrong.front()));
    const std::vector<Note> kept = notes_of(store.database(), bench.trial);
    // The last one may have been on its way: kept whole, though never answered.
    REQUIRE(kept.size() >= bench.answered.size());
    bench.answered.clear();
    for (const Note& note : kept) {
      bench.answered.push_back(note.number);
      CHECK(note.text.size() >= 305);
    }
  }
  MESSAGE(cuts, " cuts, ", bench.answered.size(), " notes kept");
  CHECK(cuts > 200);
}

TEST_CASE("a disk that forgets what it was told to keep is found out by the same test") {
  // The test can fail: with synchronous off, commits are answered before they are kept.
  use_cut_disk();
  const ScratchFolder scratch;
  const std::string file = scratch.file("store.sqlite");
  Bench bench;
  {
    Store store(file);
    begin(store, bench);
  }
  bool lost = false;
  for (std::uint64_t round = 0; round < 40 && !lost; ++round) {
    std::size_t answered = 0;
    cut_after(40, round);
    try {
      Store store(file);
      store.database().run_script("PRAGMA synchronous = OFF");
      for (;; ++answered) {
        Transaction change(store.database());
        NewNote note;
        note.trial = bench.trial;
        note.text = "hasty";
        add_note(change, note);
        change.commit();
      }
    } catch (const StoreError&) {
      CHECK(power_is_gone());
    }
    power_again();
    std::filesystem::remove(file + "-shm");
    try {
      Store store(file);
      const std::size_t kept = notes_of(store.database(), bench.trial).size();
      lost = kept < bench.answered.size() + answered;
      bench.answered.resize(kept);
    } catch (const StoreError&) {
      lost = true;  // damaged outright
    }
  }
  CHECK(lost);
}
