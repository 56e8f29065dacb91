// Versions, names, search, trials, and the whole store written out and read back.
#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "recipe/recipe_json.h"
#include "store/documents.h"
#include "store/everything.h"
#include "store/scratch_folder.h"
#include "store/search.h"
#include "store/store.h"
#include "store/trials.h"

using namespace maslin;

namespace {

Recipe bread(const std::string& title, std::initializer_list<const char*> lines) {
  Recipe recipe;
  recipe.title = title;
  Part dough;
  dough.name = "dough";
  for (const char* text : lines) {
    Line line;
    line.text = text;
    dough.lines.push_back(line);
  }
  recipe.parts = {dough};
  return recipe;
}

Kept keep(Store& store, const Recipe& recipe, const std::string& name, std::int64_t at_ms = 0) {
  Transaction change(store.database());
  Kept kept = keep_recipe(change, recipe, Keep{name, "", std::nullopt, at_ms});
  change.commit();
  return kept;
}

/// Everything in every table, as text.
std::string all_rows(Store& store) {
  std::string out;
  for (const char* table : {"document", "descent", "name", "course", "tag", "trial", "step_mark",
                            "note", "picture", "note_picture"}) {
    Statement columns = store.database().ask("SELECT name FROM pragma_table_info(?)", {table});
    std::string list;
    while (columns.row()) {
      list += (list.empty() ? "quote(" : " || ',' || quote(") + columns.text(0) + ")";
    }
    Statement rows = store.database().ask("SELECT " + list + " FROM " + table + " ORDER BY 1");
    while (rows.row()) {
      out += std::string(table) + ":" + rows.text(0) + "\n";
    }
  }
  return out;
}

/// A store with everything in it that a store can hold.
void fill(Store& store) {
  Database& database = store.database();
  const Kept first =
      keep(store, bread("Knots", {"500 g flour", "crème fraîche \"thick\""}), "knots", 5);
  const Kept second = keep(store, bread("Knots", {"500 g flour", "30 g butter"}), "knots", 6);
  keep(store, bread("Knots", {"500 g flour", "crème fraîche \"thick\""}), "knots", 7);
  Transaction change(database);
  const Kept fork =
      keep_recipe(change, bread("Fork", {}), Keep{"fork", "less\nsugar", first.document.number, 8});
  add_tag(change, fork.name, "sweet");
  add_tag(change, fork.name, "Advent");
  Kitchen flat;
  flat.name = "flat";
  flat.room_celsius = 19.5;
  const Kept kitchen = keep_kitchen(change, flat, Keep{"flat", "", std::nullopt, 9});
  CleanPicture photo = clean_picture(bytes_of(MASLIN_SOURCE_DIR "/tests/store/pictures/bun.jpg"));
  CleanPicture drawing = clean_picture(bytes_of(MASLIN_SOURCE_DIR "/tests/store/pictures/bun.png"));
  const std::int64_t one = start_trial(
      change, {fork.name, fork.document.number, kitchen.name, kitchen.document.number, 10});
  const std::int64_t two =
      start_trial(change, {first.name, second.document.number, std::nullopt, std::nullopt, 11});
  mark_step(change, one, {3, Mark::begun, 12});
  mark_step(change, one, {3, Mark::done, 13});
  const std::int64_t wrong = add_note(change, {one, 14, "core 205", "[]", std::nullopt, "", {}});
  add_note(change, {two, 15, "other\ttrial \u2014 ½", "[]", std::nullopt, "", {}});
  add_note(change, {one,
                    16,
                    "core 96 °C",
                    R"([{"kind":"core_celsius","value":96.0}])",
                    wrong,
                    "",
                    {keep_picture(change, drawing), keep_picture(change, photo)}});
  set_closed(change, one, 17);
  change.commit();
}

}  // namespace

TEST_CASE("a recipe kept again is a new version of it, and its parent is the one before") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  const Kept first = keep(store, bread("Knots", {"500 g flour"}), "knots", 1);
  const Kept second = keep(store, bread("Knots", {"450 g flour"}), "Knots", 2);
  CHECK(first.document.id != second.document.id);
  CHECK(second.place == 2);
  const auto course = course_of(store.database(), first.name, 10);
  REQUIRE(course.size() == 2);
  CHECK(course[0].document_id == second.document.id);
  CHECK(course[0].parents == std::vector{first.document.id});
  CHECK(course[1].parents.empty());
  CHECK(course_of(store.database(), first.name, 1).size() == 1);
}

TEST_CASE("keeping the same recipe again changes nothing") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  const Kept first = keep(store, bread("Knots", {"500 g flour"}), "knots", 1);
  const Kept again = keep(store, bread("Knots", {"500 g flour"}), "knots", 2);
  CHECK(first.changed);
  CHECK_FALSE(again.changed);
  CHECK(again.document.id == first.document.id);
  CHECK(again.document.first_saved_at_ms == 1);
  CHECK(course_of(store.database(), first.name, 10).size() == 1);
}

