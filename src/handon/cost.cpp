#include "handon/cost.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "handon/embedded_table.h"
#include "numerics/draws.h"
#include "quantity/number_text.h"
#include "quantity/table.h"
#include "recipe/price_list.h"

namespace maslin::handon {
namespace {

/// A preheating time stands for the rise from a room of 20 °C to 180 °C.
constexpr double k_preheat_rise = 160.0;
constexpr double k_room_celsius = 20.0;
/// More than anyone buys, and within an int.
constexpr double k_most_packs = 1e6;

/// One food over all lines that ask for it, g in each draw.
struct Needed {
  const Ingredient* food = nullptr;
  std::vector<double> grams;
};

/// The country, its neighbours, anywhere: the order in which rows are looked for.
std::vector<std::string> places_of(const std::string& country) {
  std::vector<std::string> out{country};
  const Table near(handon_data::embedded_table("locales.tsv"));
  for (std::size_t i = 0; i < near.size(); ++i) {
    if (near.cell(i, "locale") == country) {
      out.emplace_back(near.cell(i, "near"));
    }
  }
  out.emplace_back();
  return out;
}

std::optional<PricedPack> usual_pack(const Ingredient& food, const std::string& country) {
  const Table table(handon_data::embedded_table("packs.tsv"));
  for (const std::string& id : {food.id, kind_key(food)}) {
    for (const std::string& place : places_of(country)) {
      for (std::size_t i = 0; i < table.size(); ++i) {
        if (table.cell(i, "id") == id && table.cell(i, "locale") == place) {
          return PricedPack{food.name, table.number(i, "amount"),
                            std::string(table.cell(i, "unit")), 0.0};
        }
      }
    }
  }
  return std::nullopt;
}

class Costing {
 public:
  Costing(const Recipe& recipe, const Pantry& pantry, const CostRequest& request)
      : recipe_(recipe),
        pantry_(pantry),
        request_(request),
        list_(request.prices.empty() ? request.kitchen.prices : request.prices) {}

  CostSheet cost() {
    const ForecastSetup setup = set_up_forecast(recipe_, request_.kitchen, pantry_, request_.draws);
    out_.title = recipe_.title;
    out_.currency = list_.currency;
    out_.problem = setup.problem;
    if (!out_.problem.empty()) {
      return std::move(out_);
    }
    out_.pieces = std::max(1.0, setup.schedule.bake.pieces);
    weigh(setup);
    prices_ = food_prices(list_, pantry_, request_.kitchen.country);
    out_.notes = prices_.notes;
    for (const Needed& needed : needed_) {
      out_.lines.push_back(line_of(needed));
    }
    std::stable_sort(out_.lines.begin(), out_.lines.end(), [](const auto& a, const auto& b) {
      const double x = a.cost ? a.cost->p50 : 0.0;
      const double y = b.cost ? b.cost->p50 : 0.0;
      return x != y ? x > y : a.grams.p50 > b.grams.p50;
    });
    if (!unpriced_.empty()) {
      out_.asks.push_back("what a pack costs of " + unpriced_);
    }
    spend_energy();
    add_up();
    return std::move(out_);
  }

 private:
  void weigh(const ForecastSetup& setup) {
    const double waste = list_.waste_share();
    draws_ = batch_count(setup) * k_lane_count;
    total_.assign(draws_, 0.0);
    for (std::size_t batch = 0; batch < batch_count(setup); ++batch) {
      const std::size_t first = batch * k_lane_count;
      const BatchDraws draws =
          draw_batch(setup.unknowns, setup.options.seed, draws_in(setup, batch));
      const std::vector<FilledBowl> filled = fill_bowls(setup.bowls, draws);
      for (std::size_t b = 0; b < filled.size(); ++b) {
        const auto& lines = setup.bowls.bowls[b].lines;
        for (std::size_t i = 0; i < lines.size(); ++i) {
          const Ingredient* food =
              lines[i].ingredient != nullptr ? pantry_.find(lines[i].ingredient->id) : nullptr;
          if (food != nullptr && food->kind != IngredientKind::water) {
            add(*food, filled[b].line_grams[i] / (1.0 - waste), first);
          }
        }
      }
    }
    for (const Part& part : recipe_.parts) {
      for (const Line& line : part.lines) {
        if (!line.weighed && line.part.empty()) {
          out_.asks.push_back("how much \"" + (line.text.empty() ? line.name : line.text) +
                              "\" is: it has no weight and is not counted");
        }
      }
    }
  }

  void add(const Ingredient& food, const Lanes& grams, std::size_t first) {
    auto at = std::find_if(needed_.begin(), needed_.end(),
                           [&](const Needed& one) { return one.food->id == food.id; });
    if (at == needed_.end()) {
      needed_.push_back({&food, std::vector<double>(draws_, 0.0)});
      at = needed_.end() - 1;
    }
    for (std::size_t lane = 0; lane < k_lane_count; ++lane) {
      at->grams[first + lane] += grams[lane];
    }
  }

  std::optional<double> grams_of(const PricedPack& pack, const Ingredient& food) const {
    // Imperial pints and ounces are the kitchen's own.
    const auto weight =
        pantry_.weigh(food, point(pack.amount), pack.unit, "", "", request_.kitchen.country);
    return weight ? std::optional(weight->p50()) : std::nullopt;
  }

