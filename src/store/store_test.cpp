// Opening, migrating, checking and copying a store, and every way in which it can fail.
#include <doctest/doctest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <thread>

#include "store/documents.h"
#include "store/scratch_folder.h"
#include "store/store.h"

using namespace maslin;

namespace {

constexpr StoreOptions k_impatient{std::chrono::milliseconds(20)};

Recipe buns() {
  Recipe recipe;
  recipe.title = "Buns";
  Part dough;
  dough.name = "dough";
  recipe.parts = {dough};
  return recipe;
}

std::int64_t keep_one(Store& store, const std::string& name) {
  Transaction change(store.database());
  Keep keep;
  keep.name = name;
  const std::int64_t number = keep_recipe(change, buns(), keep).document.number;
  change.commit();
  return number;
}

/// The one sentence that opening the file says.
std::string refusal(const std::string& file) {
  try {
    Store store(file, k_impatient);
  } catch (const StoreError& error) {
    return error.what();
  }
  return "opened";
}

bool says(const std::string& sentence, const std::string& words) {
  return sentence.find(words) != std::string::npos && sentence.back() == '.';
}

/// Whoever runs this, root too, without the right to write what others own.
class AsNobody {
 public:
  AsNobody() : root_(::geteuid() == 0) {
    if (root_) {
      REQUIRE(::seteuid(65534) == 0);
    }
  }
  ~AsNobody() {
    if (root_) {
      CHECK(::seteuid(0) == 0);
    }
  }
  AsNobody(const AsNobody&) = delete;
  AsNobody& operator=(const AsNobody&) = delete;

 private:
  bool root_;
};

}  // namespace

TEST_CASE("a new store is made, and opened again with what it holds") {
  const ScratchFolder scratch;
  const std::string file = scratch.file("store.sqlite");
  std::int64_t kept = 0;
  {
    Store store(file);
    kept = keep_one(store, "buns");
  }
  Store again(file);
  CHECK(again.database().whole("PRAGMA user_version") == newest_schema());
  CHECK(again.database().whole("PRAGMA synchronous") == 2);
  CHECK(again.database().whole("PRAGMA foreign_keys") == 1);
  CHECK(again.database().ask("PRAGMA journal_mode").row());
  CHECK(named(again.database(), DocumentKind::recipe, "buns")->document == kept);
  CHECK(check_store(again).empty());
}

TEST_CASE("a store from every older version opens as the newest") {
  const std::vector<std::string> steps = schema_steps();
  REQUIRE(static_cast<int>(steps.size()) == newest_schema());
  for (std::size_t from = 1; from < steps.size(); ++from) {
    const ScratchFolder scratch;
    {
      Database older(scratch.file("s"), std::chrono::milliseconds(0));
      migrate(older, std::span(steps).first(from));
    }
    Store store(scratch.file("s"));
    CHECK(check_store(store).empty());
    CHECK(store.database().whole("PRAGMA user_version") == newest_schema());
  }
}

TEST_CASE("steps to a newer schema run in order, and one that fails leaves nothing half done") {
  const ScratchFolder scratch;
  Database database(scratch.file("s"), std::chrono::milliseconds(0));
  const std::vector<std::string> good{"CREATE TABLE a (x) STRICT;", "CREATE TABLE a (x INTEGER);",
                                      "DROP TABLE a;"};
  const std::vector<std::string> first{"CREATE TABLE a (x INTEGER) STRICT;"};
  migrate(database, first);
  database.run("INSERT INTO a VALUES (7)");
  const std::vector<std::string> broken{first[0], "ALTER TABLE a ADD COLUMN y INTEGER; NONSENSE;"};
  CHECK_THROWS_AS(migrate(database, broken), StoreError);
  CHECK(database.whole("PRAGMA user_version") == 1);
  CHECK_THROWS_AS(database.whole("SELECT y FROM a"), StoreError);
  const std::vector<std::string> mended{first[0], "ALTER TABLE a ADD COLUMN y INTEGER;",
                                        "UPDATE a SET y = x + 1;"};
  migrate(database, mended);
  CHECK(database.whole("PRAGMA user_version") == 3);
  CHECK(database.whole("SELECT y FROM a") == 8);
  migrate(database, mended);
  CHECK(database.whole("SELECT y FROM a") == 8);
}

TEST_CASE("several programs may open a new store at once") {
  for (int round = 0; round < 10; ++round) {
    const ScratchFolder scratch;
    std::vector<std::string> said(6);
    {
      std::vector<std::jthread> programs;
      for (std::size_t i = 0; i < said.size(); ++i) {
        programs.emplace_back([&, i] {
          try {
            Store store(scratch.file("s"));
            keep_one(store, "buns " + std::to_string(i));
          } catch (const StoreError& error) {
            said[i] = error.what();
          }
        });
      }
    }
    for (const std::string& sentence : said) {
      CHECK(sentence == "");
    }
    Store store(scratch.file("s"));
    CHECK(all_named(store.database(), DocumentKind::recipe).size() == said.size());
  }
}

