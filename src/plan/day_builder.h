// How the tasks of a day are found: walks the recipe's steps and hangs each on what it
// needs. Included by day*.cpp alone.
#pragma once

#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plan/oven_room.h"
#include "plan/step_owner.h"
#include "plan/task.h"
#include "plan/work_minutes.h"

namespace maslin {

/// How long the step says, 0 where it does not.
inline double stated_minutes(const Step& step) {
  return step.minutes ? step.minutes->middle() : 0.0;
}

/// Work of the hands between two waits, named by what is done.
struct Handling {
  std::vector<std::string> verbs;
  double minutes = 0.0;
  bool fills = false;

  bool empty() const { return verbs.empty(); }
  /// Each verb once.
  void add(std::string_view verb, double more);
  /// "shape and fill"
  std::string name() const;
};

class DayBuilder {
 public:
  DayBuilder(const ForecastSetup& setup, const Ensemble& ensemble);
  Day build();

 private:
  // ---- what the whole method says, before any task is made

  void look_ahead();

  /// Where a part goes into or onto the dough.
  enum class Joins { bowl, filling, before_oven, after_oven };
  Joins joins(std::size_t part) const;

  // ---- tasks

  std::size_t add(DayTask task);
  std::size_t add_hands(std::string name, TaskKind kind, std::string_view work, double minutes,
                        std::vector<std::size_t> after);
  std::size_t add_wait(std::string name, TaskKind kind, std::vector<double> minutes,
                       std::vector<std::size_t> after);
  std::vector<double> column(const std::string& name) const;

  // ---- a part made beside the dough: hands first, then what it needs to stand

  struct PartTimes {
    double worked = 0.0;
    double soaks = 0.0;
    double stands = 0.0;
    double cools = 0.0;
    double roasts = 0.0;
    bool cooked = false;
    bool any = false;
  };

  PartTimes times_of(std::size_t part) const;
  void make_part(std::size_t part);
  /// When a preferment is ripe, in words; empty where it never is.
  std::string ripe_note(std::size_t part) const;

  /// Takes the finished parts that join here, each once.
  std::vector<std::size_t> take_parts(Joins where);

  // ---- the dough

  /// The next task of the dough comes after the last one and after these parts.
  std::vector<std::size_t> next(std::vector<std::size_t> parts = {}) const;
  void walk_dough();
  void take_before(const Step& step);
  void take_after(const Step& step);
  void mix();
  void knead(const Step& step);
  void stand(const Step& step);

  /// The hands' work gathered so far becomes a task.
  void handle();

  /// A recipe that tells of no rising has one before the pieces are made.
  void begin_assumed_prove();
  /// How long a prove takes, and what had to be taken for granted; no minutes where it
  /// does not take place.
  struct ProveTimes {
    std::vector<double> minutes;
    std::string until;
    std::string assumed;
  };
  ProveTimes prove_times(std::size_t index) const;
  void prove_if_any();
  /// Someone is there when pieces leave the freezer, or the fridge that they thawed in.
  void take_out(std::size_t index);
  /// The pieces of each load shaped and proved apart, the later ones so much later that they
  /// come to the oven when it is free.
  void prove_in_loads(std::size_t index, const ProveTimes& times);
  std::size_t add_prove(std::size_t index, const ProveTimes& times, const std::string& of_load,
                        std::vector<std::size_t> after);

  /// Tells which handling of the dough follows another in one go: what is mixed is not left
  /// unkneaded through a night, though a short rest may lie between.
  void keep_together();

  // ---- the oven

  int loads() const;
  /// ", load 2 of 3"; nothing where all goes in at once.
  std::string of_load(int load) const;
  /// Work on all pieces, or on each load's where they are apart; after these parts.
  void handle_pieces(const std::string& name, std::string_view work, double minutes,
                     const std::vector<std::size_t>& parts);

  double stated_heat() const;
  std::string oven_verb() const;
  const std::vector<double>& heat_minutes();
  void heat_oven(const std::string& verb);
  void bake();
  void begin_shaping();
  void bake_load(const std::string& verb, int load, const std::vector<std::size_t>& after);
  void top();

  // ---- after the oven

  std::vector<double> glaze_column(std::string_view figure) const;

  /// Until the pieces can be iced, or eaten: buns warm, loaves once they can be cut.
  std::vector<double> cooling_minutes(const std::vector<double>& to_glaze) const;
  void finish();
  void add_finish(const std::vector<std::size_t>& parts);
  void cool(const std::vector<double>& to_glaze);
  const ForecastSetup& setup_;
  const Recipe& recipe_;
  const Ensemble& ensemble_;
  WorkMinutes work_;
  std::vector<OwnedStep> steps_;
  OvenRoom oven_;
  Day out_;
  bool tops_before_ = false;
  bool finishes_after_ = false;
  bool fills_before_ = false;
  std::vector<std::vector<std::size_t>> made_;  // by part: what must be done for it to be there

  std::vector<std::size_t> last_;  // of the dough's way
  Handling handling_;
  bool mixed_ = false;
  bool works_in_ = false;  // something after the mixing
  bool kneaded_ = false;
  bool topping_ = false;
  bool baked_ = false;
  double extra_mixing_ = 0.0;
  std::size_t proves_ = 0;
  std::optional<std::size_t> last_prove_;
  std::size_t oven_task_ = 0;
  std::vector<std::shared_ptr<const Trace>> growth_;  // of each prove
  std::vector<double> heat_;
  std::vector<std::size_t> apart_;         // the last task of each load, while they are apart
  std::vector<std::size_t> proved_loads_;  // the prove of each load
  std::vector<std::size_t> baked_loads_;
  Handling finishing_;
  bool finish_hot_ = false;
  double cool_stated_ = 0.0;
};

}  // namespace maslin
