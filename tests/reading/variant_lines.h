// One listed line written in another way, for variants.h.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace maslin {

/// "500 g flour" cut in its amount ("500 g") and its name; no amount where it begins otherwise.
struct Cut {
  std::string amount;
  std::string name;
};

std::string replaced(std::string text, std::string_view from, std::string_view to);
/// The words of a line without the bullet it may have.
std::string without_bullet(const std::string& line);
/// The amount a line begins with, where it is a plain number and a unit of one word.
std::optional<Cut> cut_of(const std::string& listed);
std::string upper(std::string text);
std::string lower(std::string text);
/// Whether one-letter units tell a spoon by their case.
bool has_letter_unit(const std::string& line);
std::string glued(const std::string& line);
std::string all_glued(const std::string& line);
std::string signs(std::string line);
std::string spelt_fractions(std::string line);
/// A scan's slips in figures: O for 0, l for 1.
std::string scanned(const std::string& line);
std::string counted_after(const std::string& line);
std::string counted_before(const std::string& line);
std::string spelt_numbers(const std::string& line);
/// The same again in a bracket: "1 cup (240 ml) milk", "500 g (17.6 oz) flour".
std::string said_twice(const std::string& line);
std::string tabled(const std::string& line);
std::string with_link(const std::string& line);

}  // namespace maslin
