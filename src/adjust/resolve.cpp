#include "adjust/resolve.h"

#include <algorithm>

#include "quantity/number_text.h"

namespace maslin {
namespace {

/// Sugar in points of the flour that is put in as such, not with milk or fruit.
double added_sugar_pct(const Balance& balance, const std::vector<double>& now) {
  double sugar = 0.0;
  double flour = 0.0;
  for (std::size_t i = 0; i < now.size(); ++i) {
    const BalanceLine& line = balance.lines[i];
    flour += line.forms.flour * now[i];
    for (const Portions::Item& item : line.per_gram.items) {
      const IngredientKind kind = item.ingredient->kind;
      if (kind == IngredientKind::sugar || kind == IngredientKind::syrup) {
        sugar += line.forms.sugar * now[i];
        break;
      }
    }
  }
  return flour > 0.0 ? 100.0 * sugar / flour : 0.0;
}

/// A figure as it is wanted, so many times what it is: of sugar, what is added is so many times.
double times_now(const Balance& balance, const Want& want, const std::vector<double>& now) {
  const double figure = figure_of(balance, want, now);
  const double added = want.kind == WantKind::sugar_pct_flour ? added_sugar_pct(balance, now) : 0.0;
  return added > 0.0 ? figure + (want.times - 1.0) * std::min(added, figure) : want.times * figure;
}

/// Grams of what a word means in one line of the balance: all of it, or what of it a part holds.
double grams_meant(std::string_view what, const Recipe& recipe, const Setting& setting,
                   std::size_t at) {
  const BalanceLine& line = setting.balance.lines[at];
  if (setting.recipe_line[at]) {
    const Line& found = recipe.parts[setting.part].lines[*setting.recipe_line[at]];
    if (is_meant(what, found, nullptr)) {
      return line.grams_before;
    }
  }
  double share = 0.0;
  for (const Portions::Item& item : line.per_gram.items) {
    share += is_meant(what, *item.ingredient) ? item.grams[0] : 0.0;
  }
  return share * line.grams_before;
}

}  // namespace

const Want* first_of(const std::vector<Want>& wants, WantKind kind) {
  const auto at =
      std::find_if(wants.begin(), wants.end(), [&](const Want& w) { return w.kind == kind; });
  return at == wants.end() ? nullptr : &*at;
}

double pieces_wanted(const Recipe& recipe, const std::vector<Want>& wants) {
  const Want* pieces = first_of(wants, WantKind::pieces);
  return pieces != nullptr ? pieces->low
         : recipe.pieces   ? std::max(recipe.pieces->middle(), 1.0)
                           : 1.0;
}

std::vector<Want> with_mass(const Recipe& recipe, std::vector<Want> wants, double total_g,
                            std::vector<std::string>& notes) {
  const Want* pieces = first_of(wants, WantKind::pieces);
  const Want* each = first_of(wants, WantKind::piece_grams);
  if (pieces == nullptr && each == nullptr) {
    return wants;
  }
  const double count = pieces_wanted(recipe, wants);
  // A loaf, or what makes an unsaid number, is divided into many: none wants eighteen loaves.
  constexpr double k_many = 4.0;
  const double said = recipe.pieces ? recipe.pieces->middle() : 1.0;
  const bool divided = said < 2.0 && count >= k_many && each == nullptr;
  const double found_pieces = divided ? count : said;
  const double grams = each != nullptr ? each->low : total_g / std::max(found_pieces, 1.0);
  if (divided) {
    notes.push_back("the dough makes " + number_text(count, 0) + " of " +
                    number_text(total_g / count, 0) +
                    " g each; say how heavy if others are wanted");
  }
  Want mass;
  mass.kind = WantKind::total_grams;
  mass.text = pieces != nullptr ? pieces->text : each->text;
  mass.low = count * grams;
  mass.high = mass.low;
  wants.erase(std::remove_if(wants.begin(), wants.end(),
                             [](const Want& w) {
                               return w.kind == WantKind::pieces || w.kind == WantKind::piece_grams;
                             }),
              wants.end());
  wants.push_back(mass);
  return wants;
}

std::string spell_out_scale(std::vector<Want>& wants, const Recipe& recipe,
                            const Setting& setting) {
  for (Want& want : wants) {
    if (want.kind != WantKind::scale || want.from.empty()) {
      continue;
    }
    double there_g = 0.0;
    for (std::size_t i = 0; i < setting.balance.lines.size(); ++i) {
      there_g += grams_meant(want.from, recipe, setting, i);
    }
    if (there_g <= 0.0) {
      return "The dough has no weighed \"" + want.from + "\" to scale it by.";
    }
    want.low /= there_g;
    want.high = want.low;
    want.from.clear();
  }
  return "";
}

void leave_feel_that_is_there(std::vector<Want>& wants, const Balance& balance,
                              const std::vector<double>& now) {
  constexpr double k_inside = 0.5;
  for (Want& want : wants) {
    if (want.kind != WantKind::feel || want.feel_classes != 0.0) {
      continue;
    }
    const FeelBounds bounds = feel_bounds(feel_at(0.5 * (want.low + want.high)));
    const double score = state_of(balance, now).feel_score[0];
    if (score >= bounds.low + k_inside && score <= bounds.high - k_inside) {
      want.low = bounds.low + k_inside;
      want.high = bounds.high - k_inside;
    }
  }
}

void cost_of_all(std::vector<Want>& wants, double pieces) {
  for (Want& want : wants) {
    if (want.each && want.times == 0.0) {
      want.low *= pieces;
      want.high *= want.high < k_want_no_limit ? pieces : 1.0;
    }
  }
}

void resolve_relative(std::vector<Want>& wants, const Balance& balance,
                      const std::vector<double>& now, std::vector<std::string>& notes) {
  for (Want& want : wants) {
    if (want.kind == WantKind::feel && want.feel_classes != 0.0) {
      const double score = state_of(balance, now).feel_score[0];
      move_feel(want, score);
      if (want.feel_classes > 0.0 && feel_at(score) == DoughFeel::slack) {
        notes.push_back("the dough is slack already: softer stops short of a batter");
      }
    } else if (want.times > 0.0 && want.kind != WantKind::prove_minutes) {
      const double aim = times_now(balance, want, now);
      want.low = want.times < 1.0 ? 0.0 : aim;
      want.high = want.times < 1.0 ? aim : k_want_no_limit;
    }
  }
}

}  // namespace maslin
