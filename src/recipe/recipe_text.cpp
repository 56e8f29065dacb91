#include "recipe/recipe_text.h"

#include "quantity/number_text.h"

namespace maslin {
namespace {

bool is_mass(const std::string& unit) {
  return grams_in(unit) > 0;
}

/// "2" or "1/2-1": numbers as cooks write them, decimals for metric units.
std::string amount_text(const Range& range, const std::string& unit) {
  const bool metric = is_mass(unit) || unit == "ml" || unit == "cl" || unit == "dl" ||
                      unit == "l" || unit == "percent";
  const auto one = [&](double v) { return metric ? number_text(v, 3) : fraction_text(v); };
  return range.low == range.high ? one(range.low) : one(range.low) + "–" + one(range.high);
}

/// The unit in words after this amount: "cups", "g"; counted things have none.
std::string unit_text(const FoundAmount& found) {
  const std::string& unit = found.unit;
  if (unit.empty() || unit == "piece") {
    return "";
  }
  if (unit == "percent") {
    return "%";
  }
  const bool symbol = is_mass(unit) || unit == "ml" || unit == "cl" || unit == "dl" ||
                      unit == "l" || unit == "tsp" || unit == "tbsp";
  if (unit == "floz") {
    return " fl oz";
  }
  if (symbol) {
    return " " + unit;
  }
  const bool many = found.number && found.number->high > 1.0;
  const bool hiss = unit.size() > 2 && (unit.back() == 'h' || unit.back() == 's');
  return " " + unit + (many ? (hiss ? "es" : unit == "pinch" ? "es" : "s") : "");
}

/// Name that leads back to the same ingredient: as found when the pantry agrees.
std::string name_text(const Line& line, const Pantry& pantry) {
  if (!line.part.empty()) {
    return "the " + line.part;
  }
  const Ingredient* ingredient = pantry.find(line.ingredient_id);
  if (ingredient == nullptr) {
    return line.name.empty() ? line.text : line.name;
  }
  return pantry.named(line.name) == ingredient ? line.name : ingredient->name;
}

/// ASCII only: other first letters stay as they are, whatever the locale.
std::string capital(std::string text) {
  if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') {
    text.front() = static_cast<char>(text.front() - 'a' + 'A');
  }
  return text;
}

}  // namespace

std::string line_text(const Line& line, const Pantry& pantry) {
  std::string out;
  const FoundAmount& found = line.found;
  if (found.number) {
    out = amount_text(*found.number, found.unit);
    // What stands between number and unit ("2 heaped tbsp", "2 large eggs").
    std::string before;
    if (found.packing == "heaped") {
      before += " heaped";
    }
    if (!found.size.empty()) {
      before += " " + (found.size == "extra_large" ? std::string("extra large") : found.size);
    }
    out += before + unit_text(found);
    out += line.part.empty() ? " " : " of ";
  } else if (!line.part.empty()) {
    out = "all of ";
  }
  if (!found.packing.empty() && found.packing != "heaped" && found.packing != "level") {
    out += found.packing + " ";
  }
  out += name_text(line, pantry);
  if (!line.note.empty()) {
    out += ", " + line.note;
  }
  return out;
}

std::string heading_text(const Part& part) {
  const std::string kind(part_kind_name(part.kind));
  const std::string name = capital(part.name.empty() ? kind : part.name);
  return part.name.empty() || part.name == kind ? name + ":" : name + " (" + kind + "):";
}

/// "1 h 30" would need reading care; minutes throughout do not.
std::string step_text(const Step& step) {
  if (!step.text.empty()) {
    return step.text;
  }
  std::string out = capital(std::string(step_kind_name(step.kind)));
  if (step.kind == StepKind::divide) {
    out += " into";
    if (step.pieces) {
      out += " " + range_text(*step.pieces) + " pieces";
    }
    if (step.piece_grams) {
      out += " of " + number_text(*step.piece_grams, 0) + " g";
    }
  }
  if (!step.place.empty()) {
    out += step.place == "warm"   ? " in a warm place"
           : step.place == "cold" ? " in the fridge"
                                  : " in the freezer";
  }
  if (step.celsius) {
    out += " at " + range_text(*step.celsius) + " °C";
  }
  if (step.minutes) {
    out += " for " + range_text(*step.minutes) + " minutes";
  }
  if (!step.until.empty()) {
    out += " until " + step.until;
  }
  return out + ".";
}

std::string tin_text(const Tin& tin) {
  const auto mm = [](double v) { return number_text(v / 10.0, 1); };
  std::string size;
  if (tin.diameter_mm > 0) {
    size = mm(tin.diameter_mm) + " cm ";
  } else if (tin.length_mm > 0) {
    size = mm(tin.length_mm) + " x " + mm(tin.width_mm) +
           (tin.depth_mm > 0 ? " x " + mm(tin.depth_mm) : "") + " cm ";
  }
  return size + (tin.kind.empty() ? "tin" : tin.kind == "tray" ? "tray" : tin.kind + " tin");
}

std::string range_text(const Range& range) {
  return range.low == range.high ? number_text(range.low, 2)
                                 : number_text(range.low, 2) + "–" + number_text(range.high, 2);
}

std::string write_text(const Recipe& recipe, const Pantry& pantry) {
  std::string out = recipe.title.empty() ? "" : recipe.title + "\n\n";
  if (!recipe.locale.empty()) {
    out += "Measures: " + recipe.locale + "\n";
  }
  if (recipe.pieces) {
    out += "Makes " + range_text(*recipe.pieces) + " pieces\n";
  }
  if (recipe.tin) {
    out += "Tin: " + tin_text(*recipe.tin) + "\n";
  }
  int number = 1;
  for (const Part& part : recipe.parts) {
    out += "\n" + heading_text(part) + "\n";
    for (const Line& line : part.lines) {
      out += line_text(line, pantry) + "\n";
    }
    out += part.steps.empty() ? "" : "\n";
    for (const Step& step : part.steps) {
      out += std::to_string(number++) + ". " + step_text(step) + "\n";
    }
  }
  if (!recipe.remarks.empty()) {
    out += "\n";
  }
  for (const std::string& remark : recipe.remarks) {
    out += remark + "\n";
  }
  return out;
}

}  // namespace maslin