TEST_CASE("going back to an older version loses neither and makes no ring") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  const Kept first = keep(store, bread("Knots", {"500 g flour"}), "knots", 1);
  const Kept second = keep(store, bread("Knots", {"450 g flour"}), "knots", 2);
  const Kept back = keep(store, bread("Knots", {"500 g flour"}), "knots", 3);
  CHECK(back.document.id == first.document.id);
  const auto course = course_of(store.database(), first.name, 10);
  REQUIRE(course.size() == 3);
  CHECK(course[0].document_id == first.document.id);
  CHECK(course[0].parents.empty());
  CHECK(course[1].document_id == second.document.id);
}

TEST_CASE("a kept recipe comes back the same") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  const Recipe recipe = bread("Crème \"buns\"\n", {"500 g flour", "½ tsp salt"});
  const Kept kept = keep(store, recipe, "buns");
  CHECK(recipe_from_json(document_of(store.database(), kept.document.number)->body).recipe ==
        recipe);
}

TEST_CASE("a version answers to its name, its place and the start of its id") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  const Kept first = keep(store, bread("Knots", {"500 g flour"}), "knots");
  const Kept second = keep(store, bread("Knots", {"450 g flour"}), "knots");
  keep(store, bread("Odd", {}), "knots@night");
  Database& database = store.database();
  const auto called = [&](const std::string& words) {
    return version_called(database, DocumentKind::recipe, words).document.value_or(-1);
  };
  CHECK(called("KNOTS") == second.document.number);
  CHECK(called("knots@1") == first.document.number);
  CHECK(called("knots@2") == second.document.number);
  CHECK(called("knots@night") == 3);
  CHECK(called(first.document.id) == first.document.number);
  CHECK(called(first.document.id.substr(0, 12)) == first.document.number);
  CHECK(called(first.document.id.substr(0, 5)) == -1);
  CHECK(called("knots@3") == -1);
  CHECK(called("knots@1.5") == -1);
  CHECK(called("buns") == -1);
}

TEST_CASE(
    "search finds words in names, tags, lines and notes, by their beginnings and without accents") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  fill(store);
  Database& database = store.database();
  const auto recipes = [&](const std::string& words) {
    std::vector<std::string> out;
    for (const FoundRecipe& found : search_store(database, words, 20).recipes) {
      out.push_back(found.name);
    }
    return out;
  };
  CHECK(recipes("butt") == std::vector<std::string>{"knots"});
  CHECK(recipes("creme") == std::vector<std::string>{"knots"});
  CHECK(recipes("advent fork") == std::vector<std::string>{"fork"});
  CHECK(recipes("butter sugar").empty());
  const SearchResult old = search_store(database, "butter", 20);
  CHECK_FALSE(old.recipes[0].current);
  CHECK(old.recipes[0].place == 2);
  const SearchResult core = search_store(database, "core", 20);
  REQUIRE(core.notes.size() == 2);
  CHECK(core.notes[0].text == "core 96 °C");
  CHECK(core.notes[0].recipe == "fork");
}

TEST_CASE("nothing typed into the search is taken for syntax") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  fill(store);
  for (const char* words : {"", "\"", "flour OR butter", "NEAR(a b)", "title:knots", "*", "^flour",
                            "'; DROP TABLE note; --", "½", "-", "flour AND"}) {
    CAPTURE(words);
    CHECK_NOTHROW(search_store(store.database(), words, 5));
  }
  CHECK(rc::check([&] { search_store(store.database(), *rc::gen::arbitrary<std::string>(), 5); }));
}

TEST_CASE("tags are kept once, found without regard to case, and taken off") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  const Kept kept = keep(store, bread("Knots", {}), "knots");
  Transaction change(store.database());
  add_tag(change, kept.name, "Bun");
  add_tag(change, kept.name, "bun");
  add_tag(change, kept.name, "sweet");
  change.commit();
  CHECK(named(store.database(), DocumentKind::recipe, "knots")->tags ==
        std::vector<std::string>{"Bun", "sweet"});
  CHECK(all_named(store.database(), DocumentKind::recipe, "BUN").size() == 1);
  CHECK(all_named(store.database(), DocumentKind::recipe, "rye").empty());
  CHECK(search_store(store.database(), "sweet", 5).recipes.size() == 1);
  Transaction off(store.database());
  remove_tag(off, kept.name, "SWEET");
  off.commit();
  CHECK(search_store(store.database(), "sweet", 5).recipes.empty());
  CHECK(check_store(store).empty());
}

