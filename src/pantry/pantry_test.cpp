#include "pantry/pantry.h"

#include <doctest/doctest.h>
#include <rapidcheck.h>

#include <cmath>
#include <string>

#include "pantry/filling.h"

using namespace maslin;

namespace {

// A small larder of its own, so that a test says what it needs and the real tables may grow.
constexpr std::string_view k_ingredients =
    "id\tname\tname_us\taliases\tkind\twater\tprotein\tstarch\tenergy_kcal\tallergens\tprotease\n"
    "plain_flour\tplain flour\tall-purpose flour\tflour|AP "
    "flour\tflour\t12\t10\t78\t364\tgluten\t\n"
    "rye_flour\trye flour\trye flour\t\tflour\t12\t8\t80\t350\tgluten\t\n"
    "orange\torange\torange\t\tfruit\t87\t1\t12\t47\t\t\n"
    "orange_juice\torange juice\torange juice\t\tjuice\t88\t1\t11\t45\t\t\n"
    "tomato\ttomato\ttomato\ttomatoes on the vine\tvegetable\t95\t1\t4\t18\t\t\n"
    "egg\tegg\tegg\t\tegg\t76\t12\t12\t143\teggs, traces\t\n"
    "kiwi\tkiwi fruit\tkiwifruit\tcr\u00e8me kiwi\tfruit\t83\t1\t16\t61\t\tyes\n"
    "salt\tsalt\tsalt\t\tsalt\t0\t0\t0\t0\t\t\n";
constexpr std::string_view k_densities =
    "id\tpacking\tg_per_ml\tcv\tsource\n"
    "kind:flour\tlevel\t0.53\t0.15\tX\n"
    "plain_flour\tlevel\t0.5\t0.06\tA\n"
    "plain_flour\tsifted\t0.45\t0.05\tA\n"
    "plain_flour\tscooped\t0.6\t0.08\tA\n"
    "orange_juice\tlevel\t1.05\t0\tA\n"
    "salt\tlevel\t1.2\t0.03\tA\n";
constexpr std::string_view k_fillings =
    "id\tmeasure\tsifted\tlevel\tscooped\tpacked\tloose\tspread\tsource\n"
    "kind:flour\tcup\t\t0.5\t0.5\t\t\t0.05\tM\n"
    "kind:flour\tspoon\t\t\t1\t\t\t0.2\tM\n"
    "kind:juice\tcup\t\t1\t\t\t\t0\tM\n"
    "kind:salt\tcup\t\t1\t\t\t\t0.1\tM\n"
    "salt\tcup\t\t1\t\t\t\t0.3\tM\n";
constexpr std::string_view k_portions =
    "id\tword\tsize\tlocale\tgrams\tsd\tsource\n"
    "egg\tpiece\tlarge\tus\t50\t2\tA\n"
    "egg\tpiece\tlarge\teu\t61\t3\tA\n"
    "egg\tpiece\tmedium\teu\t52\t3\tA\n"
    "egg\tpiece\t\teu\t54\t5\tA\n"
    "egg\tpiece\t\t\t50\t5\tA\n"
    "egg\tpiece\t\tse\t57\t5\tA\n"
    "kind:fruit\tpiece\t\t\t120\t40\tA\n"
    "kiwi\tpiece\t\t\t69\t10\tA\n"
    "any\tpinch\t\t\t0.35\t0.25\tA\n"
    "salt\tpinch\t\t\t0.4\t0.15\tA\n";
constexpr std::string_view k_measures =
    "unit\tlocale\tml\tcv\tsource\n"
    "cup\tus\t236.6\t0\tA\n"
    "cup\teu\t220\t0.14\tA\n"
    "cup\t\t240\t0.08\tA\n"
    "tbsp\t\t15\t0\tA\n"
    "breakfast_cup\told_uk\t284\t0.08\tA\n";
constexpr std::string_view k_heaps =
    "word\tmeasure\tfactor\tcv\tsource\n"
    "heaped\tspoon\t2\t0.3\tA\n"
    "heaped\tcup\t1.25\t0.1\tA\n";
constexpr std::string_view k_locales = "locale\tnear\tsource\nde\teu\tA\nse\teu\tA\n";

const Pantry& larder() {
  static const Pantry all(PantryTables{k_ingredients,
                                       {},
                                       {},
                                       k_densities,
                                       k_portions,
                                       k_measures,
                                       {},
                                       k_fillings,
                                       k_heaps,
                                       k_locales,
                                       ""});
  return all;
}

const Ingredient& food(std::string_view id) {
  const Ingredient* found = larder().find(id);
  REQUIRE_MESSAGE(found != nullptr, id);
  return *found;
}

Distribution weighed(std::string_view id, double amount, std::string_view unit,
                     std::string_view packing = "", std::string_view size = "",
                     std::string_view locale = "") {
  const auto grams = larder().weigh(food(id), point(amount), unit, packing, size, locale);
  REQUIRE_MESSAGE(grams.has_value(), id, " ", unit);
  return *grams;
}

}  // namespace

