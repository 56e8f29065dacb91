#include <algorithm>
#include <cmath>

#include "handon/card_notes.h"
#include "handon/card_steps.h"
#include "handon/carried_lines.h"
#include "handon/differences.h"
#include "handon/handon.h"
#include "handon/oven_fit.h"
#include "handon/settle.h"
#include "handon/stand_in.h"
#include "quantity/number_text.h"

namespace maslin::handon {
namespace {

/// A forecast as the card tells it, and what of it a recipe is settled by.
struct Foretold {
  ForecastSummary summary;
  Figures figures;
};

Foretold forecast_of(const Recipe& recipe, const Kitchen& kitchen, const Pantry& pantry,
                     const ForecastOptions& options) {
  const ForecastSetup setup = set_up_forecast(recipe, kitchen, pantry, options);
  Foretold out;
  if (!setup.problem.empty()) {
    out.summary.problem = setup.problem;
    return out;
  }
  const ForecastRun run = run_forecast(setup);
  return {summarise(setup, run), figures_in(setup, run)};
}

double score_of(const DoughState& state) {
  double sum = 0.0;
  for (std::size_t i = 0; i < k_lane_count; ++i) {
    sum += state.feel_score[i];
  }
  return sum / static_cast<double>(k_lane_count);
}

ForecastOptions quick_of(const CarryRequest& request) {
  return {request.forecast.seed, std::min(request.forecast.draws, request.settle_draws)};
}

/// Stand-ins, feel, rises and oven, in that order: each works on what the one before left.
void settle(Settling& settling, const Recipe& original, const CarryRequest& request, Card& card) {
  const DoughState home_dough = dough_of(original, settling.from, settling.pantry);
  const StoodIn stood = with_what_is_there(original, settling.pantry, settling.to, settling.words);
  settling.recipe = stood.recipe;
  settling.changes = stood.changes;
  settling.notes = stood.notes;
  settle_steam(settling);
  settle_cold_proves(settling);
  if (home_dough.has_flour) {
    settle_liquid(settling, score_of(home_dough));
  }
  Figures home;
  if (request.settle == Settle::by_forecast) {
    home = request.at_home ? *request.at_home : figures_at_home(original, settling.pantry, request);
  }
  if (home.any) {
    settle_oven(settling, home);
    settle_yeast(settling, home);
  }
  card.changes = std::move(settling.changes);
  card.notes = std::move(settling.notes);
  card.recipe = std::move(settling.recipe);
}

/// The recipe with what the measures there really take, as widely as people fill them.
Recipe as_measured(const Recipe& recipe, const LineTools& tools) {
  Recipe out = recipe;
  for (Part& part : out.parts) {
    for (Line& line : part.lines) {
      const HouseholdAmount amount = amount_of(line, tools);
      if (amount.way == AmountWay::measures && amount.grams > 0.0) {
        line.grams = lognormal(amount.grams, amount.spread_pct / 100.0);
      }
    }
  }
  return out;
}

std::string part_heading(const Part& part, const CardWords& words) {
  const std::string kind(part_kind_name(part.kind));
  if (part.name.empty() || part.name == kind || !words.english()) {
    const std::string own = words.say("part_" + kind);
    return part.name.empty() || part.name == kind ? own : own + " (" + part.name + ")";
  }
  std::string name = part.name;
  name.front() = name.front() >= 'a' && name.front() <= 'z'
                     ? static_cast<char>(name.front() - 'a' + 'A')
                     : name.front();
  return name;
}

CardLine card_line(const Line& line, std::size_t place, const LineTools& tools) {
  const Ingredient* one = tools.pantry.find(line.ingredient_id);
  CardLine out;
  out.line = place;
  out.name = !line.part.empty()  ? line.part
             : one != nullptr    ? tools.words.ingredient(*one, tools.pantry, line.name)
             : line.name.empty() ? line.text
                                 : line.name;
  out.grams = line.weighed ? line.grams.p50() : 0.0;
  out.amount = amount_of(line, tools);
  out.note = line.note;
  return out;
}

void write_parts(Card& card, const LineTools& tools) {
  int number = 0;
  for (std::size_t p = 0; p < card.recipe.parts.size(); ++p) {
    const Part& part = card.recipe.parts[p];
    CardPart out;
    out.part = p;
    out.name = part_heading(part, tools.words);
    for (std::size_t i = 0; i < part.lines.size(); ++i) {
      out.lines.push_back(card_line(part.lines[i], i, tools));
      out.grams += out.lines.back().grams;
    }
    const Part* was = p < card.original.parts.size() ? &card.original.parts[p] : nullptr;
    out.steps = card_steps(part, was, number, tools.words);
    number += static_cast<int>(out.steps.size());
    card.parts.push_back(std::move(out));
  }
}

void write_head(Card& card, const CardWords& words) {
  card.title = card.recipe.title;
  card.credit = card.recipe.found_at;
  if (card.recipe.pieces) {
    const Range& pieces = *card.recipe.pieces;
    card.yield = pieces.high == 1.0
                     ? words.say("makes_piece")
                     : words.say("makes_pieces", {words.range(pieces.low, pieces.high, 0)});
  }
  std::vector<std::string> of;
  if (card.kitchen.oven) {
    of.push_back(words.say("oven_" + std::string(oven_kind_name(*card.kitchen.oven))));
  }
  if (card.kitchen.altitude_m && std::fabs(*card.kitchen.altitude_m) >= 300.0) {
    of.push_back(words.say("setting_height", {words.number(*card.kitchen.altitude_m, 0)}));
  }
  if (card.kitchen.room_celsius) {
    of.push_back(words.say("setting_room", {words.number(*card.kitchen.room_celsius, 0)}));
  }
  for (const std::string& one : of) {
    card.setting += (card.setting.empty() ? "" : ", ") + one;
  }
  if (!card.setting.empty()) {
    card.setting = words.say("for_kitchen", {card.setting});
  }
}

Pieces pieces_of(const Card& card) {
  Pieces out;
  if (!card.there.bake || !card.there.dough) {
    return out;
  }
  out.count = std::max(1.0, card.there.bake->pieces);
  out.shape = card.there.bake->shape;
  double filling = 0.0;
  for (const Part& part : card.recipe.parts) {
    for (const Line& line : part.lines) {
      filling += part.kind == PartKind::filling && line.weighed ? line.grams.p50() : 0.0;
    }
  }
  out.grams = (card.there.dough->total_grams.p50 + filling) / out.count;
  return out;
}

/// Fewer or more pieces than the recipe's, where its own do not go in.
void change_pieces(Recipe& recipe, double count) {
  recipe.pieces = Range{count, count};
  for (Part& part : recipe.parts) {
    for (Step& step : part.steps) {
      if (step.pieces) {
        step.pieces = Range{count, count};
        step.piece_grams.reset();
      }
    }
  }
}

std::optional<double> setting_of(const Recipe& recipe) {
  for (const Part& part : recipe.parts) {
    for (const Step& step : part.steps) {
      if (step.kind == StepKind::bake && step.celsius) {
        return step.celsius->middle();
      }
    }
  }
  return std::nullopt;
}

bool has_lines(const Recipe& recipe) {
  return std::any_of(recipe.parts.begin(), recipe.parts.end(),
                     [](const Part& part) { return !part.lines.empty(); });
}

/// The two forecasts, and the pieces through that oven; figures of the one there.
Figures forecast_both(Card& card, const CarryRequest& request, const LineTools& tools) {
  Figures figures;
  const auto there = [&] {
    Foretold told =
        forecast_of(as_measured(card.recipe, tools), request.to, tools.pantry, request.forecast);
    figures = std::move(told.figures);
    return std::move(told.summary);
  };
  if (request.compared) {
    card.home = forecast_of(card.original, request.from, tools.pantry, request.forecast).summary;
  }
  card.there = there();
  const DoughState dough = dough_of(card.recipe, request.to, tools.pantry);
  OvenFit fit = fit_oven(request.to, pieces_of(card), dough, tools.words);
  if (fit.new_count) {
    change_pieces(card.recipe, *fit.new_count);
    card.there = there();
  }
  // Of a bake that never ends there is nothing to tell but that.
  if (card.there.bake && card.there.bake->minutes.p50 > k_never_done_minutes) {
    card.there.bake.reset();
  }
  card.batch = std::move(fit.batch);
  card.notes.insert(card.notes.end(), fit.notes.begin(), fit.notes.end());
  return figures;
}

}  // namespace

Figures figures_at_home(const Recipe& recipe, const Pantry& pantry, const CarryRequest& request) {
  return figures_of(recipe, request.from, pantry, quick_of(request));
}

Card carry(const Recipe& recipe, const Pantry& pantry, const CarryRequest& request) {
  Card card;
  card.original = recipe;
  card.recipe = recipe;
  card.kitchen = request.to;
  card.language = card_language(request.language, request.to.country);
  if (card.language.empty()) {
    card.problem =
        "There are no cards in \"" + request.language + "\": use " + card_language_tags() + ".";
    return card;
  }
  if (!has_lines(recipe)) {
    card.problem = "The recipe has no ingredients to carry; read it again, or write them in.";
    return card;
  }
  const CardWords words(card.language);
  const Means means = means_of(request.to, pantry);
  const LineTools tools{pantry, means, words};
  Settling settling{pantry, words, request.from, request.to, quick_of(request), recipe, {}, {}};
  settle(settling, recipe, request, card);
  const double factor = batch_factor(card.recipe, tools);
  write_grams(card.recipe, pantry, factor);
  note_batch_factor(card, factor, words);
  note_means(card, tools);

  Figures there;
  if (request.settle == Settle::by_forecast) {
    there = forecast_both(card, request, tools);
  }
  settle_steps(card.recipe, recipe, card.there, words);
  write_parts(card, tools);
  write_head(card, words);
  note_lines(card, tools);
  if (request.settle == Settle::by_forecast) {
    note_power(card, words);
    note_not_done(card, there, words);
  }
  advise_flour(card, request.from, tools);
  note_hot_room(card, words);
  if (request.compared) {
    card.differences = differences_of(card.home, card.there, request.from, request.to, words);
  }
  card.times = times_of(card.there, words);
  card.baking = bake_advice(
      request.to, setting_of(card.recipe),
      card.there.bake ? std::optional(card.there.bake->done.core_celsius.p50) : std::nullopt,
      words);
  card.cautions = card.there.cautions;
  for (Caution& caution : card.cautions) {
    caution.text = words.caution_text(caution);
  }
  return card;
}

}  // namespace maslin::handon
