#include "adjust/flour_moves.h"

#include <algorithm>

#include "adjust/amounts.h"
#include "adjust/embedded_table.h"
#include "forecast/bowl.h"
#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin {
namespace {

/// Flour as sold holds 14 % water.
constexpr double k_flour_solids = 0.86;

std::string grams_text(double grams) {
  return number_text(grams, grams < 20.0 ? 1 : 0) + " g";
}

/// The lines of one part that a flour or a liquid can be moved from or to, heaviest first.
class Stock {
 public:
  Stock(Part& part, const Pantry& pantry, bool (*is)(const Ingredient&)) : part_(part) {
    for (std::size_t i = 0; i < part.lines.size(); ++i) {
      const Ingredient* one = pantry.find(part.lines[i].ingredient_id);
      if (one != nullptr && part.lines[i].weighed && is(*one)) {
        lines_.push_back(i);
        grams_ += part.lines[i].grams.p50();
      }
    }
    std::sort(lines_.begin(), lines_.end(), [&](std::size_t a, std::size_t b) {
      return part.lines[a].grams.p50() > part.lines[b].grams.p50();
    });
  }

  double grams() const { return grams_; }
  bool empty() const { return lines_.empty(); }
  const Line& heaviest() const { return part_.lines[lines_.front()]; }

  /// Takes so much (or adds, when negative), the heaviest line first; each keeps a hundredth.
  void take(double grams, std::vector<std::size_t>& touched) {
    for (const std::size_t at : lines_) {
      Line& line = part_.lines[at];
      const double had = line.grams.p50();
      const double taken = std::min(grams, 0.99 * had);
      if (taken != 0.0) {
        set_grams(line, had, had - taken, 0.0);
        touched.push_back(at);
        grams -= taken;
      }
    }
  }

 private:
  Part& part_;
  std::vector<std::size_t> lines_;
  double grams_ = 0.0;
};

bool is_flour(const Ingredient& one) {
  return one.kind == IngredientKind::flour;
}

/// g of a leaven for each g of flour; 0 when nothing is known of it.
double of_flour(const Pantry& pantry, const Ingredient& leaven) {
  const Table table(adjust_data::embedded_table("leavens.tsv"));
  double instant = 0.0;
  for (std::size_t row = 0; row < table.size(); ++row) {
    if (table.cell(row, "id") == leaven.id) {
      return table.number(row, "of_flour");
    }
    instant = table.cell(row, "id") == "instant_yeast" ? table.number(row, "of_flour") : instant;
  }
  const Ingredient* usual = pantry.find("instant_yeast");
  const bool yeast = leaven.yeast.kind != YeastKind::starter && leaven.yeast.activity > 0.0;
  return usual != nullptr && yeast ? instant * usual->yeast.activity / leaven.yeast.activity : 0.0;
}

struct Brought {
  double flour_g = 0.0;
  double water_g = 0.0;
};
/// What a starter of that weight is made of; nothing of a yeast.
Brought brought_by(const Ingredient& leaven, double grams) {
  if (leaven.yeast.kind != YeastKind::starter) {
    return {};
  }
  const double flour = grams * (1.0 - leaven.composition[Component::water]) / k_flour_solids;
  return {flour, grams - flour};
}

}  // namespace

std::optional<PasteKind> paste_called(std::string_view word) {
  const Table table(adjust_data::embedded_table("pastes.tsv"));
  const std::string wanted = folded_name(word);
  for (std::size_t row = 0; row < table.size(); ++row) {
    PasteKind out{std::string(table.cell(row, "name")), {},
                  table.number(row, "flour_pct"),       table.number(row, "liquid"),
                  table.number(row, "celsius"),         std::string(table.cell(row, "step"))};
    for (const std::string_view one : split(table.cell(row, "words"), '|')) {
      out.words.push_back(folded_name(one));
    }
    if (std::find(out.words.begin(), out.words.end(), wanted) != out.words.end()) {
      return out;
    }
  }
  return std::nullopt;
}

bool crosses_leavens(const Ingredient& goes, const Ingredient& comes) {
  const auto starter = [](const Ingredient& one) { return one.yeast.kind == YeastKind::starter; };
  return goes.yeast.kind != YeastKind::none && comes.yeast.kind != YeastKind::none &&
         starter(goes) != starter(comes);
}

