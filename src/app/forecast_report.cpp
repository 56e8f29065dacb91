// A forecast in words.
#include "app/report.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "app/bake_report.h"
#include "app/embedded_table.h"
#include "app/report_page.h"
#include "app/rise_report.h"
#include "dough/temperature.h"
#include "forecast/citations.h"
#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin {
namespace {

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
}  // namespace maslin
