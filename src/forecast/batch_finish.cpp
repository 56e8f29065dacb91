// Fillings, glazes, cooling and keeping of a batch.
#include "finish/jobs.h"
#include "forecast/batch_run.h"
#include "recipe/recipe_json.h"

namespace maslin {

FinishPart BatchRun::finish_part(std::size_t index) const {
  const Part& part = setup_.recipe->parts[index];
  FinishPart out;
  out.name = part.name;
  out.kind = part.kind;
  out.portions = bowls_[index].portions;
  out.baked =
      part.kind == PartKind::dough || part.kind == PartKind::filling || part.kind == PartKind::wash;
  for (const Step& step : part.steps) {
    out.boiled = out.boiled || step.kind == StepKind::boil;
    if (step.kind == StepKind::soak && step.minutes) {
      out.soak_hours = Lanes(step.minutes->middle() / 60.0);
      if (step.celsius) {
        out.soak_celsius = Lanes(step.celsius->middle());
      }
    }
  }
  const Bowls::Bowl& bowl = setup_.bowls.bowls[index];
  out.yield = bowl.yield_unknown != 0 ? draws_[bowl.yield_unknown] : Lanes(bowl.yield.p50());
  // The steps say where the filling goes; else the shape of the piece does.
  const FillingPlace by_shape =
      setup_.schedule.bake.shape == PieceShape::slice ? FillingPlace::rolled : FillingPlace::folded;
  out.place = part.kind == PartKind::topping
                  ? FillingPlace::open
                  : filling_place(setup_.models.finish, *setup_.recipe).value_or(by_shape);
  return out;
}

void BatchRun::finish() {
  std::vector<FinishPart> parts;
  for (std::size_t i = 0; i < bowls_.size(); ++i) {
    if (!bowls_[i].portions.items.empty()) {
      for (FinishPart& job : jobs_of(finish_part(i))) {
        parts.push_back(std::move(job));
      }
    }
  }
  BakedPiece baked;
  baked.count = setup_.schedule.bake.pieces;
  baked.grams = piece_grams_ * (1.0 - loss_);
  baked.core_celsius = core_celsius_;
  baked.dough_loss = loss_;
  const PieceShape shape = setup_.schedule.bake.shape;
  baked.shape = shape == PieceShape::cluster || shape == PieceShape::tin_loaf ||
                        shape == PieceShape::sheet || shape == PieceShape::slice
                    ? CoolingShape::slab
                    : CoolingShape::ball;
  baked.effective_hydration = dough_.effective_hydration_pct;
  const FinishForecast out = finish_parts(setup_.models.finish, parts, baked, models_.finish);
  for (const FinishEntry& entry : out.entries) {
    const std::string key = "finish/" + std::string(entry.what) + "/" + entry.part;
    for (const FinishFigure& figure : entry.figures) {
      columns_.outcome(key + "/" + std::string(figure.name), "", figure.value);
    }
    if (entry.term) {
      columns_.outcome(key + "/term", "", *entry.term);
    }
    if (entry.term_on_warm_piece) {
      columns_.outcome(key + "/term_on_warm_piece", "", *entry.term_on_warm_piece);
    }
  }
  for (const FinishCaution& one : out.cautions) {
    std::vector<double> applies;
    for (std::size_t i = 0; i < k_lane_count; ++i) {
      applies.push_back(one.applies[i]);
    }
    out_.cautions.push_back({std::string(one.id), one.part, one.text, std::move(applies)});
  }
  out_.problems.insert(out_.problems.end(), out.outside.begin(), out.outside.end());
  for (const Problem& one : out.problems) {
    out_.problems.push_back(sentence(one));
  }
}

}  // namespace maslin
