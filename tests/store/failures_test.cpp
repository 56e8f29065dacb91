// What maslin says from outside when its store fails it: one sentence on standard error,
// status 1, and nothing that was answered before is lost.
#include <doctest/doctest.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <string>

#include "store/scratch_folder.h"
#include "store/store.h"

using namespace maslin;

namespace {

struct Run {
  int status = 0;
  std::string out;
  std::string error;
};

/// Commands in the scratch folder, where `maslin` is the program under test.
Run run(const ScratchFolder& scratch, const std::string& commands) {
  const std::string folder = scratch.path().string();
  write_bytes(scratch.path() / "run.sh",
              "cd '" + folder + "' || exit 9\nmaslin() { '" MASLIN_PROGRAM "' \"$@\"; }\n" +
                  commands + "\n");
  const std::string line =
      "bash '" + folder + "/run.sh' >'" + folder + "/out' 2>'" + folder + "/error'";
  const int code = std::system(line.c_str());
  return {WIFEXITED(code) ? WEXITSTATUS(code) : -1, bytes_of(scratch.path() / "out"),
          bytes_of(scratch.path() / "error")};
}

void write_recipe(const ScratchFolder& scratch) {
  write_bytes(scratch.path() / "buns.txt",
              "Buns\n\n500 g plain flour\n300 ml milk\n7 g instant yeast\n8 g salt\n\n"
              "Leave to rise until doubled. Bake at 190C for 20 minutes.\n");
}

void refuses(const Run& run, const std::string& words) {
  CAPTURE(run.out);
  CAPTURE(run.error);
  CHECK(run.status == 1);
  CHECK(run.error.find(words) != std::string::npos);
  // One line that ends as a sentence does.
  CHECK(run.error.find('\n') == run.error.size() - 1);
  CHECK(run.error.substr(run.error.size() - 2) == ".\n");
}

int count(const std::string& text, const std::string& word) {
  int found = 0;
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    ++found;
  }
  return found;
}

}  // namespace

TEST_CASE("a full disk: what was answered is kept, the rest is said to be not") {
  const ScratchFolder scratch;
  write_recipe(scratch);
  REQUIRE(run(scratch, "maslin trial start buns.txt --store s").status == 0);
  for (int i = 0; i < 2000; ++i) {
    std::ofstream(scratch.file("notes"), std::ios::app) << "n" << i << " doubled at 48 min\n";
  }
  const Run full = run(scratch, "ulimit -f 300; maslin trial note 1 - --json --store s <notes");
  refuses(full, "the disk, or your share of it, is full");
  const int answered = count(full.out, "\"note\":");
  CHECK(answered > 0);
  CHECK(answered < 2000);
  const Run shown = run(scratch, "maslin trial show 1 --json --store s");
  CHECK(count(shown.out, "\"note\":") == answered);
  CHECK(run(scratch, "maslin library check --store s").status == 0);
  // With room again it goes on.
  CHECK(run(scratch, "maslin trial note 1 tacky --store s").status == 0);
}

TEST_CASE("a disk too full for a new store") {
  const ScratchFolder scratch;
  write_recipe(scratch);
  refuses(run(scratch, "ulimit -f 10; maslin trial start buns.txt --store s"), "is full");
  CHECK(run(scratch, "maslin trial start buns.txt --store s").status == 0);
}

TEST_CASE("a disk too full to write everything out") {
  const ScratchFolder scratch;
  write_recipe(scratch);
  REQUIRE(run(scratch, "maslin trial start buns.txt --store s").status == 0);
  REQUIRE(
      run(scratch, "yes doubled at 48 min | head -400 | maslin trial note 1 - --store s").status ==
      0);
  refuses(run(scratch, "ulimit -f 40; maslin library export all --store s"), "cannot be written");
}

TEST_CASE("files that are no store") {
  const ScratchFolder scratch;
  write_recipe(scratch);
  refuses(run(scratch, "maslin trial list --store buns.txt"), "is no maslin store");
  refuses(run(scratch, "maslin trial list --store ."), "cannot be opened or made");
  refuses(run(scratch, "maslin trial list --store missing/s"), "cannot be opened or made");
  CHECK(run(scratch, "maslin trial list --store ''").status == 2);
}

TEST_CASE("a store from a newer maslin") {
  const ScratchFolder scratch;
  Store(scratch.file("s")).database().run("PRAGMA user_version = 99");
  refuses(run(scratch, "maslin trial list --store s"), "was written by a newer maslin");
}

TEST_CASE("a store that another program does not let go of") {
  const ScratchFolder scratch;
  write_recipe(scratch);
  Store store(scratch.file("s"));
  Transaction held(store.database());
  refuses(run(scratch, "maslin trial start buns.txt --store s"), "is in use by another program");
  CHECK(run(scratch, "maslin trial list --store s").status == 0);
}

TEST_CASE("a store that may not be written") {
  const ScratchFolder scratch;
  {
    Store store(scratch.file("s"));
  }
  REQUIRE(::chmod(scratch.file("s").c_str(), 0444) == 0);
  REQUIRE(::chmod(scratch.path().c_str(), 0777) == 0);
  const std::string nobody = ::geteuid() == 0 ? "setpriv --reuid 65534 --clear-groups " : "";
  refuses(run(scratch, nobody + "'" MASLIN_PROGRAM "' trial list --store s"), "may not be written");
}

TEST_CASE("what is not there is said in one sentence") {
  const ScratchFolder scratch;
  write_recipe(scratch);
  REQUIRE(run(scratch, "maslin trial start buns.txt --store s").status == 0);
  refuses(run(scratch, "maslin trial note 7 tacky --store s"), "There is no trial 7");
  refuses(run(scratch, "maslin trial note 1 '' --store s"), "The note is empty");
  refuses(run(scratch, "maslin trial note 1 x --picture buns.txt --store s"), "no JPEG");
  refuses(run(scratch, "maslin trial note 1 x --instead-of 9 --store s"), "no note 9");
  refuses(run(scratch, "maslin trial note 1 x --at noon --store s"), "is no moment");
  refuses(run(scratch, "maslin trial step 1 99 done --store s"), "no step 99");
  refuses(run(scratch, "maslin trial start rolls --store s"), "No recipe called");
  refuses(run(scratch, "maslin trial start buns.txt --kitchen attic --store s"),
          "No kitchen called");
  refuses(run(scratch, "maslin library history rolls --store s"), "No recipe called");
  REQUIRE(run(scratch, "maslin trial close 1 --store s").status == 0);
  refuses(run(scratch, "maslin trial note 1 'done at 30' --store s"), "Trial 1 is closed");
  refuses(run(scratch, "maslin library import nowhere --store t"), "cannot be read");
}
