#include "recipe/observation.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "quantity/number_text.h"
#include "recipe/note_words.h"

using namespace maslin;

namespace {

const NoteWords k_words;

std::string digits(double value) {
  return number_text(value, 1);
}

/// An observation on one line, for comparing: "volume_ratio 2 @48 first <".
std::string line(const Observation& one) {
  std::string out(observation_kind_name(one.kind));
  const bool named = one.kind == ObservationKind::feel || one.kind == ObservationKind::crust;
  out += " " + (named ? one.word : digits(one.value));
  out += one.kind == ObservationKind::glaze ? " " + one.word : "";
  out += one.kind == ObservationKind::score ? "/" + digits(one.out_of) + " " + one.word : "";
  out += one.bound == Bound::below ? " below" : one.bound == Bound::above ? " above" : "";
  out += one.at_minutes ? " @" + digits(*one.at_minutes) : "";
  out += one.prove.empty() ? "" : " " + one.prove;
  out += one.question.empty() ? "" : " ?";
  out += one.meant ? " " + digits(*one.meant) : "";
  out += one.meant_minutes ? " @" + digits(*one.meant_minutes) : "";
  return out;
}

std::string read(std::string_view note) {
  std::string out;
  for (const Observation& one : read_note(note, k_words).observations) {
    out += (out.empty() ? "" : "; ") + line(one);
  }
  return out;
}

struct Row {
  std::string note;
  std::string says;
};

void check(const std::vector<Row>& rows) {
  for (const Row& row : rows) {
    CAPTURE(row.note);
    CHECK(read(row.note) == row.says);
  }
}

}  // namespace

// The notes are of the kind bakers write; common practice, no source.

TEST_CASE("how a glaze did, and with which amounts") {
  check({{"100 g with 15 g just holds a line", "glaze 15 just line"},
         {"200 g icing sugar with 34 g juice coated", "glaze 17 coat"},
         {"the glaze held a line", "glaze 0 line"},
         {"icing ran off", "glaze 0 run"},
         {"glaze stood when piped", "glaze 0 stiff"},
         {"100 g with 2 g held a line", "glaze 2 line ?"},
         {"butter ran at the edge", ""},
         {"the glaze has not run", ""}});
}

TEST_CASE("how much it has risen, and when") {
  check({{"doubled at 48 min", "volume_ratio 2 @48"},
         {"×1.6 after 40 minutes", "volume_ratio 1.6 @40"},
         {"x2 at 48", "volume_ratio 2 @48"},
         {"2x at 48", "volume_ratio 2 @48"},
         {"48 min: doubled", "volume_ratio 2 @48"},
         {"took 1 h 10 min to double", "volume_ratio 2 @70"},
         {"Doubled after 1h30.", "volume_ratio 2 @90"},
         {"tripled in 3 hours", "volume_ratio 3 @180"},
         {"doubled after an hour and a half", "volume_ratio 2 @90"},
         {"doubled in half an hour", "volume_ratio 2 @30"},
         {"1½ times at 45 min", "volume_ratio 1.5 @45"},
         {"1,6 times at 45 min", "volume_ratio 1.6 @45"},
         {"risen by half after forty five minutes", "volume_ratio 1.5 @45"},
         {"up 60 % at 50 min", "volume_ratio 1.6 @50"},
         {"from 4 to 9 cm in the jar at 60 min", "volume_ratio 2.3 @60"},
         {"from 200 ml to 420 ml after 55 min", "volume_ratio 2.1 @55"},
         {"doubled at 45-50 min", "volume_ratio 2 @47.5"},
         {"it doubled in an hour and 20 minutes", "volume_ratio 2 @80"},
         {"48 min, doubled", "volume_ratio 2 @48"},
         {"bulk took 2 hours at 21 degrees, tripled", "volume_ratio 3 @120 first"},
         {"doubled", "volume_ratio 2"}});
}

TEST_CASE("what has not happened yet is a bound, not a sighting") {
  check({{"not moving after an hour", "volume_ratio 1 @60"},
         {"hasn't moved after 40 min", "volume_ratio 1 @40"},
         {"no rise at 30 min", "volume_ratio 1 @30"},
         {"barely risen at 45 min", "volume_ratio 1.1 @45"},
         {"not doubled at 60 min", "volume_ratio 2 below @60"},
         {"not yet doubled after 90 minutes", "volume_ratio 2 below @90"},
         {"more than doubled at 50 min", "volume_ratio 2 above @50"},
         {"nearly doubled at 45 min", "volume_ratio 1.8 @45"},
         {"not quite doubled at 45 min", "volume_ratio 1.8 @45"},
         {"not done at 30", "minutes_done 30 above @30"},
         {"still raw at 25 min", "minutes_done 25 above @25"}});
}

TEST_CASE("a mark on a jar is set at double") {
  check({{"jar mark reached at 50 min", "volume_ratio 2 @50"},
         {"reached the mark after 50 min", "volume_ratio 2 @50"},
         {"up to the rubber band at 45 min", "volume_ratio 2 @45"},
         {"mark not reached", ""},
         {"not at the mark at 40 min", "volume_ratio 2 below @40"}});
}

