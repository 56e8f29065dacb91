#include "adjust/want_words.h"

#include <doctest/doctest.h>

#include "adjust/adjust.h"

using namespace maslin;

namespace {

Want only(const std::string& words) {
  const SaidWants said = wants_from_words(words);
  REQUIRE_MESSAGE(said.problem.empty(), words, ": ", said.problem);
  REQUIRE_MESSAGE(said.wants.size() == 1, words);
  return said.wants.front();
}

}  // namespace

TEST_CASE("a figure is wanted in words as in the short form") {
  for (const char* words :
       {"sugar <= 20 %", "sugar \u2264 20%", "sugar at most 20 %", "Sugar under 20 %, please",
        "no more than 20 % sugar", "sugar_pct_flour<=20"}) {
    const SaidWants said = wants_from_words(words);
    REQUIRE_MESSAGE(!said.wants.empty(), words, ": ", said.problem);
    CHECK_MESSAGE(said.wants[0].kind == WantKind::sugar_pct_flour, words);
    CHECK_MESSAGE(said.wants[0].high == doctest::Approx(20.0), words);
    CHECK_MESSAGE(said.wants[0].low == 0.0, words);
  }
  CHECK(only("salt about 1,8 %").low == doctest::Approx(1.8));
  CHECK(only("at least 65 % water").kind == WantKind::water_pct_flour);
  CHECK(only("at least 65 % water").low == doctest::Approx(65.0));
}

TEST_CASE("more and less are read against the dough as it stands") {
  CHECK(only("less sugar").times == doctest::Approx(0.8));
  CHECK(only("a little less salt").times == doctest::Approx(0.9));
  CHECK(only("much more butter").times == doctest::Approx(1.6));
  CHECK(only("half the sugar").times == doctest::Approx(0.5));
  CHECK(only("a third less sugar").times == doctest::Approx(2.0 / 3.0));
  CHECK(only("two thirds less sugar").times == doctest::Approx(1.0 / 3.0));
  CHECK(only("two thirds of the sugar").times == doctest::Approx(2.0 / 3.0));
  CHECK(only("a quarter more butter").times == doctest::Approx(1.25));
  CHECK(only("half less yeast").times == doctest::Approx(0.5));
  CHECK(only("less sweet").kind == WantKind::sugar_pct_flour);
  CHECK(only("softer").feel_classes == 1.0);
  CHECK(only("a bit stiffer").feel_classes == -0.5);
  CHECK(only("less sticky").feel_classes == -1.0);
}

TEST_CASE("a yield in words is pieces, grams or a factor") {
  const SaidWants both = wants_from_words("12 pieces of 80 g");
  REQUIRE(both.wants.size() == 2);
  CHECK(both.wants[0].kind == WantKind::pieces);
  CHECK(both.wants[0].low == 12.0);
  CHECK(both.wants[1].kind == WantKind::piece_grams);
  CHECK(both.wants[1].low == 80.0);
  CHECK(only("eight buns").low == 8.0);
  CHECK(only("75g each").kind == WantKind::piece_grams);
  CHECK(only("1.2 kg of dough").low == doctest::Approx(1200.0));
  CHECK(only("half as much").low == 0.5);
  CHECK(only("a third of the recipe").low == doctest::Approx(1.0 / 3.0));
  CHECK(only("use up 200 g of whole milk").from == "whole milk");
  CHECK(only("for 300 g flour").from == "flour");
  CHECK(only("for 300 g flour").low == 300.0);
  CHECK(only("900 g in all").from.empty());
  CHECK(only("900 g in all").kind == WantKind::total_grams);
  CHECK(only("twice the recipe").low == 2.0);
  CHECK(only("fits this tin").kind == WantKind::fill);
}

TEST_CASE("what must go and what stands in for it is read") {
  CHECK(only("no eggs").kind == WantKind::no_egg);
  CHECK(only("egg-free").kind == WantKind::no_egg);
  CHECK(only("without milk").kind == WantKind::no_dairy);
  CHECK(wants_from_words("vegan").wants.size() == 2);
  const Want swap = only("oat milk instead of whole milk");
  CHECK(swap.from == "whole milk");
  CHECK(swap.to == "oat milk");
  CHECK(only("swap butter for oil").to == "oil");
  CHECK(only("without butter").from == "butter");
  CHECK(only("replace a third of the butter with oil").from == "butter");
  CHECK(only("replace a third of the butter with oil").to == "oil");
  CHECK(only("replace a third of the butter with oil").share == doctest::Approx(1.0 / 3.0));
  CHECK(only("half the butter for oil").from == "butter");
  CHECK(only("oil for half the butter").from == "butter");
  CHECK(only("30 % wholemeal").to == "wholemeal");
  CHECK(only("30 % of the flour wholemeal").from == "flour");
  CHECK(only("with fresh yeast").to == "fresh yeast");
  CHECK(only("a tangzhong of 8 %").low == 8.0);
  CHECK(only("triple").low == 3.0);
}

TEST_CASE("several wants are parted, times are minutes, nonsense gets a sentence") {
  CHECK(wants_from_words("softer and less sugar; no egg").wants.size() == 3);
  CHECK(only("risen within 1 hour").high == 60.0);
  CHECK(only("rise in 90 min").low == 90.0);
  for (const char* words : {"", "=", "12", "%%%", "no", "what i had in mind last week was this"}) {
    CHECK_MESSAGE(!wants_from_words(words).problem.empty(), words);
  }
}
