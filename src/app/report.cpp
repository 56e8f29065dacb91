#include "app/report.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "app/bake_report.h"
#include "app/embedded_table.h"
#include "app/rise_report.h"
#include "dough/temperature.h"
#include "forecast/citations.h"
#include "quantity/number_text.h"
#include "quantity/table.h"
#include "recipe/recipe_text.h"

namespace maslin {
namespace {

/// Text built line by line, with or without colour.
class Page {
 public:
  explicit Page(Colour colour) : colour_(colour) {}

  void heading(const std::string& text) { out_ += "\n" + paint("1", text) + "\n"; }
  void line(const std::string& text) { out_ += text + "\n"; }
  void doubt(const std::string& text, const std::string& why) {
    out_ += "  " + paint("33", "? ") + (text.empty() ? "" : text + ": ") + why + "\n";
  }
  void quiet(const std::string& text) { out_ += paint("2", text) + "\n"; }
  /// "  label   words", labels to one column.
  void row(const std::string& label, const std::string& words) {
    out_ += "  " + padded(label, 22) + words + "\n";
  }
  std::string take() { return std::move(out_); }

  static std::string padded(const std::string& text, std::size_t width) {
    // Columns count characters, not bytes.
    std::size_t length = 0;
    for (const char c : text) {
      length += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
    }
    return text + std::string(length < width ? width - length : 1, ' ');
  }
  static std::string right(const std::string& text, std::size_t width) {
    std::size_t length = 0;
    for (const char c : text) {
      length += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
    }
    return std::string(length < width ? width - length : 0, ' ') + text;
  }

