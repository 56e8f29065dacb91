// Freezing and thawing within a method, in the six languages, and sentences beside them.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "pantry/pantry.h"
#include "reading/reading.h"

using namespace maslin;

namespace {

/// "prove frozen; prove cold 600; bake 15": kinds, places and middle minutes of the steps.
std::string steps_of(const std::string& lines, const std::string& method) {
  static const Pantry k_pantry(embedded_pantry_tables());
  static const Words k_words(k_pantry);
  const Reading reading =
      read_text("Rolls\n\n" + lines + "\n" + method + "\n", k_pantry, k_words, {});
  CHECK(!reading.problem);
  std::string out;
  for (const Part& part : reading.recipe.parts) {
    for (const Step& step : part.steps) {
      out += (out.empty() ? "" : "; ") + std::string(step_kind_name(step.kind));
      out += step.place.empty() ? "" : " " + step.place;
      out += step.minutes ? " " + std::to_string(static_cast<int>(step.minutes->middle())) : "";
    }
  }
  return out;
}

constexpr const char* k_english =
    "500 g strong white flour\n330 g water\n9 g salt\n7 g instant yeast\n";

}  // namespace

TEST_CASE("pieces are frozen, thawed and proved, each a step of its own") {
  CHECK(steps_of(
            k_english,
            "Leave to rise until doubled. Shape into 10 rolls. Freeze the shaped rolls. Next day "
            "thaw overnight in the fridge, then prove until doubled and bake at 220C for 15 "
            "minutes.") == "prove; shape; prove frozen; prove cold 600; prove; bake 15");
  CHECK(steps_of(k_english,
                 "Leave to rise 1 hour.\nShape.\nFreeze for 2 weeks.\nThaw for 2 hours at room "
                 "temperature.\nProve 90 minutes.\nBake at 220C for 15 minutes.") ==
        "prove 60; shape; prove frozen 20160; prove 120; prove 90; bake 15");
}

TEST_CASE("in the other languages too") {
  CHECK(steps_of(
            "500 g Weizenmehl Type 550\n330 g Wasser\n9 g Salz\n7 g Trockenhefe\n",
            "1 Stunde gehen lassen. 10 Brötchen formen und einfrieren. Am nächsten Tag über Nacht "
            "im Kühlschrank auftauen. 1 Stunde gehen lassen. Bei 220 Grad 15 Minuten backen.") ==
        "prove 60; divide; prove; prove cold 600; prove 60; bake 15");
  CHECK(
      steps_of("500 g de farine T55\n330 g d'eau\n9 g de sel\n7 g de levure sèche\n",
               "Laisser lever 1 heure. Façonner 10 petits pains. Congeler les pâtons. Laisser "
               "décongeler 2 heures à température ambiante. Laisser lever 1 heure. Cuire au four à "
               "220 °C 15 minutes.") == "prove 60; shape; prove; prove 120; prove 60; bake 15");
  CHECK(steps_of(
            "500 g de harina de fuerza\n330 g de agua\n9 g de sal\n7 g de levadura seca\n",
            "Dejar levar 1 hora. Formar 10 panecillos. Congelar los panecillos. Descongelar toda "
            "la noche en la nevera. Dejar levar 1 hora. Hornear a 220 °C durante 15 minutos.") ==
        "prove 60; shape; prove; prove cold 600; prove 60; bake 15");
  CHECK(
      steps_of(
          "500 g di farina manitoba\n330 g di acqua\n9 g di sale\n7 g di lievito di birra secco\n",
          "Far lievitare 1 ora. Formare 10 panini. Congelare i panini. Scongelare in frigorifero "
          "per tutta la notte. Far lievitare 1 ora. Cuocere in forno a 220 °C per 15 minuti.") ==
      "prove 60; shape; prove; prove cold 600; prove 60; bake 15");
  CHECK(steps_of("500 g un\n330 g su\n9 g tuz\n7 g kuru maya\n",
                 "1 saat mayalandırın. 10 parçaya bölün. Parçaları dondurun. Bir gece buzdolabında "
                 "çözdürün. 1 saat mayalandırın. 220 derecede 15 dakika pişirin.") ==
        "prove 60; divide; prove; prove cold 600; prove 60; bake 15");
}

TEST_CASE("what is baked and then frozen is kept, and does not prove") {
  CHECK(steps_of(k_english,
                 "Prove 1 hour. Bake at 220C for 15 minutes. Cool. Freeze for up to 3 months.") ==
        "prove 60; bake 15; cool; finish frozen");
}

TEST_CASE("a loaf ends its sentence, and a place goes with its own verb") {
  CHECK(
      steps_of(k_english, "Prove 1 hour. Shape into a loaf. Prove 45 minutes. Bake 30 minutes.") ==
      "prove 60; shape; prove 45; bake 30");
  CHECK(steps_of(k_english, "Prove 1 hour. Shape. Refrigerate overnight. Bake 30 minutes.") ==
        "prove 60; shape; prove cold 600; bake 30");
}
