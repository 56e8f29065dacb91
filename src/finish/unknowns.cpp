#include "finish/unknowns.h"

#include <array>
#include <string_view>

#include "finish/embedded_table.h"
#include "quantity/table.h"

namespace maslin {
namespace {

struct Named {
  std::string_view name;
  Lanes FinishUnknowns::* place;
};
constexpr std::array k_places = {
    Named{"room_celsius", &FinishUnknowns::room_celsius},
    Named{"humidity_pct", &FinishUnknowns::humidity_pct},
    Named{"altitude_m", &FinishUnknowns::altitude_m},
    Named{"fridge_celsius", &FinishUnknowns::fridge_celsius},
    Named{"packing_limit", &FinishUnknowns::packing_limit},
    Named{"intrinsic_viscosity", &FinishUnknowns::intrinsic_viscosity},
    Named{"yield_scale_pa", &FinishUnknowns::yield_scale_pa},
    Named{"juice_solids_factor", &FinishUnknowns::juice_solids_factor},
    Named{"pulp_thickening", &FinishUnknowns::pulp_thickening},
    Named{"simple_sugar_claim", &FinishUnknowns::simple_sugar_claim},
    Named{"cooling_w_m2_k", &FinishUnknowns::cooling_w_m2_k},
    Named{"thaw_w_m2_k", &FinishUnknowns::thaw_w_m2_k},
    Named{"crumb_w_m_k", &FinishUnknowns::crumb_w_m_k},
    Named{"crumb_j_kg_k", &FinishUnknowns::crumb_j_kg_k},
    Named{"piece_kg_m3", &FinishUnknowns::piece_kg_m3},
    Named{"drying_m_s", &FinishUnknowns::drying_m_s},
    Named{"skin_share", &FinishUnknowns::skin_share},
    Named{"inverted_share", &FinishUnknowns::inverted_share},
    Named{"solution_activity_error", &FinishUnknowns::solution_activity_error},
    Named{"crumb_activity_error", &FinishUnknowns::crumb_activity_error},
    Named{"crumb_diffusivity_m2_s", &FinishUnknowns::crumb_diffusivity_m2_s},
    Named{"mould_factor", &FinishUnknowns::mould_factor},
    Named{"staling_factor", &FinishUnknowns::staling_factor},
    Named{"fresh_limit", &FinishUnknowns::fresh_limit},
    Named{"soak_factor", &FinishUnknowns::soak_factor},
    Named{"leak_per_hour", &FinishUnknowns::leak_per_hour},
    Named{"fruit_draw", &FinishUnknowns::fruit_draw},
    Named{"roll_sheet_mm", &FinishUnknowns::roll_sheet_mm},
    Named{"dough_kg_m3", &FinishUnknowns::dough_kg_m3},
    Named{"runs_below_pa_s", &FinishUnknowns::runs_below_pa_s},
    Named{"boils_margin_k", &FinishUnknowns::boils_margin_k},
    Named{"steam_gap_from", &FinishUnknowns::steam_gap_from},
    Named{"chocolate_factor", &FinishUnknowns::chocolate_factor},
    Named{"chocolate_sets_celsius", &FinishUnknowns::chocolate_sets_celsius},
    Named{"seizes_from", &FinishUnknowns::seizes_from},
    Named{"ganache_from", &FinishUnknowns::ganache_from},
};

}  // namespace

std::vector<FinishUnknownRow> finish_unknown_rows() {
  const Table table(finish_tables::embedded_table("finish_unknowns.tsv"));
  std::vector<FinishUnknownRow> rows;
  for (std::size_t i = 0; i < table.size(); ++i) {
    for (const Named& named : k_places) {
      if (named.name == table.cell(i, "name")) {
        rows.push_back({std::string(named.name),
                        std::string(table.cell(i, "words")),
                        std::string(table.cell(i, "measure")),
                        table.cell(i, "lasts") == "kitchen",
                        {shape_from(table.cell(i, "shape")), table.number(i, "a"),
                         table.number(i, "b"), table.number(i, "c")},
                        std::string(table.cell(i, "unit")),
                        std::string(table.cell(i, "source")),
                        named.place});
      }
    }
  }
  return rows;
}

}  // namespace maslin