 private:
  std::string paint(const char* code, const std::string& text) const {
    return colour_ == Colour::yes ? "\x1b[" + std::string(code) + "m" + text + "\x1b[0m" : text;
  }
  Colour colour_;
  std::string out_;
};

/// Digits that the size of a number deserves.
std::string digits(double value) {
  const double size = std::fabs(value);
  return number_text(value, size >= 20 ? 0 : size >= 2 ? 1 : 2);
}

std::string band_text(const Band& band, const std::string& unit) {
  const std::string space = unit.empty() || unit == "%" ? "" : " ";
  const std::string low = digits(band.p10);
  const std::string middle = digits(band.p50);
  const std::string high = digits(band.p90);
  if (low == high) {
    return middle + space + unit;
  }
  return middle + space + unit + "  (" + low + " to " + high + ")";
}

std::string short_band(const Band& band) {
  const std::string low = digits(band.p10);
  const std::string high = digits(band.p90);
  return low == high ? low : low + " to " + high;
}

std::string percent(double share) {
  return std::to_string(std::lround(100.0 * share)) + " %";
}

std::string duration_text(double minutes) {
  constexpr double k_some_days = 72.0 * 60.0;
  if (!std::isfinite(minutes)) {
    return "never";
  }
  if (minutes >= k_some_days) {
    return std::to_string(std::lround(minutes / 1440.0)) + " days";
  }
  const auto whole = static_cast<long>(std::lround(minutes));
  if (whole < 100) {
    return std::to_string(whole) + " min";
  }
  const long hours = whole / 60;
  const long rest = (whole % 60 + 2) / 5 * 5;
  return rest == 60  ? std::to_string(hours + 1) + " h"
         : rest == 0 ? std::to_string(hours) + " h"
                     : std::to_string(hours) + " h " + std::to_string(rest);
}

std::string duration_band(const Band& band) {
  if (band.width() == 0.0) {
    return duration_text(band.p50);
  }
  return duration_text(band.p50) + "  (" + duration_text(band.p10) + " to " +
         duration_text(band.p90) + ")";
}

/// What was expected where something was seen, or why it told nothing.
std::string seen_text(const SeenFit& fit) {
  if (!fit.used) {
    return "not used. " + fit.why_not;
  }
  constexpr double k_hardly_believed = 0.5;
  const ObservationKind kind = fit.observation.kind;
  const std::string unit = kind == ObservationKind::volume_ratio
                               ? "times its volume"
                               : std::string(observation_unit(kind));
  const std::string before = fit.observation.word.empty()
                                 ? "before, " + band_text(fit.expected, unit) + " was expected"
                                 : "heeded";
  return fit.misread > k_hardly_believed
             ? before + "; hardly believed, and changes little until it is confirmed"
             : before;
}

std::string spaced(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

std::string shares_text(const Shares& shares) {
  std::string out;
  for (const auto& [name, share] : shares) {
    const long pct = std::lround(100.0 * share);
    if (pct >= 3) {
      out += (out.empty() ? "" : ", ") + spaced(name) + " " + std::to_string(pct) + " %";
    }
  }
  return out;
}

std::string grams_text(const Line& line) {
  if (!line.weighed) {
    return "?";
  }
  return digits(line.grams.p50()) + " g";
}

std::string spread_text(const Line& line) {
  const std::string low = digits(line.grams.p10());
  const std::string high = digits(line.grams.p90());
  return !line.weighed || low == high ? "" : low + " to " + high;
}

std::string step_words(const Step& step) {
  std::string out = std::string(step_kind_name(step.kind));
  if (step.pieces) {
    out += ", " + range_text(*step.pieces) + " pieces";
  }
  if (step.piece_grams) {
    out += ", " + digits(*step.piece_grams) + " g each";
  }
  if (step.celsius) {
    out += ", " + range_text(*step.celsius) + " °C" + (step.fan ? " (from a fan setting)" : "");
  }
  if (step.minutes) {
    out += ", " + (step.minutes->low == step.minutes->high ? duration_text(step.minutes->low)
                                                           : range_text(*step.minutes) + " min");
  }
  if (!step.place.empty()) {
    out += ", " + step.place;
  }
  if (!step.until.empty()) {
    out += ", until " + step.until;
  }
  return out;
}

void hold_back_rows(Page& page, const char* of, const HoldBack& hold) {
  page.row(of, "put in " + digits(hold.at_first_g) + " g at first, keep " + digits(hold.keep_by_g) +
                   " g by");
  for (const HoldBackStep& step : hold.steps) {
    page.row("", "at " + digits(step.added_grams) + " g more: " + step.what_to_do);
  }
}

/// A degree or two either way no baker minds.
constexpr double k_told_apart_k = 1.5;

/// How to bring the dough to its best warmth by what is poured.
std::string liquid_text(const LiquidWarmth& liquid) {
  // Warmer than this the yeast suffers where it is stirred in (common practice, no source).
  constexpr double k_warmest = 43.0;
  const std::string of = "for " + digits(k_wanted_dough_celsius) + " °C: ";
  if (liquid.ice_grams.p50 >= 1.0) {
    return of + "liquid from the fridge, " + digits(liquid.ice_grams.p50) +
           " g of it as ice; or chill the flour too";
  }
  return liquid.celsius.p50 > k_warmest
             ? of + "liquid at " + digits(k_warmest) + " °C, no warmer, and a warm bowl"
             : of + "liquid at " + band_text(liquid.celsius, "°C");
}

void dough_section(Page& page, const DoughSummary& dough, const Pantry& pantry) {
  page.heading("The dough");
  page.row("in all", band_text(dough.total_grams, "g") + ", " + band_text(dough.flour_grams, "g") +
                         " of it flour");
  page.row("feel",
           spaced(dough.feel.empty() ? "" : dough.feel.front().first) + ": " + dough.feel_words);
  page.row("", shares_text(dough.feel));
  page.row("counts as water", band_text(dough.effective_hydration, "% of flour") +
                                  "; this flour takes " + digits(dough.absorption_pct.p50));
  if (dough.hold_back) {
    hold_back_rows(page, "flour", *dough.hold_back);
  }
  if (dough.hold_back_liquid && dough.hold_back_liquid->keep_by_g > 0.0) {
    hold_back_rows(page, "or the liquid", *dough.hold_back_liquid);
  }
  page.row("sugar", band_text(dough.sugar_pct_flour, "%"));
  page.row("fat", band_text(dough.fat_pct_flour, "%"));
  page.row("salt", band_text(dough.salt_pct_flour, "%"));
  page.row("yeast", band_text(dough.yeast_pct_flour, "%") + " as instant");
  page.row("dough temperature", band_text(dough.celsius, "°C"));
  if (dough.liquid && std::fabs(dough.celsius.p50 - k_wanted_dough_celsius) >= k_told_apart_k) {
    page.row("", liquid_text(*dough.liquid));
  }
  std::string bakers;
  for (const auto& [id, band] : dough.bakers_pct) {
    const Ingredient* one = pantry.find(id);
    bakers +=
        (bakers.empty() ? "" : ", ") + (one != nullptr ? one->name : id) + " " + digits(band.p50);
  }
  page.row("on 100 of flour", bakers);
}

void preferment_section(Page& page, const PrefermentSummary& one) {
  page.row(one.name, "after " + duration_text(one.stands_minutes) + ": " +
                         band_text(one.ratio_at_end, "times its volume"));
  page.row("", "ripe, at " + digits(one.ripe_ratio) + " times, after " +
                   duration_band(one.ripe_minutes));
  page.row("", "pH " + band_text(one.ph, "") + ", of its sugars " +
                   band_text(one.sugar_spent_pct, "% spent"));
}

void prove_section(Page& page, const ProveSummary& prove) {
  if (prove.frost != Frost::none) {
    page.row(prove.name,
             duration_band(prove.minutes) + ", then at " + band_text(prove.celsius, "°C"));
    if (prove.thawed_minutes) {
      page.row("", "no ice is left after " + duration_band(*prove.thawed_minutes));
    }
    return;
  }
  page.row(prove.name, "until " + prove.target + ": " + duration_band(prove.minutes));
  if (prove.chance_reached < 0.95) {
    page.row("", "it may never get there: " +
                     std::to_string(std::lround(100 * prove.chance_reached)) + " % do");
  }
  if (prove.stated_minutes && prove.ratio_at_stated) {
    page.row("", "at the stated " + duration_text(prove.stated_minutes->middle()) + ": " +
                     band_text(*prove.ratio_at_stated, "times its volume"));
  }
  for (const std::string& line : rise_plot(prove)) {
    page.line("  " + line);
  }
}

void bake_section(Page& page, const BakeSummary& bake) {
  page.heading("The bake");
  page.row("pieces", digits(bake.pieces) + " (" + spaced(bake.shape) + ") at " +
                         digits(bake.setting_celsius) + " °C");
  page.row("done after", duration_band(bake.minutes));
  page.row("core", band_text(bake.done.core_celsius, "°C"));
  page.row("crust", shares_text(bake.done.crust));
  page.row("lost in the oven", band_text(bake.done.weight_loss_pct, "%"));
  if (bake.stated && bake.stated_minutes) {
    page.row("at the stated time", duration_text(*bake.stated_minutes) + ": core " +
                                       band_text(bake.stated->core_celsius, "°C"));
    page.row("", shares_text(bake.stated->crust));
  }
}

/// The words of a figure with its value put in; empty when it is not for the terminal.
std::string figure_text(const Table& words, const std::string& name, const Band& band) {
  for (std::size_t row = 0; row < words.size(); ++row) {
    if (words.cell(row, "figure") != name) {
      continue;
    }
    // What never comes (mould on nuts, a skin in damp air) has no time to print.
    if (band.p50 <= words.number(row, "only_above", -1e300) || !std::isfinite(band.p50)) {
      return "";
    }
    std::string text(words.cell(row, "words"));
    const std::string value = name.rfind("chance_", 0) == 0 ? percent(band.p50) : short_band(band);
    text.replace(text.find("{}"), 2, value);
    return text;
  }
  return "";
}

void finish_section(Page& page, const ForecastSummary& summary) {
  const Table words(app_data::embedded_table("figure_words.tsv"));
  const auto show = [&](const FinishSummary& one) {
    std::string label = spaced(one.part.empty() ? one.what : one.part);
    if (!one.term.empty()) {
      page.row(label, "as mixed: " + shares_text(one.term));
      label.clear();
    }
    for (const auto& [name, band] : one.figures) {
      if (const std::string text = figure_text(words, name, band); !text.empty()) {
        page.row(label, text);
        label.clear();
      }
    }
  };
  for (const auto& [title, list] :
       {std::pair{"Finish", &summary.finish}, std::pair{"Keeping", &summary.keeping}}) {
    if (!list->empty()) {
      page.heading(title);
    }
    std::for_each(list->begin(), list->end(), show);
  }
}

/// What the models were held against, once for each subject.
void checks_section(Page& page) {
  page.heading("Held against published figures");
  std::set<std::string> told;
  for (const Citation& one : citations()) {
    std::string held;
    for (const ChecksHeld& check : one.checks) {
      if (told.insert(check.subject).second) {
        held += (held.empty() ? "" : ", ") + check.subject + " " + std::to_string(check.met) +
                " of " + std::to_string(check.figures);
      }
    }
    if (!held.empty()) {
      page.quiet("  " + held + "  (" + one.document + ")");
    }
  }
}

}  // namespace

std::string recipe_report(const Recipe& recipe, const Pantry& pantry, Colour colour) {
  Page page(colour);
  page.heading(recipe.title.empty() ? "Untitled" : recipe.title);
  page.quiet("  measures of " + (recipe.locale.empty() ? "no known country" : recipe.locale) +
             ", " + std::to_string(std::lround(100 * recipe.locale_probability)) + " % sure" +
             (recipe.pieces ? "; makes " + range_text(*recipe.pieces) : ""));
  for (const Part& part : recipe.parts) {
    page.heading(part.name.empty() ? std::string(part_kind_name(part.kind)) : part.name);
    for (const Line& line : part.lines) {
      const Ingredient* one = pantry.find(line.ingredient_id);
      const std::string name = !line.part.empty() ? "(" + line.part + ")"
                               : one != nullptr   ? one->name
                                                  : line.name + " (not known)";
      page.line(Page::right(grams_text(line), 10) + "  " + Page::padded(spread_text(line), 16) +
                Page::padded(name, 26) + line.text);
    }
    int number = 1;
    for (const Step& step : part.steps) {
      page.quiet("  " + std::to_string(number++) + ". " + step_words(step));
    }
  }
  if (!recipe.doubts.empty()) {
    page.heading("In doubt");
  }
  for (const Doubt& doubt : recipe.doubts) {
    page.doubt(doubt.text, doubt.why);
  }
  return page.take();
}

std::string forecast_report(const ForecastSummary& summary, const Pantry& pantry, Colour colour) {
  Page page(colour);
  page.heading(summary.title.empty() ? "Forecast" : summary.title);
  page.quiet("  middle of " + std::to_string(summary.draws) +
             " draws; in brackets what 8 of 10 fall between");
  if (summary.dough) {
    dough_section(page, *summary.dough, pantry);
  }
  if (!summary.proves.empty()) {
    page.heading("Rising");
  }
  if (summary.counted_from) {
    page.row("the room", "changes through the day; the dough is taken to be mixed at " +
                             hour_of_day_text(*summary.counted_from));
  }
  for (const PrefermentSummary& one : summary.preferments) {
    preferment_section(page, one);
  }
  for (const ProveSummary& prove : summary.proves) {
    prove_section(page, prove);
  }
  if (summary.what_if) {
    page.heading("If");
    for (const std::string& line : what_if_lines(*summary.what_if)) {
      page.line("  " + line);
    }
  }
  if (summary.bake) {
    bake_section(page, *summary.bake);
  }
  if (summary.bake_what_if) {
    page.heading("If (the bake, one middling draw)");
    for (const std::string& line : bake_what_if_lines(*summary.bake_what_if)) {
      page.line("  " + line);
    }
  }
  finish_section(page, summary);
  for (const std::string& problem : summary.problems) {
    page.doubt("", problem);
  }
  if (!summary.seen.empty()) {
    page.heading("Seen");
  }
  for (const SeenFit& fit : summary.seen) {
    page.row(fit.observation.text, seen_text(fit));
  }
  if (!summary.narrow_by.empty()) {
    page.heading("Worth measuring");
  }
  for (const NarrowBy& one : summary.narrow_by) {
    page.row(one.measure, one.narrows + ": range of " + digits(one.from) + " down to " +
                              digits(one.to) + " " + one.unit);
  }
  if (!summary.cautions.empty()) {
    page.heading("Take care");
  }
  for (const Caution& caution : summary.cautions) {
    page.line("  " + caution.text);
  }
  if (!summary.doubts.empty()) {
    page.heading("Assumed, and odd");
  }
  for (const Doubt& doubt : summary.doubts) {
    page.doubt(doubt.text, doubt.why);
  }
  checks_section(page);
  return page.take();
}

std::string ingredient_report(const Ingredient& one, const Pantry& pantry, Colour colour) {
  Page page(colour);
  page.heading(one.name + (one.name_us != one.name ? " / " + one.name_us : ""));
  page.quiet("  " + one.id + ", " + spaced(std::string(kind_name(one.kind))) + "; source " +
             one.source);
  std::string composition;
  for (std::size_t c = 0; c < k_component_count; ++c) {
    if (one.composition.fraction[c] > 0) {
      composition += (composition.empty() ? "" : ", ") +
                     spaced(std::string(component_name(static_cast<Component>(c)))) + " " +
                     digits(100 * one.composition.fraction[c]);
    }
  }
  page.row("in 100 g", composition);
  page.row("energy", digits(one.energy_kcal_per_100g) + " kcal in 100 g");
  for (const Packing& packing : pantry.packings(one)) {
    page.row(packing.name, digits(packing.g_per_ml) + " g/mL, ±" + digits(100 * packing.cv) +
                               " %  (" + packing.source + ")");
  }
  if (!one.note.empty()) {
    page.row("note", one.note);
  }
  return page.take();
}

}  // namespace maslin
