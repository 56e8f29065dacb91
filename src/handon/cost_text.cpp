// A cost sheet in lines to read, and as a document.
#include "handon/cost.h"
#include "quantity/number_text.h"
#include "recipe/json.h"

namespace maslin::handon {
namespace {

/// Hundredths, always two: "0.30".
std::string money(double sum, const std::string& currency) {
  std::string out = number_text(sum, 2);
  const std::size_t dot = out.find('.');
  const std::size_t decimals = dot == std::string::npos ? 0 : out.size() - dot - 1;
  out += dot == std::string::npos ? "." : "";
  out.append(2 - decimals, '0');
  return out + (currency.empty() ? "" : " " + currency);
}

std::string money_range(const Band& band, const std::string& currency) {
  const std::string low = money(band.p10, "");
  const std::string high = money(band.p90, "");
  return money(band.p50, currency) + (low == high ? "" : " (" + low + " to " + high + ")");
}

Json band_json(const std::optional<Band>& band) {
  return band ? Json{{"p10", rounded(band->p10)},
                     {"p50", rounded(band->p50)},
                     {"p90", rounded(band->p90)}}
              : Json();
}

Json number_json(const std::optional<double>& number) {
  return number ? rounded(*number) : Json();
}

}  // namespace

std::string cost_text(const CostSheet& sheet) {
  std::string out = sheet.title.empty() ? "Shopping\n" : sheet.title + "\n";
  out += "\nTo buy\n";
  for (const CostLine& line : sheet.lines) {
    out +=
        "- " + line.name + ": " + number_text(line.grams.p50, line.grams.p50 < 10.0 ? 1 : 0) + " g";
    if (line.packs > 0) {
      out += ", " + std::to_string(line.packs) + (line.packs > 1 ? " packs of " : " pack of ") +
             line.pack + (line.usual_pack ? " (as mostly sold)" : "");
    }
    if (line.cost) {
      out += ", " + money_range(*line.cost, sheet.currency) + " of it used";
    }
    out += "\n";
  }
  if (sheet.energy) {
    out += "- the oven: " + number_text(sheet.energy->kwh.p50, 2) + " kWh (" +
           number_text(sheet.energy->kwh.p10, 2) + " to " + number_text(sheet.energy->kwh.p90, 2) +
           ")";
    out += sheet.energy->cost ? ", " + money_range(*sheet.energy->cost, sheet.currency) : "";
    out += "\n";
  }
  if (sheet.batch) {
    out += "\nThe batch: " + money_range(*sheet.batch, sheet.currency) +
           "; a piece: " + money_range(*sheet.piece, sheet.currency) +
           "; at the till: " + money(sheet.bought.value_or(0.0), sheet.currency) + "\n";
  }
  if (!sheet.asks.empty()) {
    out += "\nStill to be said:\n";
    for (const std::string& ask : sheet.asks) {
      out += "- " + ask + "\n";
    }
  }
  for (const std::string& note : sheet.notes) {
    out += "- " + note + "\n";
  }
  return out;
}

std::string cost_to_json(const CostSheet& sheet) {
  Json out{{"title", sheet.title},
           {"currency", sheet.currency},
           {"pieces", rounded(sheet.pieces)},
           {"lines", Json::array()},
           {"energy", Json()},
           {"batch", band_json(sheet.batch)},
           {"piece", band_json(sheet.piece)},
           {"bought", number_json(sheet.bought)},
           {"asks", sheet.asks},
           {"notes", sheet.notes}};
  for (const CostLine& line : sheet.lines) {
    out["lines"].push_back({{"ingredient", line.id},
                            {"name", line.name},
                            {"grams", band_json(line.grams)},
                            {"pack", line.pack},
                            {"pack_grams", rounded(line.pack_grams)},
                            {"packs", line.packs},
                            {"usual_pack", line.usual_pack},
                            {"cost", band_json(line.cost)},
                            {"bought", number_json(line.bought)}});
  }
  if (sheet.energy) {
    out["energy"] = {{"preheat_minutes", band_json(sheet.energy->preheat_minutes)},
                     {"bake_minutes", band_json(sheet.energy->bake_minutes)},
                     {"kwh", band_json(sheet.energy->kwh)},
                     {"cost", band_json(sheet.energy->cost)}};
  }
  return json_text(out);
}

}  // namespace maslin::handon
