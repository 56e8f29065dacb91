// Published recipes that print their nutrition, as read from tests/published/nutrition/*.tsv.
#pragma once

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "quantity/number_text.h"
#include "quantity/table.h"
#include "recipe/recipe.h"

namespace nutrition_kit {

using namespace maslin;

struct Printed {
  std::string nutrient;
  double value = 0.0;
  double half_digit = 0.0;
  bool judged = false;
};

struct Published {
  std::string name;
  double portions = 0.0;
  Recipe recipe;
  std::vector<Printed> printed;
};

/// Half of the last digit: 0.5 for "6", 0.005 for "4.46".
inline double half_digit(const std::string& text) {
  const std::size_t dot = text.find('.');
  const std::size_t decimals = dot == std::string::npos ? 0 : text.size() - dot - 1;
  return 0.5 * std::pow(10.0, -static_cast<double>(decimals));
}

inline Published read_published(const std::filesystem::path& path) {
  Published out;
  out.name = path.stem().string();
  out.recipe.parts.push_back({});
  std::ifstream file(path);
  for (std::string row; std::getline(file, row);) {
    const auto cells = split(row, '\t');
    const auto number = [&](std::size_t i) {
      return number_from(cells.at(i)).value_or(std::nan(""));
    };
    if (cells.empty()) {
      continue;
    }
    if (cells[0] == "portions") {
      out.portions = number(1);
    } else if (cells[0] == "line") {
      Line line;
      line.ingredient_id = cells.at(1);
      line.grams = point(number(4));
      line.weighed = true;
      out.recipe.parts[0].lines.push_back(line);
    } else if (cells[0] == "printed") {
      out.printed.push_back({std::string(cells.at(1)), number(2), half_digit(std::string(cells[2])),
                             cells.at(3) == "judged"});
    }
  }
  return out;
}

inline std::vector<Published> all_published() {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry :
       std::filesystem::directory_iterator(MASLIN_SOURCE_DIR "/tests/published/nutrition")) {
    if (entry.path().extension() == ".tsv") {
      paths.push_back(entry.path());
    }
  }
  std::sort(paths.begin(), paths.end());
  std::vector<Published> out;
  for (const auto& path : paths) {
    out.push_back(read_published(path));
  }
  return out;
}

}  // namespace nutrition_kit
