#include "reading/columns.h"

#include <cmath>

#include "reading/measure.h"

namespace maslin::reading {
namespace {

/// Columns are set apart by a gap, a tab or a bar.
bool begins_cell(const Text& text, std::size_t i) {
  return i > 0 && (text[i].wide || text[i - 1].is('|')) && !text[i].is('|');
}

bool ends_cell(const Text& text, std::size_t i) {
  return text[i].kind == TokenKind::end || text[i].wide || text[i].is('|');
}

/// The unit that a head's column names, empty when it names none.
std::string_view head_unit(const Text& text, std::size_t i) {
  for (std::size_t at = i; at < text.size() && (at == i || !ends_cell(text, at)); ++at) {
    if (text[at].is('%')) {
      return "%";
    }
    // "Weight" over figures: grams, as bakers' tables have them.
    if (const Match label = match(text, at, WordClass::label);
        label && label.phrase->means == "weight" && head_unit(text, label.end).empty()) {
      return "g";
    }
    if (const Match unit = match(text, at, WordClass::unit)) {
      const UnitKind kind = unit_kind(unit.phrase->means);
      if (kind == UnitKind::percent) {
        return "%";
      }
      if (kind == UnitKind::mass || kind == UnitKind::volume) {
        return unit.phrase->means;
      }
    }
  }
  return {};
}

bool is_mass_column(std::string_view unit) {
  return unit_kind(unit) == UnitKind::mass;
}

struct Cell {
  std::size_t from = 0;
  std::size_t to = 0;
};

std::vector<Cell> cells_of(const Text& text) {
  std::vector<Cell> out;
  std::size_t from = 0;
  for (std::size_t i = 1; i <= text.size(); ++i) {
    if (i == text.size() || begins_cell(text, i)) {
      std::size_t to = i;
      while (to > from && text[to - 1].is('|')) {
        --to;
      }
      out.push_back({from, to});
      from = i;
    }
  }
  return out;
}

}  // namespace

std::vector<std::string_view> column_units(const Text& text) {
  std::vector<std::string_view> units;
  bool any = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    // "5 doughs (g)" is a head, "500 g" is not.
    const bool counts = text[i + 1].kind == TokenKind::word &&
                        !match(text, i + 1, WordClass::unit) && begins_cell(text, i) &&
                        !head_unit(text, i).empty();
    if (text[i].is_number() && !counts) {
      return {};
    }
    // A head that stands over the figures alone: "lb   oz".
    const bool over = i == 0 && ends_cell(text, 1) && !head_unit(text, 0).empty();
    if (begins_cell(text, i) || over) {
      units.push_back(head_unit(text, i));
      any = any || !units.back().empty();
    }
  }
  return any ? units : std::vector<std::string_view>();
}

std::string row_with_units(const Text& text, const std::vector<std::string_view>& units) {
  const std::vector<Cell> cells = cells_of(text);
  std::string masses;  // weights first: they say more than shares and sums
  std::string others;
  std::string aside;
  double first_grams = 0.0;
  constexpr double k_same_weight = 0.3;  // ounces and grams of one thing are rounded
  bool any = false;
  for (std::size_t n = 1; n < cells.size(); ++n) {
    const std::string_view unit = n - 1 < units.size() ? units[n - 1] : std::string_view();
    const bool bare = cells[n].to == cells[n].from + 1 &&
                      text[cells[n].from].kind == TokenKind::number && !unit.empty();
    const std::string cell = std::string(text.slice(cells[n].from, cells[n].to)) +
                             (bare ? " " + std::string(unit) : std::string());
    any = any || bare;
    if (!bare || !is_mass_column(unit)) {
      others += "  " + cell;
      continue;
    }
    // "12 lb  8 oz" are one amount in two columns.
    const bool goes_on =
        n > 1 && n - 2 < units.size() && grams_in(units[n - 2]) > grams_in(unit) && !masses.empty();
    const bool nothing = text[cells[n].from].value == 0.0 && cells.size() > 2;
    // "1 dough (g) | 5 doughs (g)": the first batch stands, another is said aside.
    const double grams = text[cells[n].from].value * grams_in(unit);
    const bool other_batch =
        !goes_on && first_grams > 0.0 && std::abs(grams / first_grams - 1.0) > k_same_weight;
    first_grams = first_grams > 0.0 ? first_grams : grams;
    if (other_batch) {
      aside += (aside.empty() ? "" : ", ") + cell;
      continue;
    }
    masses += nothing ? "" : (goes_on ? " " : "  ") + cell;
  }
  if (!any) {
    return text.raw;
  }
  return std::string(text.slice(cells[0].from, cells[0].to)) + masses + others +
         (aside.empty() ? "" : "  (in other batches " + aside + ")");
}

}  // namespace maslin::reading
