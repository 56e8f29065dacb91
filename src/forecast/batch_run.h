// One batch of eight draws as it goes through the physics, in the order of the
// kitchen: weigh, mix, rise, bake, finish. Private to the folder: batch.cpp weighs
// and mixes, batch_rise.cpp proves, batch_bake.cpp bakes, batch_finish.cpp finishes.
#pragma once

#include <string>
#include <vector>

#include "bake/bake.h"
#include "finish/finish.h"
#include "forecast/forecast.h"
#include "properties/water.h"
#include "rise/rise.h"

namespace maslin {

/// Collects eight draws as columns.
class BatchColumns {
 public:
  explicit BatchColumns(BatchOutcome& out) : out_(out) {}

  void unknown(const Unknown& one, const Lanes& values) {
    out_.unknowns.push_back({one.name, one.unit, values});
  }
  void outcome(std::string name, std::string unit, const Lanes& values) {
    out_.outcomes.push_back({std::move(name), std::move(unit), values});
  }
  void trace(std::string name, std::string unit, double step_minutes, std::vector<Lanes> samples) {
    out_.traces.push_back({std::move(name), std::move(unit), step_minutes, std::move(samples)});
  }

 private:
  BatchOutcome& out_;
};

/// One batch as it goes through the physics.
class BatchRun {
 public:
  BatchRun(const ForecastSetup& setup, std::size_t batch, BatchOutcome& out);
  void run();

 private:
  Portions& dough_portions() { return bowls_[setup_.bowls.dough].portions; }
  /// A flour without an amount gets what brings the dough to the middle of soft.
  void solve_flour();
  /// Water, milk and juice poured into the dough, g.
  Lanes poured_grams() const;
  void mix();
  /// The room at a moment, minutes of the clock.
  Lanes room_celsius(double clock) const;
  Lanes ambient_k(const PlannedProve& prove, double clock) const;
  /// The air of a prove; where the room changes, by the minutes since `clock_at_zero`.
  void set_air(Prove& prove, const PlannedProve& planned, double clock_at_zero) const;
  Prove prove_of(const PlannedProve& planned, double clock_at_zero) const;
  void put_prove(const std::string& key, const ProveRun& prove);
  void put_preferment(std::size_t number, const RiseDough& sponge, const RiseState& raw,
                      const ProveRun& ripe, double ripe_ratio);
  /// The preferment's own ripening, mixed into the start of the dough.
  RiseState start_of_dough(const RiseDough& rising);
  YeastStorage storage() const;
  void rise();
  /// What goes round or into the pieces: filling grams over dough grams.
  Lanes filling_grams() const;
  /// Whether a part lies on the pieces in the oven, the grams of all that do, and whether so much
  /// covers them.
  bool topped_with(std::size_t bowl) const;
  Lanes topping_grams() const;
  bool covered() const;
  Piece piece() const;
  DoneRule done_rule(const Piece& one) const;
  void bake(const Piece& one);
  FinishPart finish_part(std::size_t index) const;
  void finish();

  const ForecastSetup& setup_;
  BatchOutcome& out_;
  BatchColumns columns_;
  bool first_batch_ = false;
  BatchDraws draws_;
  ModelDraws models_;
  std::vector<FilledBowl> bowls_;
  DoughState dough_;
  Lanes dough_celsius_ = 25.0;
  Lanes pressure_pa_ = k_standard_pressure_pa;
  Lanes porosity_ = 0.6;
  Lanes piece_k_ = 298.15;
  // As the piece leaves the oven; defaults stand in where there is none.
  Lanes piece_grams_ = 80.0;
  Lanes loss_ = 0.11;
  Lanes core_celsius_ = 93.0;
};

}  // namespace maslin
