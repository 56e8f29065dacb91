#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "pantry/pantry.h"
#include "reading/reading.h"

using namespace maslin;

namespace {

Reading read(const std::string& text) {
  static const Pantry k_pantry(embedded_pantry_tables());
  static const Words k_words(k_pantry);
  return read_text(text, k_pantry, k_words, {});
}

struct LineCase {
  const char* id;
  double number;
  const char* unit;
};

}  // namespace

TEST_CASE("Spanish, French, German, Turkish and Italian are read by their own words") {
  struct Case {
    const char* language;
    const char* text;
    std::vector<LineCase> lines;
    double prove_minutes;
    double bake_celsius;
  };
  // Amounts as written; the pantry's ids. Common usage of the five languages, no source.
  for (
      const Case& one : std::vector<Case>{
          {"es",
           "Bollos\n\nIngredientes\n500 g de harina de fuerza\n250 ml de leche tibia\n25 g de "
           "levadura fresca\n2 cucharadas de azúcar\n1 cdta. de sal\nla ralladura de un limón\n\n"
           "Elaboración\n1. Mezclar todo y amasar 10 minutos.\n2. Dejar levar 1 hora y media hasta "
           "que doble su volumen.\n3. Hornear a 190 ºC unos 20 minutos.\n",
           {{"strong_white_flour", 500, "g"},
            {"whole_milk", 250, "ml"},
            {"fresh_yeast", 25, "g"},
            {"granulated_sugar", 2, "tbsp"},
            {"salt", 1, "tsp"},
            {"lemon_zest", 1, "piece"}},
           90,
           190},
          {"fr",
           "Pain de mie\n\nIngrédients :\n500 g de farine\n30 cl de lait tiède\n1 sachet de "
           "levure sèche\n50 g de beurre mou\n1 c. à soupe de sucre\n2 c. à café de sel\n\n"
           "Préparation\nPétrissez 10 minutes. Laissez lever 1 h 30, jusqu'à ce que la pâte double "
           "de volume. Enfournez 35 min à 180 °C (th. 6).\n",
           {{"plain_flour", 500, "g"},
            {"whole_milk", 30, "cl"},
            {"active_dry_yeast", 1, "packet"},
            {"butter", 50, "g"},
            {"granulated_sugar", 1, "tbsp"},
            {"salt", 2, "tsp"}},
           90,
           180},
          {"de",
           "Milchbrötchen\n\nZutaten:\n500 g Weizenmehl (Type 550)\n1/2 Würfel Hefe\n250 ml "
           "lauwarme Milch\n80 g weiche Butter\n2 EL Zucker\n1 TL Salz\n1 Ei (Gr. M)\n\n"
           "Zubereitung:\nAlles 10 Minuten zu einem glatten Teig kneten. Zugedeckt an einem warmen "
           "Ort 1 Stunde gehen lassen. In 12 Stücke teilen und formen. Im Ofen bei 200 °C 15-18 "
           "Minuten backen.\n",
           {{"wheat_flour_type_550", 500, "g"},
            {"fresh_yeast", 0.5, "cube"},
            {"whole_milk", 250, "ml"},
            {"butter", 80, "g"},
            {"granulated_sugar", 2, "tbsp"},
            {"salt", 1, "tsp"},
            {"egg", 1, ""}},
           60,
           200},
          {"tr",
           "Poğaça\n\nMalzemeler:\n4 su bardağı un\n1 su bardağı ılık süt\n1 paket instant maya\n"
           "2 yemek kaşığı şeker\n1 çay bardağı sıvı yağ\n1 yumurta\n\nYapılışı:\nMalzemeleri "
           "karıştırıp 8 dakika yoğurun. 1 saat mayalandırın. 180 derece fırında 25 dakika "
           "pişirin.\n",
           {{"plain_flour", 4, "glass"},
            {"whole_milk", 1, "glass"},
            {"instant_yeast", 1, "packet"},
            {"granulated_sugar", 2, "tbsp"},
            {"vegetable_oil", 1, "teacup"},
            {"egg", 1, ""}},
           60,
           180},
          {"it",
           "Panini al latte\n\nIngredienti:\n500 g di farina 0\n250 ml di latte tiepido\n1 cubetto "
           "di "
           "lievito di birra\n2 cucchiai d'olio\n1 cucchiaino di sale\nla scorza grattugiata di un "
           "limone\n\nProcedimento:\nImpastate per 10 minuti. Lasciate lievitare per un'ora e "
           "mezza, "
           "fino al raddoppio dell'impasto. Infornate a 200 °C per 15 minuti.\n",
           {{"farina_0", 500, "g"},
            {"whole_milk", 250, "ml"},
            {"fresh_yeast", 1, "cube"},
            {"olive_oil", 2, "tbsp"},
            {"salt", 1, "tsp"},
            {"lemon_zest", 1, "piece"}},
           90,
           200}}) {
    CAPTURE(std::string(one.language));
    const Reading reading = read(one.text);
    CHECK(reading.language == one.language);
    REQUIRE(reading.recipe.parts.size() == 1);
    const Part& part = reading.recipe.parts[0];
    REQUIRE(part.lines.size() == one.lines.size());
    for (std::size_t i = 0; i < part.lines.size(); ++i) {
      CHECK(part.lines[i].ingredient_id == one.lines[i].id);
      CHECK(part.lines[i].found.unit == one.lines[i].unit);
      REQUIRE(part.lines[i].found.number);
      CHECK(part.lines[i].found.number->low == doctest::Approx(one.lines[i].number));
      CHECK(part.lines[i].weighed);
    }
    bool proved = false;
    bool baked = false;
    for (const Step& step : part.steps) {
      proved = proved || (step.kind == StepKind::prove &&
                          step.minutes == Range{one.prove_minutes, one.prove_minutes});
      baked = baked || (step.kind == StepKind::bake && step.celsius && step.minutes &&
                        step.celsius->low == one.bake_celsius);
    }
    CHECK(proved);
    CHECK(baked);
  }
}