void swap_leaven(Swapped& out, const Pantry& pantry, std::size_t part_index, std::size_t line_index,
                 const Ingredient& comes) {
  Part& part = out.recipe.parts[part_index];
  const Ingredient& goes = *pantry.find(part.lines[line_index].ingredient_id);
  const std::string text = part.lines[line_index].text;
  Stock flours(part, pantry, &is_flour);
  Stock liquids(part, pantry, &is_poured);
  const Brought before = brought_by(goes, part.lines[line_index].grams.p50());
  // As much as is usual of all the flour, the old starter's and the new one's own included.
  const double share = of_flour(pantry, comes);
  const double grams = share * (flours.grams() + before.flour_g);
  const Brought after = brought_by(comes, grams);
  if (liquids.empty() && before.water_g > 0.0) {
    Line water;
    water.name = "water";
    water.ingredient_id = "water";
    water.text = grams_text(before.water_g) + " water";
    set_grams(water, 0.0, before.water_g, 0.0);
    part.lines.push_back(water);
  }
  std::vector<std::size_t> touched;
  flours.take(after.flour_g - before.flour_g, touched);
  liquids.take(after.water_g - before.water_g, touched);
  const bool in = after.flour_g > before.flour_g;
  const std::string moved =
      grams_text(in ? after.flour_g : before.flour_g) + " of flour and " +
      grams_text(in ? after.water_g : before.water_g) + " of water " +
      (in ? "come with it and are left out of the dough's own" : "that it held go into the dough");
  for (const std::size_t at : touched) {
    out.lines.push_back({part_index, at,
                         (in ? "less, since " : "more, since ") + comes.name +
                             (in ? " brings its own" : " brings none along")});
  }
  out.lines.push_back({part_index, line_index,
                       text + " becomes " + grams_text(grams) + " of " + comes.name + ", " +
                           number_text(100.0 * share, 2) + " % of the flour: " + moved +
                           "; the forecast says how long it then rises"});
  out.notes.push_back(out.lines.back().why);
  Line& line = part.lines[line_index];
  line.ingredient_id = comes.id;
  line.name = comes.name;
  line.text = grams_text(grams) + " " + comes.name;
  set_grams(line, 0.0, grams, 0.0);
}

Swapped cook_paste(const Recipe& recipe, const Pantry& pantry, const PasteKind& kind,
                   double flour_pct) {
  Swapped out{recipe, {}, {}, ""};
  const Part* found = recipe.dough();
  if (recipe.part_named(kind.name) != nullptr) {
    out.problem = "The recipe has a " + kind.name + " already.";
    return out;
  }
  Part none;
  Part& dough = found == nullptr
                    ? none
                    : out.recipe.parts[static_cast<std::size_t>(found - recipe.parts.data())];
  Stock flours(dough, pantry, &is_flour);
  Stock liquids(dough, pantry, &is_poured);
  if (flours.empty() || liquids.empty()) {
    out.problem = "The dough has no weighed " + std::string(flours.empty() ? "flour" : "liquid") +
                  " to make a " + kind.name + " of.";
    return out;
  }
  const double wanted_pct = flour_pct > 0.0 ? flour_pct : kind.flour_pct;
  // The paste holds its liquid: the rest of the dough goes short only of what of it still
  // counts as water (data/hydration.tsv), and the feel stays about the same.
  constexpr double k_counts = 0.45;
  const double flour_g = std::min({wanted_pct / 100.0 * flours.grams(), 0.5 * flours.grams(),
                                   0.9 * liquids.grams() / (k_counts * kind.liquid_ratio)});
  const double liquid_g = kind.liquid_ratio * flour_g;
  Part paste;
  paste.kind = PartKind::soaker;
  paste.name = kind.name;
  for (const auto& [of, grams] :
       {std::pair(flours.heaviest(), flour_g), std::pair(liquids.heaviest(), liquid_g)}) {
    Line line = of;
    line.text = grams_text(grams) + " " + of.name;
    line.grams = point(grams);
    set_grams(line, 0.0, grams, 0.0);
    paste.lines.push_back(line);
  }
  Step cook;
  cook.kind = StepKind::boil;
  cook.text = kind.step;
  cook.celsius = Range{kind.celsius, kind.celsius};
  paste.steps.push_back(cook);
  std::vector<std::size_t> touched;
  flours.take(flour_g, touched);
  liquids.take(k_counts * liquid_g, touched);
  Line all;
  all.part = kind.name;
  all.name = kind.name;
  all.text = "all of the " + kind.name;
  dough.lines.push_back(all);
  const std::size_t dough_at = static_cast<std::size_t>(&dough - out.recipe.parts.data()) + 1;
  out.recipe.parts.insert(out.recipe.parts.begin(), paste);
  for (const std::size_t at : touched) {
    out.lines.push_back({dough_at, at, "less, since a part of it is in the " + kind.name});
  }
  for (std::size_t i = 0; i < paste.lines.size(); ++i) {
    out.lines.push_back({0, i, "for the " + kind.name});
  }
  out.notes.push_back("a " + kind.name + " of " + grams_text(flour_g) + " of the flour and " +
                      grams_text(liquid_g) + " of liquid: " + kind.step +
                      " It holds its water, so the recipe takes " +
                      grams_text((1.0 - k_counts) * liquid_g) +
                      " more in all, and the bread stays soft longer.");
  return out;
}

}  // namespace maslin
