#include "reading/columns.h"

#include "reading/measure.h"

namespace maslin::reading {
namespace {

/// The unit that a head's column names, empty when it names none.
std::string_view head_unit(const Text& text, std::size_t i) {
  for (std::size_t at = i; at < text.size() && (at == i || !text[at].wide); ++at) {
    if (text[at].is('%')) {
      return "%";
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

bool is_bare_number(const Text& text, std::size_t i) {
  const Token& token = text[i];
  const Token& next = text[i + 1];
  const bool ends = next.kind == TokenKind::end || next.wide;
  return token.kind == TokenKind::number && token.wide && ends;
}

}  // namespace

std::vector<std::string_view> column_units(const Text& text) {
  std::vector<std::string_view> units;
  bool any = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i].is_number()) {
      return {};
    }
    if (text[i].wide) {
      units.push_back(head_unit(text, i));
      any = any || !units.back().empty();
    }
  }
  return any ? units : std::vector<std::string_view>();
}

std::string row_with_units(const Text& text, const std::vector<std::string_view>& units) {
  std::string out;
  std::size_t copied = 0;
  std::size_t column = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (!text[i].wide) {
      continue;
    }
    if (column < units.size() && is_bare_number(text, i) && !units[column].empty()) {
      out += text.raw.substr(copied, text[i].end - copied);
      out += " ";
      out += units[column];
      copied = text[i].end;
    }
    ++column;
  }
  return out.empty() ? text.raw : out + text.raw.substr(copied);
}

}  // namespace maslin::reading
