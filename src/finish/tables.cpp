#include "finish/tables.h"

#include <array>

#include "finish/embedded_table.h"
#include "quantity/table.h"

namespace maslin {
namespace {

struct Named {
  std::string_view name;
  double KeepingModel::* place;
};
constexpr std::array k_keeping_places = {
    Named{"mould_21_intercept", &KeepingModel::mould_21_intercept},
    Named{"mould_21_slope", &KeepingModel::mould_21_slope},
    Named{"mould_27_intercept", &KeepingModel::mould_27_intercept},
    Named{"mould_27_slope", &KeepingModel::mould_27_slope},
    Named{"mould_activity_low", &KeepingModel::mould_activity_low},
    Named{"mould_activity_high", &KeepingModel::mould_activity_high},
    Named{"mould_celsius_low", &KeepingModel::mould_celsius_low},
    Named{"mould_celsius_high", &KeepingModel::mould_celsius_high},
    Named{"growth_none", &KeepingModel::growth_none},
    Named{"growth_pathogen", &KeepingModel::growth_pathogen},
    Named{"acid_limit_ph", &KeepingModel::acid_limit_ph},
    Named{"staling_days_at_0", &KeepingModel::staling_days_at_0},
    Named{"staling_days_per_c", &KeepingModel::staling_days_per_c},
    Named{"staling_fat", &KeepingModel::staling_fat},
    Named{"staling_fat_least", &KeepingModel::staling_fat_least},
    Named{"staling_sugar", &KeepingModel::staling_sugar},
    Named{"staling_sugar_least", &KeepingModel::staling_sugar_least},
    Named{"staling_egg", &KeepingModel::staling_egg},
    Named{"staling_egg_least", &KeepingModel::staling_egg_least},
    Named{"staling_scald", &KeepingModel::staling_scald},
    Named{"staling_least", &KeepingModel::staling_least},
    Named{"firmness_ratio_lean", &KeepingModel::firmness_ratio_lean},
    Named{"refresh_celsius", &KeepingModel::refresh_celsius},
    Named{"refresh_share", &KeepingModel::refresh_share},
    Named{"refresh_speed", &KeepingModel::refresh_speed},
    Named{"freeze_staling_days", &KeepingModel::freeze_staling_days},
    Named{"frozen_weeks", &KeepingModel::frozen_weeks},
    Named{"freezing_point_celsius", &KeepingModel::freezing_point_celsius},
    Named{"wrap_celsius", &KeepingModel::wrap_celsius},
    Named{"cut_celsius", &KeepingModel::cut_celsius},
    Named{"weep_share", &KeepingModel::weep_share},
};

std::string text_at(const Table& table, std::size_t row, std::string_view column) {
  return std::string(table.cell(row, column));
}

std::vector<std::string> list_at(std::string_view cell, char separator) {
  std::vector<std::string> list;
  for (const std::string_view one : split(cell, separator)) {
    list.emplace_back(one);
  }
  return list;
}

std::vector<std::string> ids_at(const Table& table, std::size_t row) {
  return list_at(table.cell(row, "ids"), ',');
}

void read_keeping(FinishTables& out) {
  const Table table(finish_tables::embedded_table("keeping.tsv"));
  for (std::size_t i = 0; i < table.size(); ++i) {
    const double value = table.number(i, "value");
    out.keeping_figures.push_back(
        {text_at(table, i, "name"), value, text_at(table, i, "unit"), text_at(table, i, "source")});
    for (const Named& named : k_keeping_places) {
      if (named.name == out.keeping_figures.back().name) {
        out.keeping.*named.place = value;
      }
    }
  }
}

}  // namespace

const ThicknessTerm* FinishTables::term(std::string_view id) const {
  for (const ThicknessTerm& each : terms) {
    if (each.id == id) {
      return &each;
    }
  }
  return nullptr;
}

FinishTables embedded_finish_tables() {
  FinishTables out;
  const Table terms(finish_tables::embedded_table("finish_terms.tsv"));
  for (std::size_t i = 0; i < terms.size(); ++i) {
    out.terms.push_back({text_at(terms, i, "id"), text_at(terms, i, "words"),
                         terms.number(i, "from_pa_s"), terms.number(i, "to_pa_s"),
                         terms.number(i, "target_pa_s"), terms.number(i, "surface_celsius"),
                         text_at(terms, i, "source"),
                         "liquid_for_" + text_at(terms, i, "id") + "_g",
                         "sugar_for_" + text_at(terms, i, "id") + "_g"});
  }
  const Table boiling(finish_tables::embedded_table("boiling_rise.tsv"));
  for (std::size_t i = 0; i < boiling.size(); ++i) {
    out.boiling.push_back({0.01 * boiling.number(i, "sucrose_pct"), boiling.number(i, "rise_k")});
  }
  const Table soaking(finish_tables::embedded_table("soaking.tsv"));
  for (std::size_t i = 0; i < soaking.size(); ++i) {
    out.soaking.push_back({ids_at(soaking, i), soaking.number(i, "k1_h"), soaking.number(i, "k2"),
                           text_at(soaking, i, "source")});
  }
  const Table cautions(finish_tables::embedded_table("cautions.tsv"));
  for (std::size_t i = 0; i < cautions.size(); ++i) {
    out.cautions.push_back({text_at(cautions, i, "id"), text_at(cautions, i, "text"),
                            ids_at(cautions, i), text_at(cautions, i, "source")});
  }
  const Table places(finish_tables::embedded_table("filling_places.tsv"));
  for (std::size_t i = 0; i < places.size(); ++i) {
    out.filling_places.push_back(
        {text_at(places, i, "place"), list_at(places.cell(i, "phrases"), '|')});
  }
  read_keeping(out);
  return out;
}

}  // namespace maslin
