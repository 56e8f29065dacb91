// The tables of data/ that finishes and keeping stand on, as values.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace maslin {

/// A word for how thick a glaze is, with the viscosities it covers, Pa s.
struct ThicknessTerm {
  std::string id;     // wash, run, drizzle, coat, line, stiff: thin to thick
  std::string words;  // as a baker says it
  double from_pa_s = 0.0;
  double to_pa_s = 0.0;
  double target_pa_s = 0.0;      // aimed at when the word is wanted
  double surface_celsius = 0.0;  // hottest surface on which it stays what it is
  std::string source;
  std::string liquid_figure;  // liquid_for_<id>_g, the figure's name in a forecast
  std::string sugar_figure;   // sugar_for_<id>_g
};

struct BoilingPoint {
  double fraction = 0.0;  // g sucrose per g of solution
  double rise_k = 0.0;    // above water's boiling point
};

/// Peleg's constants of a dried fruit in plenty of water at 23 C.
struct SoakingRow {
  std::vector<std::string> ids;  // pantry ids, or "any"
  double k1_h = 0.0;             // hours per (g water per g fruit)
  double k2 = 0.0;               // g fruit per g water
  std::string source;
};

struct KeepingFigure {
  std::string name;
  double value = 0.0;
  std::string unit;
  std::string source;
};

struct CautionText {
  std::string id;
  std::string text;              // {part} stands for the part's name
  std::vector<std::string> ids;  // pantry ids that call for it; empty: found otherwise
  std::string source;
};

/// Figures of keeping, wrapping and freezing; each is a row of data/keeping.tsv by the
/// same name, which gives its unit and source.
struct KeepingModel {
  double mould_21_intercept = 0.0, mould_21_slope = 0.0;
  double mould_27_intercept = 0.0, mould_27_slope = 0.0;
  double mould_activity_low = 0.0, mould_activity_high = 0.0;
  double mould_celsius_low = 0.0, mould_celsius_high = 0.0;
  double growth_none = 0.0, growth_pathogen = 0.0, acid_limit_ph = 0.0;
  double staling_days_at_0 = 0.0, staling_days_per_c = 0.0;
  double staling_fat = 0.0, staling_fat_least = 0.0;
  double staling_sugar = 0.0, staling_sugar_least = 0.0;
  double staling_egg = 0.0, staling_egg_least = 0.0;
  double staling_scald = 0.0, staling_least = 0.0, firmness_ratio_lean = 0.0;
  double refresh_celsius = 0.0, refresh_share = 0.0, refresh_speed = 0.0;
  double freeze_staling_days = 0.0, frozen_weeks = 0.0, freezing_point_celsius = 0.0;
  double wrap_celsius = 0.0, cut_celsius = 0.0, weep_share = 0.0;
};

/// Phrases of steps that say where a filling goes.
struct FillingPhrases {
  std::string place;  // rolled, folded, enclosed, open
  std::vector<std::string> phrases;
};

struct FinishTables {
  std::vector<ThicknessTerm> terms;   // thin to thick, bands touching
  std::vector<BoilingPoint> boiling;  // rising
  std::vector<SoakingRow> soaking;    // the row "any" last
  KeepingModel keeping;
  std::vector<KeepingFigure> keeping_figures;  // the same with units and sources, to show
  std::vector<CautionText> cautions;
  std::vector<FillingPhrases> filling_places;  // the first that fits counts

  /// The term with this id, or null.
  const ThicknessTerm* term(std::string_view id) const;
};

/// The tables embedded in the program. Make them once and pass them by reference.
FinishTables embedded_finish_tables();

}  // namespace maslin
