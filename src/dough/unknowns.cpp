// From the tables of data/ to the model.
#include <array>

#include "dough/dough.h"
#include "dough/embedded_table.h"
#include "quantity/table.h"

namespace maslin {
namespace {

struct NamedMember {
  std::string_view name;
  Lanes DoughUnknowns::* value;
};
constexpr std::array<NamedMember, 8> k_members{{
    {"flour_absorption", &DoughUnknowns::flour_absorption},
    {"sugar_scale", &DoughUnknowns::sugar_scale},
    {"fat_scale", &DoughUnknowns::fat_scale},
    {"egg_scale", &DoughUnknowns::egg_scale},
    {"fruit_scale", &DoughUnknowns::fruit_scale},
    {"fibre_scale", &DoughUnknowns::fibre_scale},
    {"salt_points_per_pct", &DoughUnknowns::salt_points_per_pct},
    {"feel_shift", &DoughUnknowns::feel_shift},
}};

UnknownLasts lasts_from(std::string_view word) {
  if (word == "flour") {
    return UnknownLasts::flour;
  }
  return word == "baker" ? UnknownLasts::baker : UnknownLasts::draw;
}

std::vector<DoughUnknown> unknowns_from(std::string_view text) {
  const Table table(text);
  std::vector<DoughUnknown> out;
  for (std::size_t row = 0; row < table.size(); ++row) {
    for (const NamedMember& member : k_members) {
      if (member.name != table.cell(row, "name")) {
        continue;
      }
      const double a = table.number(row, "a");
      const double b = table.number(row, "b");
      out.push_back({member.name, table.cell(row, "unit"),
                     table.cell(row, "shape") == "lognormal" ? lognormal(a, b) : normal(a, b),
                     lasts_from(table.cell(row, "lasts")), member.value,
                     table.cell(row, "source")});
    }
  }
  return out;
}

}  // namespace

DoughModel dough_model() {
  return {HydrationTable(dough_data::embedded_table("hydration.tsv")),
          unknowns_from(dough_data::embedded_table("dough_unknowns.tsv"))};
}

}  // namespace maslin