TEST_CASE("names are compared without case, punctuation and plural") {
  CHECK(folded_name("  Plain   FLOUR ") == "plain flour");
  CHECK(folded_name("Tomatoes") == "tomato");
  CHECK(folded_name("bay leaves, dried") == "bay leaf dried");
  CHECK(folded_name("blackberries") == "blackberry");
  CHECK(folded_name("confectioners' sugar") == folded_name("confectioner's sugar"));
  CHECK(folded_name("all-purpose") == "all purpose");
  CHECK(folded_name("couscous") == "couscous");
  CHECK(folded_name("swiss") == "swiss");
  CHECK(folded_name("\xE5\xB0\x8F\xE9\xBA\xA6\xE7\xB2\x89") ==
        "\xE5\xB0\x8F\xE9\xBA\xA6\xE7\xB2\x89");
  CHECK(folded_name("!?").empty());
}

TEST_CASE("folding a name twice changes no name of the pantry") {
  const Pantry real(embedded_pantry_tables());
  for (const Ingredient& one : real.ingredients()) {
    const std::string once = folded_name(one.name);
    CHECK_MESSAGE(real.named(one.name) == &one, one.name);
    CHECK_MESSAGE(real.named(once) != nullptr, once);
  }
}

TEST_CASE("any bytes fold without harm and name at most one ingredient") {
  CHECK(rc::check("folding", [](const std::string& text) {
    const std::string once = folded_name(text);
    RC_ASSERT(once.size() <= text.size() + 1);
    larder().best_match(text);
    larder().search(text, 3);
  }));
}

TEST_CASE("an ingredient answers to its id, both names and its aliases") {
  for (const char* name :
       {"plain_flour", "Plain flour", "all-purpose flour", "flour", "AP Flour"}) {
    REQUIRE_MESSAGE(larder().named(name) != nullptr, name);
    CHECK_MESSAGE(larder().named(name)->id == "plain_flour", name);
  }
  CHECK(larder().named("granite") == nullptr);
  CHECK(larder().find("Plain flour") == nullptr);
}

TEST_CASE("the longest run of words names the food, and the later one of two") {
  std::string matched;
  CHECK(larder().best_match("freshly squeezed orange juice", &matched)->id == "orange_juice");
  CHECK(matched == "orange juice");
  CHECK(larder().best_match("rye flour or plain flour")->id == "plain_flour");
  CHECK(larder().best_match("2 ripe tomatoes on the vine, halved", &matched)->id == "tomato");
  CHECK(matched == "tomato on the vine");
  CHECK(larder().best_match("a handful of gravel") == nullptr);
  CHECK(larder().best_match("") == nullptr);
}

TEST_CASE("a search gives the nearest name first and each food once") {
  const auto found = larder().search("flour", 10);
  REQUIRE(found.size() == 2);
  CHECK(found.front()->id == "plain_flour");  // its alias is the word itself
  CHECK(larder().search("orange", 1).front()->id == "orange");
  CHECK(larder().search("", 10).empty());
}