  CostLine line_of(const Needed& needed) {
    const std::vector<double> weight(draws_, 1.0);
    CostLine out;
    out.id = needed.food->id;
    out.name = needed.food->name;
    out.grams = band_of(needed.grams, weight);
    const auto known = prices_.by_id.find(needed.food->id);
    const FoodPrice* priced = known != prices_.by_id.end() ? &known->second : nullptr;
    const std::optional<PricedPack> pack = priced != nullptr
                                               ? std::optional(priced->pack)
                                               : usual_pack(*needed.food, request_.kitchen.country);
    if (priced == nullptr) {
      unpriced_ += (unpriced_.empty() ? "" : ", ") + out.name;
      out.usual_pack = true;
    }
    const auto grams = pack ? grams_of(*pack, *needed.food) : std::nullopt;
    if (!grams || !(*grams > 0.0)) {
      return out;
    }
    out.pack_grams = *grams;
    out.pack = number_text(pack->amount, 2) +
               (pack->unit.empty() || pack->unit == "piece" ? "" : " " + pack->unit);
    out.packs = static_cast<int>(std::min(std::ceil(out.grams.p90 / *grams - 1e-9), k_most_packs));
    if (priced != nullptr) {
      const double a_gram = priced->per_gram();
      out.cost = {out.grams.p10 * a_gram, out.grams.p50 * a_gram, out.grams.p90 * a_gram};
      out.bought = out.packs * priced->pack.price;
      for (std::size_t d = 0; d < draws_; ++d) {
        total_[d] += needed.grams[d] * a_gram;
      }
      any_price_ = true;
    }
    return out;
  }

  double drawn(const char* name, const Distribution& distribution, std::size_t index) const {
    return distribution.quantile(
        draw(name_key(name), request_.draws.seed, static_cast<std::uint32_t>(index)));
  }

  /// Power times time: full while it heats up, for a share of the bake.
  void spend_energy() {
    if (!request_.bake_minutes) {
      return;
    }
    const OvenKind kind = request_.kitchen.oven.value_or(OvenKind::conventional);
    const Table table(handon_data::embedded_table("oven_energy.tsv"));
    std::size_t row = 0;
    while (row < table.size() && table.cell(row, "kind") != oven_kind_name(kind)) {
      ++row;
    }
    if (row == table.size()) {
      out_.asks.push_back("what the fuel of a " + std::string(oven_kind_name(kind)) +
                          " costs a bake: wood and charcoal are not reckoned");
      return;
    }
    const auto between = [&](const char* low, const char* high) {
      return uniform(table.number(row, low), table.number(row, high));
    };
    const Distribution power =
        list_.oven_kw ? point(*list_.oven_kw) : between("power_low", "power_high");
    const double rise = std::max(0.0, request_.setting_celsius -
                                          request_.kitchen.room_celsius.value_or(k_room_celsius)) /
                        k_preheat_rise;
    const Distribution preheat = between("preheat_low", "preheat_high").scaled(rise);
    const Band& bake = *request_.bake_minutes;
    const double spread = bake.p50 > 0.0 ? 0.39 * bake.width() / bake.p50 : 0.0;
    const Distribution minutes = lognormal(std::max(bake.p50, 1e-6), spread);
    std::vector<double> kwh(draws_);
    std::vector<double> heating(draws_);
    for (std::size_t d = 0; d < draws_; ++d) {
      heating[d] = drawn("oven/preheat", preheat, d);
      const double on = heating[d] + request_.loads * drawn("oven/bake", minutes, d) *
                                         drawn("oven/duty", between("duty_low", "duty_high"), d);
      kwh[d] = drawn("oven/power", power, d) * on / 60.0;
    }
    const std::vector<double> weight(draws_, 1.0);
    EnergyCost out{band_of(heating, weight), bake, band_of(kwh, weight), std::nullopt};
    if (const auto price = list_.energy_per_kwh) {
      out.cost = {out.kwh.p10 * *price, out.kwh.p50 * *price, out.kwh.p90 * *price};
      for (std::size_t d = 0; d < draws_; ++d) {
        total_[d] += kwh[d] * *price;
      }
      any_price_ = true;
    } else {
      out_.asks.push_back("what a kWh costs");
    }
    if (!list_.oven_kw) {
      out_.asks.push_back("the oven's power, kW, from its plate");
    }
    out_.energy = out;
  }

  void add_up() {
    if (!any_price_) {
      out_.notes.push_back("no prices were given, so there are no sums: give them with --prices");
      return;
    }
    const Band batch = band_of(total_, std::vector<double>(draws_, 1.0));
    out_.batch = batch;
    out_.piece = Band{batch.p10 / out_.pieces, batch.p50 / out_.pieces, batch.p90 / out_.pieces};
    double bought = 0.0;
    for (const CostLine& line : out_.lines) {
      bought += line.bought.value_or(0.0);
    }
    out_.bought = bought;
    const auto without = std::count_if(out_.lines.begin(), out_.lines.end(),
                                       [](const CostLine& line) { return !line.cost; });
    if (without > 0) {
      out_.notes.push_back("the sums leave out " + std::to_string(without) +
                           " ingredients without a price");
    }
    out_.notes.push_back("work, rent, wear and taxes are not counted");
  }

  const Recipe& recipe_;
  const Pantry& pantry_;
  const CostRequest& request_;
  const PriceList& list_;
  CostSheet out_;
  std::size_t draws_ = 0;
  std::vector<Needed> needed_;
  FoodPrices prices_;
  std::vector<double> total_;  // by draw
  std::string unpriced_;       // names, by commas
  bool any_price_ = false;
};

}  // namespace

CostSheet cost_of(const Recipe& recipe, const Pantry& pantry, const CostRequest& request) {
  return Costing(recipe, pantry, request).cost();
}

}  // namespace maslin::handon