TEST_CASE("a store from a newer maslin is refused and left alone") {
  const ScratchFolder scratch;
  const std::string file = scratch.file("store.sqlite");
  {
    Store store(file);
    store.database().run("PRAGMA user_version = 99");
  }
  const std::string before = bytes_of(file);
  CHECK(says(refusal(file), "was written by a newer maslin (store version 99"));
  CHECK(bytes_of(file) == before);
}

TEST_CASE("what is no store is refused and left alone") {
  const ScratchFolder scratch;
  for (const std::string bytes : {"Roast pumpkin knots\n", "x", "{\"title\": \"Buns\"}"}) {
    const std::string file = scratch.file("found.txt");
    write_bytes(file, bytes);
    CHECK(says(refusal(file), "is no maslin store"));
    CHECK(bytes_of(file) == bytes);
  }
  const std::string others = scratch.file("others.sqlite");
  {
    Database database(others, std::chrono::milliseconds(0));
    database.run("CREATE TABLE theirs (x)");
  }
  const std::string before = bytes_of(others);
  CHECK(says(refusal(others), "is the file of another program"));
  CHECK(bytes_of(others) == before);
}

TEST_CASE("a folder, a missing folder and no name at all are refused") {
  const ScratchFolder scratch;
  CHECK(says(refusal(scratch.path().string()), "cannot be opened or made"));
  CHECK(says(refusal(scratch.file("missing/store.sqlite")), "cannot be opened or made"));
  CHECK(says(refusal(""), "has no file name"));
}

TEST_CASE("a store that would vanish with the program is never made") {
  const ScratchFolder scratch;
  const std::filesystem::path here = std::filesystem::current_path();
  std::filesystem::current_path(scratch.path());
  {
    Store store(":memory:");
  }
  std::filesystem::current_path(here);
  CHECK(std::filesystem::exists(scratch.path() / ":memory:"));
}

TEST_CASE("a store that may not be written is refused") {
  const ScratchFolder scratch;
  const std::string file = scratch.file("store.sqlite");
  {
    Store store(file);
  }
  REQUIRE(::chmod(file.c_str(), 0444) == 0);
  REQUIRE(::chmod(scratch.path().c_str(), 0555) == 0);
  std::string said;
  {
    const AsNobody reader;
    said = refusal(file);
  }
  CHECK(says(said, "may not be written"));
  REQUIRE(::chmod(scratch.path().c_str(), 0755) == 0);
}

TEST_CASE("a store that another program holds is refused after the wait") {
  const ScratchFolder scratch;
  Store first(scratch.file("s"));
  Store second(scratch.file("s"), k_impatient);
  Transaction held(first.database());
  CHECK_THROWS_WITH_AS(Transaction{second.database()},
                       doctest::Contains("is in use by another program"), StoreError);
}

TEST_CASE("a damaged store is told from a sound one") {
  const ScratchFolder scratch;
  const std::string file = scratch.file("s");
  {
    Store store(file);
    for (int i = 0; i < 40; ++i) {
      keep_one(store, "buns " + std::to_string(i));
    }
  }
  std::string bytes = bytes_of(file);
  for (std::size_t at = 8 * 4096; at < bytes.size(); at += 512) {
    bytes[at] = static_cast<char>(~bytes[at]);
  }
  write_bytes(file, bytes);
  std::vector<std::string> wrong;
  try {
    Store store(file);
    wrong = check_store(store);
  } catch (const StoreError& error) {
    wrong.emplace_back(error.what());
  }
  CHECK_FALSE(wrong.empty());
}

TEST_CASE("a document that was tampered with is found") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  const std::int64_t kept = keep_one(store, "buns");
  CHECK_THROWS_WITH_AS(store.database().run("UPDATE document SET title = 'x'"),
                       doctest::Contains("never changes"), StoreError);
  CHECK_THROWS_AS(store.database().run("DELETE FROM document WHERE number = ?", {kept}),
                  StoreError);
  store.database().run("DROP TRIGGER document_stays");
  store.database().run("UPDATE document SET body = '{}'");
  const std::vector<std::string> wrong = check_store(store);
  REQUIRE(wrong.size() == 1);
  CHECK(says(wrong[0], "is not what it was"));
}

TEST_CASE("a copy is a whole store, made while another writes, and never over a file") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  keep_one(store, "buns");
  Store other(scratch.file("s"));
  back_up_store(store, scratch.file("copy"));
  keep_one(other, "more buns");
  Store copy(scratch.file("copy"));
  CHECK(check_store(copy).empty());
  CHECK(all_named(copy.database(), DocumentKind::recipe).size() == 1);
  CHECK_THROWS_WITH_AS(back_up_store(store, scratch.file("copy")),
                       doctest::Contains("is already there"), StoreError);
  CHECK_THROWS_AS(back_up_store(store, scratch.file("missing/copy")), StoreError);
}

TEST_CASE("a change that is not finished is taken back") {
  const ScratchFolder scratch;
  Store store(scratch.file("s"));
  {
    Transaction change(store.database());
    keep_recipe(change, buns(), Keep{"buns", "", std::nullopt, 0});
  }
  CHECK(all_named(store.database(), DocumentKind::recipe).empty());
}