TEST_CASE("the tables' cells reach the ingredient") {
  CHECK(food("egg").allergens == std::vector<std::string>{"eggs", "traces"});
  CHECK(food("kiwi").protease);
  CHECK(!food("orange").protease);
  CHECK(food("plain_flour").composition[Component::starch] == doctest::Approx(0.78));
  CHECK(food("plain_flour").composition.energy_kcal_per_g() == doctest::Approx(3.52));
}

TEST_CASE("an unstated cup is the mixture of the ways it is filled") {
  // Half level at 0.5 (cv 0.06), half scooped at 0.6 (cv 0.08), spread 0.05 on top; worked by hand:
  // mean 0.55, variance 0.5 (0.03^2 + 0.048^2) + 0.05^2 = 0.004102, with the spread 0.005. cv
  // 0.1266.
  const auto unstated = larder().packing(food("plain_flour"), "");
  REQUIRE(unstated.has_value());
  CHECK(unstated->name == k_unstated_packing);
  CHECK(unstated->cv == doctest::Approx(0.1266).epsilon(0.002));
  CHECK(unstated->g_per_ml * std::sqrt(1 + 0.1266 * 0.1266) == doctest::Approx(0.55).epsilon(1e-4));
  CHECK(larder().packings(food("plain_flour")).front().name == k_unstated_packing);
}

TEST_CASE("a stated packing is taken, an unknown one leaves the way unstated") {
  CHECK(larder().packing(food("plain_flour"), "sifted")->g_per_ml == 0.45);
  CHECK(larder().packing(food("plain_flour"), "level")->g_per_ml == 0.5);
  CHECK(larder().packing(food("plain_flour"), "scooped")->g_per_ml == 0.6);
  CHECK(larder().packing(food("plain_flour"), "thrown")->name == k_unstated_packing);
  CHECK(weighed("plain_flour", 1, "cup", "sifted", "", "us").p50() ==
        doctest::Approx(0.45 * 236.6));
}

TEST_CASE("a food without densities takes those of its kind, and none gives no weight by volume") {
  CHECK(larder().packing(food("rye_flour"), "level")->g_per_ml == 0.53);
  CHECK(larder().packing(food("rye_flour"), "")->name == k_unstated_packing);
  CHECK(!larder().packing(food("egg"), "").has_value());
  CHECK(!larder().weigh(food("egg"), point(1), "cup", "", "", "us").has_value());
}

TEST_CASE("a food's own filling goes before its kind's") {
  CHECK(larder().packing(food("salt"), "")->cv == doctest::Approx(std::hypot(0.03, 0.3)));
}

TEST_CASE("a spoon is dipped, and wider than a cup") {
  const Distribution spoon = weighed("plain_flour", 1, "tbsp");
  CHECK(spoon.mean() == doctest::Approx(15 * 0.6).epsilon(0.001));
  const Distribution cup = weighed("plain_flour", 1, "cup", "", "", "us");
  CHECK(std::log(spoon.p90() / spoon.p10()) > std::log(cup.p90() / cup.p10()));
  CHECK(weighed("plain_flour", 1, "tbsp", "level").p50() == doctest::Approx(7.5));
}

TEST_CASE("heaped multiplies, a spoon more than a cup") {
  CHECK(weighed("plain_flour", 1, "tbsp", "heaped").p50() ==
        doctest::Approx(2 * weighed("plain_flour", 1, "tbsp").p50()));
  CHECK(weighed("plain_flour", 1, "cup", "heaped").p50() ==
        doctest::Approx(1.25 * weighed("plain_flour", 1, "cup").p50()));
}