TEST_CASE("a word for yeast and baking powder alike is told by whether anything is left to rise") {
  // Common practice, no source: in packets, "lievito", "levure" and "levadura" are either.
  const auto leaven = [](const std::string& text) {
    const Reading reading = read(text);
    for (const Line& line : reading.recipe.parts.at(0).lines) {
      if (line.found.unit == "packet") {
        return line.ingredient_id;
      }
    }
    return std::string("none");
  };
  const std::string cake =
      "Ciambellone\n\nIngredienti:\n300 g di farina\n3 uova\n1 bustina di "
      "lievito\n\nProcedimento:\n"
      "Mescolate le uova con la farina e il lievito. ";
  CHECK(leaven(cake + "Infornate a 180 gradi per 35 minuti.\n") == "baking_powder");
  CHECK(leaven(cake + "Lasciate lievitare un'ora. Infornate a 180 gradi per 35 minuti.\n") ==
        "instant_yeast");
  CHECK(
      leaven("Gâteau\n\nIngrédients :\n300 g de farine\n3 oeufs\n1 sachet de levure\n\n"
             "Préparation :\nMélangez les oeufs et la farine avec la levure. Enfournez 35 minutes "
             "à 180 °C.\n") == "baking_powder");
}

TEST_CASE("a unit may stand before its number, and words longer than an article are elided") {
  const Reading reading = read(
      "Pane\n\nIngredienti:\nFarina grammi 500\nLatte ml 150\nBurro, grammi 30\n1 cucchiaino "
      "dell'olio\n\nProcedimento:\nImpastate e lasciate riposare 35/40 minuti.\n");
  CHECK(reading.language == "it");
  const std::vector<Line>& lines = reading.recipe.parts.at(0).lines;
  REQUIRE(lines.size() == 4);
  CHECK(lines[0].found.unit == "g");
  CHECK(lines[1].found.unit == "ml");
  CHECK(lines[1].name == "Latte");
  CHECK(lines[2].note.empty());
  CHECK(lines[2].ingredient_id == "butter");
  CHECK(lines[2].found.number == Range{30.0, 30.0});
  CHECK(lines[3].ingredient_id == "olive_oil");
  bool rested = false;
  for (const Step& step : reading.recipe.parts.at(0).steps) {
    rested = rested || step.minutes == Range{35.0, 40.0};
  }
  CHECK(rested);
}
