// What of a schedule freezes, thaws or rises, and what ripens beside it.
#include "forecast/embedded_table.h"
#include "forecast/schedule.h"
#include "forecast/step_words.h"

namespace maslin {

Frost frost_of(const Step& step) {
  if (step.kind != StepKind::prove) {
    return Frost::none;
  }
  const Table words(forecast_data::embedded_table("frost_words.tsv"));
  const auto row = row_in(words, lower(step.text));
  const std::string_view does = row ? words.cell(*row, "does") : "rise";
  return does == "freeze" ? Frost::freezes : does == "thaw" ? Frost::thaws : Frost::none;
}

const PlannedProve* Schedule::rest_of(std::size_t part) const {
  for (const PlannedPreferment& one : preferments) {
    if (one.part == part) {
      return &one.rest;
    }
  }
  return nullptr;
}

std::optional<std::size_t> rise_number(const Schedule& schedule, std::size_t number) {
  for (std::size_t i = 0; i < schedule.proves.size(); ++i) {
    if (schedule.proves[i].rises() && number-- == 0) {
      return i;
    }
  }
  return std::nullopt;
}

}  // namespace maslin