TEST_CASE("masses are exact, volumes go by density, counted things by portion") {
  const Distribution pounds = weighed("salt", 2, "lb");
  CHECK(pounds.shape == Shape::point);
  CHECK(pounds.p50() == doctest::Approx(907.18474));
  CHECK(weighed("orange_juice", 2, "cup", "", "", "us").p50() == doctest::Approx(2 * 236.6 * 1.05));
  const Distribution eggs = weighed("egg", 3, "piece", "", "large", "us");
  CHECK(eggs.p50() == doctest::Approx(150));
  CHECK(weighed("egg", 3, "", "", "large", "us") == eggs);  // "3 large eggs"
  CHECK(!larder().weigh(food("salt"), point(1), "furlong", "", "", "").has_value());
}

TEST_CASE("an amount's own range widens the weight") {
  const Distribution amount = uniform(1.0, 2.0);
  const auto grams = larder().weigh(food("plain_flour"), amount, "cup", "", "", "us");
  REQUIRE(grams.has_value());
  CHECK(grams->p90() / grams->p10() > amount.p90() / amount.p10());
}

TEST_CASE("a portion is the country's, else its neighbours', else anyone's") {
  const auto large = [](const char* locale) {
    return larder().portion(food("egg"), "piece", "large", locale)->grams;
  };
  CHECK(large("us") == 50);
  CHECK(large("eu") == 61);
  CHECK(large("de") == 61);
  const auto unsized = [](const char* locale) {
    return larder().portion(food("egg"), "piece", "", locale)->grams;
  };
  CHECK(unsized("de") == 54);
  CHECK(unsized("se") == 57);
  CHECK(unsized("jp") == 50);
  CHECK(unsized("") == 50);
}

TEST_CASE("a portion is the food's own, else its kind's, else that of any food") {
  CHECK(larder().portion(food("kiwi"), "piece", "", "")->grams == 69);
  CHECK(larder().portion(food("orange"), "piece", "", "")->grams == 120);
  CHECK(larder().portion(food("salt"), "pinch", "", "")->grams == 0.4);
  CHECK(larder().portion(food("orange"), "pinch", "", "")->grams == 0.35);
  CHECK(!larder().portion(food("orange"), "barrel", "", "").has_value());
}

TEST_CASE("an unknown place gets the general measure with its wide spread") {
  CHECK(larder().measure("cup", "us")->ml == 236.6);
  CHECK(larder().measure("cup", "de")->ml == 220);
  const auto elsewhere = larder().measure("cup", "xx");
  REQUIRE(elsewhere.has_value());
  CHECK(elsewhere->ml == 240);
  CHECK(elsewhere->cv == 0.08);
  CHECK(larder().measure("breakfast_cup", "us")->ml == 284);
  CHECK(!larder().measure("firkin", "us").has_value());
}

TEST_CASE("empty and broken tables give an empty pantry and no crash") {
  CHECK(Pantry(PantryTables{}).ingredients().empty());
  const Pantry odd(PantryTables{"id\tname\nx", "\t\t\n", "a", "id\n\n", "#", "unit\tml\ncup\tmany",
                                "", "id\tspread\nkind:flour\t-", "word\n\t", "locale", ""});
  CHECK(odd.ingredients().size() == 1);
  CHECK(odd.measure("cup", "us")->ml == 0);
  CHECK(!odd.weigh(odd.ingredients().front(), point(1), "cup", "", "", "").has_value());
}

TEST_CASE("every food of the pantry can be measured by the cup and the spoon") {
  const Pantry real(embedded_pantry_tables());
  for (const Ingredient& one : real.ingredients()) {
    for (const char* unit : {"cup", "tbsp", "tsp"}) {
      const auto grams = real.weigh(one, point(1), unit, "", "", "us");
      REQUIRE_MESSAGE(grams.has_value(), one.id, " ", unit);
      CHECK_MESSAGE(grams->p10() > 0.0, one.id, " ", unit);
      CHECK_MESSAGE(grams->p90() < 1000.0, one.id, " ", unit);
    }
    CHECK_MESSAGE(real.packings(one).front().name == k_unstated_packing, one.id);
  }
}