TEST_CASE("which rise it was") {
  check({{"first prove doubled at 48 min", "volume_ratio 2 @48 first"},
         {"bulk: doubled in 2 h", "volume_ratio 2 @120 first"},
         {"second rise x1.8 at 35 min", "volume_ratio 1.8 @35 second"},
         {"after shaping, doubled at 40 min", "volume_ratio 2 @40 last"},
         {"sponge tripled after 4 hours", "volume_ratio 3 @240 preferment"}});
}

TEST_CASE("temperatures, in either scale, of the middle, the dough or the room") {
  check({{"core 96 °C", "core_celsius 96"},
         {"core 96", "core_celsius 96"},
         {"205F in the middle", "core_celsius 96.1"},
         {"93.5 C inside at 22 min", "core_celsius 93.5 @22"},
         {"dough 24 C", "dough_celsius 24"},
         {"dough at 24", "dough_celsius 24"},
         {"room 19", "room_celsius 19"},
         {"kitchen is 66 °F", "room_celsius 18.9"},
         {"dough 24 C, room 19", "dough_celsius 24; room_celsius 19"},
         {"dough 24C room 19C", "dough_celsius 24; room_celsius 19"},
         {"done at 96 C", "core_celsius 96; minutes_done 0"},
         {"dough temperature 78F after mixing", "dough_celsius 25.6"},
         {"not much rise in 30 minutes. Kitchen 17C", "volume_ratio 1.1 @30; room_celsius 17"},
         {"oven at 190 C", ""},
         {"water 38 °C", ""},
         {"baked at 190 C for 35 min", "minutes_done 35 @35"}});
}

TEST_CASE("what the oven did") {
  check({{"done at 30, a shade dark", "minutes_done 30 @30; crust dark @30"},
         {"out after 28 min, golden", "minutes_done 28 @28; crust golden @28"},
         {"still pale at 20 min", "crust pale @20"},
         {"980 g before, 870 g after", "mass_before_grams 980; mass_after_grams 870"},
         {"went in at 980 g, came out 870 g", "mass_before_grams 980; mass_after_grams 870"},
         {"980 before, 870 after", "mass_before_grams 980; mass_after_grams 870"},
         {"from 980 g to 870 g", "mass_before_grams 980; mass_after_grams 870"},
         {"2 lb 3 oz before baking", "mass_before_grams 992.2"},
         {"came out of the oven at 870 g", "mass_after_grams 870"},
         {"tops dark at 22 minutes, bottoms pale", "crust dark @22"},
         {"10 minutes too long, burnt", "crust burnt"},
         {"done in 18 minutes instead of 25", "minutes_done 18 @18"},
         {"85 mm tall", "height 85"},
         {"rose to 8.5 cm", "height 85"}});
}

TEST_CASE("a colour picked from the crust is its lightness, and of nothing else") {
  check({{"crust colour #a0622d", "crust_lightness 47.5"},
         {"Crust #A0622D at 26 min", "crust_lightness 47.5 @26"},
         {"done at 30, #a0622d", "minutes_done 30 @30; crust_lightness 47.5 @30"},
         {"crust rgb(160, 98, 45)", "crust_lightness 47.5"},
         {"crust colour RGB (160 98 45) after 26 min", "crust_lightness 47.5 @26"},
         {"crust L 55", "crust_lightness 55"},
         {"crust L* 55.4 at 20 min", "crust_lightness 55.4 @20"},
         {"crust L*=55", "crust_lightness 55"},
         {"crust lab(55 20 30)", "crust_lightness 55"},
         {"crust lab(55.5, 20, -30)", "crust_lightness 55.5"},
         {"crust #fff", "crust_lightness 100 ?"},
         {"top #000", "crust_lightness 0 ?"},
         {"crumb colour #f3e3c0", ""},
         {"inside #f3e3c0", ""},
         {"colour of the middle rgb(240, 227, 192)", ""},
         {"dough #f3e3c0", ""},
         {"filling colour #402010", ""},
         {"glaze #ffffff", ""},
         {"bottom #5d3417", ""},
         {"not #a0622d yet", ""},
         {"crust #a0622d, crumb #f3e3c0", "crust_lightness 47.5"},
         {"crumb #f3e3c0; crust #a0622d", "crust_lightness 47.5"},
         {"crust #a0622", ""},
         {"crust #bakery", ""},
         {"crust rgb(300, 20, 10)", ""},
         {"crust rgb(160, 98", ""},
         {"1 l 20 min", ""},
         {"golden inside", ""},
         {"golden, core 96", "crust golden; core_celsius 96"},
         {"96 C in the middle and golden", "core_celsius 96; crust golden"}});
}