TEST_CASE("a trial keeps its version, its kitchen as it was, its marks, notes and pictures") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  fill(store);
  Database& database = store.database();
  const auto trial = trial_of(database, 1);
  REQUIRE(trial);
  CHECK(trial->recipe == "fork");
  CHECK(trial->kitchen == "flat");
  CHECK(trial->closed_at_ms == 17);
  CHECK(trial->notes == 2);
  const auto notes = notes_of(database, 1);
  REQUIRE(notes.size() == 2);
  CHECK(notes[0].corrected);
  CHECK(notes[1].instead_of == notes[0].number);
  REQUIRE(notes[1].pictures.size() == 2);
  CHECK(picture_of(database, notes[1].pictures[1])->kind == PictureKind::jpeg);
  CHECK(marks_of(database, 1).size() == 2);
  CHECK(all_trials(database, TrialFilter::open).size() == 1);
  CHECK(all_trials(database, TrialFilter::all)[0].number == 2);
  CHECK(course_of(database, 1, 10)[1].trials == std::vector<std::int64_t>{2});
  CHECK_THROWS_AS(database.run("DELETE FROM note"), StoreError);
  CHECK_THROWS_AS(database.run("UPDATE note SET text = ''"), StoreError);
}

TEST_CASE("what is written out and read back is the same store, row for row and byte for byte") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  fill(store);
  const Everything out = write_out(store, scratch.file("out"));
  CHECK(out.documents == 4);
  CHECK(out.notes == 3);
  CHECK(out.pictures == 2);
  Store back(scratch.file("back"));
  const Everything in = read_in(back, scratch.file("out"));
  CHECK(in.notes == out.notes);
  CHECK(all_rows(back) == all_rows(store));
  CHECK(check_store(back).empty());
  write_out(back, scratch.file("again"));
  CHECK(bytes_of(scratch.path() / "again/library.json") ==
        bytes_of(scratch.path() / "out/library.json"));
  for (const auto& picture : std::filesystem::directory_iterator(scratch.path() / "out/pictures")) {
    CHECK(bytes_of(picture) ==
          bytes_of(scratch.path() / "again/pictures" / picture.path().filename()));
  }
  // The search is as it was, too.
  CHECK(search_store(back.database(), "creme", 5).recipes.size() == 1);
  CHECK(search_store(back.database(), "advent", 5).recipes.size() == 1);
  CHECK(search_store(back.database(), "core", 5).notes.size() == 2);
}

TEST_CASE("an empty store is written out and read back") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  write_out(store, scratch.file("out"));
  Store back(scratch.file("back"));
  CHECK(read_in(back, scratch.file("out")).documents == 0);
}

TEST_CASE("nothing is written over and nothing is read into a store that holds something") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  fill(store);
  write_out(store, scratch.file("out"));
  CHECK_THROWS_WITH_AS(write_out(store, scratch.file("out")), doctest::Contains("is not empty"),
                       StoreError);
  CHECK_THROWS_WITH_AS(read_in(store, scratch.file("out")),
                       doctest::Contains("holds something already"), StoreError);
}

TEST_CASE("a library that was changed by hand is refused whole") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  fill(store);
  write_out(store, scratch.file("out"));
  const std::filesystem::path file = scratch.path() / "out/library.json";
  const std::string good = bytes_of(file);
  Store back(scratch.file("back"));
  const auto refused = [&](const std::string& from, const std::string& to) {
    std::string text = good;
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    write_bytes(file, text.replace(at, from.size(), to));
    CHECK_THROWS_AS(read_in(back, scratch.file("out")), StoreError);
    CHECK(back.database().whole("SELECT count(*) FROM document") == 0);
  };
  refused("500 g flour", "600 g flour");
  refused("\"maslin_library\":1", "\"maslin_library\":2");
  refused("\"maslin_library\":1", "\"else\":1");
  refused("\"trial\":2", "\"trial\":3");
  refused("\"mark\":\"done\"", "\"mark\":\"doner\"");
  refused("\"kitchen\":\"flat\"", "\"kitchen\":\"house\"");
  refused("\"step\":3", "\"step\":0");
  refused("\"at\":\"1970-01-01T00:00:00.014Z\"", "\"at\":\"soon\"");
  write_bytes(file, good.substr(0, good.size() / 2));
  CHECK_THROWS_AS(read_in(back, scratch.file("out")), StoreError);
  write_bytes(file, good);
  for (const auto& picture : std::filesystem::directory_iterator(scratch.path() / "out/pictures")) {
    write_bytes(picture, bytes_of(MASLIN_SOURCE_DIR "/tests/store/pictures/bun.webp"));
  }
  CHECK_THROWS_AS(read_in(back, scratch.file("out")), StoreError);
  CHECK_THROWS_AS(read_in(back, scratch.file("missing")), StoreError);
}