TEST_CASE("what hands and tongue found") {
  check({{"15 g flour left", "flour_left_grams 15"},
         {"15g of flour left over, tacky", "flour_left_grams 15; feel soft"},
         {"kept back 20 g", "flour_left_grams 20"},
         {"left 30g flour out, dough still sticky", "flour_left_grams 30; feel slack"},
         {"tacky", "feel soft"},
         {"too sticky to shape", "feel slack"},
         {"smooth at 10 min", "feel medium @10"},
         {"crumb 7/9", "score 7/9 crumb"},
         {"flavour 8 out of 9", "score 8/9 flavour"},
         {"7/9 for the crumb", "score 7/9 crumb"},
         {"crumb 7/9, flavour 4/5", "score 7/9 crumb; score 4/5 flavour"},
         {"taste 8/9 texture 6/9", "score 8/9 taste; score 6/9 texture"},
         {"7/9", "score 7/9 overall"}});
}

TEST_CASE("what says nothing that can be measured stays as text") {
  for (const char* note :
       {"", "   ", "lovely smell", "used the dark tin", "brushed with golden syrup",
        "soft butter this time", "rolled it thinner", "30 x 20 cm tin", "not sticky",
        "crumb a bit pale", "ready to bake at 50 min", "next time 1/2 tsp less salt", "½ tsp salt",
        "12 pieces of 65 g", "gas mark 5", "1/3 wholemeal", "!!!", "°", "7/0"}) {
    CAPTURE(note);
    CHECK(read(note) == "");
  }
  const NoteReading reading = read_note("Lovely smell, doubled at 48 min; will do again!", k_words);
  CHECK(reading.observations.size() == 1);
  CHECK(reading.unread == std::vector<std::string>{"Lovely smell", "will do again"});
}

TEST_CASE("Fahrenheit written for Celsius, and the reverse, is questioned") {
  check({{"core 205 C", "core_celsius 205 ? 96.1"},
         {"core 205", "core_celsius 205 ? 96.1"},
         {"core 96 F", "core_celsius 35.6 ? 96"},
         {"dough 75", "dough_celsius 75 ? 23.9"},
         {"room 68", "room_celsius 68 ? 20"},
         {"core 300 C", "core_celsius 300 ?"}});
  const Observation core = read_note("core 205 C", k_words).observations.at(0);
  CHECK(core.question ==
        "205 °C? If you meant 205 °F, write it so: the middle of a piece is usually 40 to 112 °C.");
}

TEST_CASE("hours written for minutes, and the reverse, are questioned") {
  check({{"doubled at 2 min", "volume_ratio 2 @2 ? @120"},
         {"doubled at 2", "volume_ratio 2 @2 ? @120"},
         {"doubled after 90 hours", "volume_ratio 2 @5400 ? @90"},
         {"doubled at 48 hours", "volume_ratio 2 @2880 ? @48"},
         {"doubled at 30 hours", "volume_ratio 2 @1800"},
         {"done at 30 h", "minutes_done 1800 @1800 ? 30 @30"},
         {"doubled overnight", "volume_ratio 2 @600"},
         {"doubled at 14:48", "volume_ratio 2 ?"},
         {"doubled at 1:10", "volume_ratio 2 ? @70"}});
}

TEST_CASE("masses, ratios and scores that cannot be are questioned") {
  check({{"870 g before, 980 g after", "mass_before_grams 870; mass_after_grams 980 ?"},
         {"980 g before, 400 g after", "mass_before_grams 980; mass_after_grams 400 ?"},
         {"x20 at 60 min", "volume_ratio 20 @60 ?"},
         {"crumb 11/9", "score 11/9 crumb ?"},
         {"3 kg flour left", "flour_left_grams 3000 ?"}});
}

TEST_CASE("an observation keeps the words it was read from") {
  const auto read = read_note("Lovely. Core 96 °C – good", k_words).observations;
  REQUIRE(read.size() == 1);
  CHECK(read[0].text == "Core 96 °C");
}

TEST_CASE("observations come back from their JSON") {
  for (const char* note : {"first prove doubled at 48 min", "core 205", "crumb 7/9, tacky",
                           "not done at 30", "980 g before, 990 g after", "doubled at 2 min"}) {
    const auto read = read_note(note, k_words).observations;
    REQUIRE_FALSE(read.empty());
    CHECK(observations_from_json(observations_to_json(read)) == read);
  }
  CHECK(observations_from_json("").empty());
  CHECK(observations_from_json("[{\"kind\":\"moon\"},{\"kind\":\"score\"},7]").empty());
}

TEST_CASE("any text is read without harm, and clauses are observed or left as text") {
  CHECK(rc::check([] {
    const auto pieces = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
        "doubled", "at", "48", "min", "core", "96", "°C", ",", "x", "1/2", "7/9", "from", "to", "g",
        "before", "after", "½", "not", "-", "14:30", "½", "the", "done", "flour left", "\xff", "%",
        "'"));
    std::string note;
    for (const std::string& piece : pieces) {
      note += piece + (*rc::gen::arbitrary<bool>() ? " " : "");
    }
    for (const Observation& one : read_note(note, k_words).observations) {
      RC_ASSERT(note.find(one.text) != std::string::npos);
    }
  }));
  CHECK(rc::check([](const std::string& note) { read_note(note, k_words); }));
}
