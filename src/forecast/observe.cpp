#include "forecast/observe.h"

#include <algorithm>
#include <cmath>

#include "forecast/likelihood.h"

namespace maslin {
namespace {

/// The sightings of one bake.
struct Sightings {
  std::vector<Sighting> all;
  std::vector<std::size_t> observation;  // of each
};

Sightings sightings_of(const ForecastSetup& setup, const Ensemble& ensemble,
                       const std::vector<SightingError>& errors,
                       std::span<const Observation> seen) {
  Sightings out;
  for (std::size_t i = 0; i < seen.size(); ++i) {
    if (auto one = sighting_of(setup, ensemble, errors, seen[i], seen)) {
      out.all.push_back(std::move(*one));
      out.observation.push_back(i);
    }
  }
  return out;
}

/// One run of the physics beside what was seen.
struct Looked {
  Sightings sightings;
  std::vector<double> log_likelihood;  // one per draw
  std::vector<double> weight;          // with what was seen
  double effective = 0.0;
};

Looked look(const ForecastSetup& setup, const ForecastRun& run,
            const std::vector<SightingError>& errors, std::span<const Observation> seen,
            std::vector<Anywhere>& misread) {
  Looked out;
  out.sightings = sightings_of(setup, run.ensemble, errors, seen);
  if (misread.empty()) {
    for (const Sighting& one : out.sightings.all) {
      misread.push_back(anywhere(one, run.ensemble.weight));
    }
  }
  out.log_likelihood.assign(run.ensemble.draws(), 0.0);
  for (std::size_t s = 0; s < out.sightings.all.size(); ++s) {
    const std::vector<double> of_one = log_likelihoods(out.sightings.all[s], misread[s]);
    for (std::size_t i = 0; i < out.log_likelihood.size(); ++i) {
      out.log_likelihood[i] += of_one[i];
    }
  }
  out.weight = weighed(run.ensemble.weight, out.log_likelihood, 1.0);
  out.effective = effective_draws(out.weight);
  return out;
}

Band in_unit(const Sighting& one, const std::vector<double>& weight) {
  const Band band = band_of(one.expected, weight);
  return one.logarithm ? Band{exp_same(band.p10), exp_same(band.p50), exp_same(band.p90)} : band;
}

double chance_misread(const Sighting& one, const Anywhere& misread,
                      const std::vector<double>& weight) {
  const double wrong = one.misread * chance_of(one, misread.centre, misread.sd);
  double out = 0.0;
  for (std::size_t i = 0; i < weight.size(); ++i) {
    const double right = (1.0 - one.misread) * chance_of(one, one.expected[i], one.sd) *
                         (one.pace.empty() ? 1.0 : one.pace[i]);
    out += weight[i] * (right + wrong > 0 ? wrong / (right + wrong) : 1.0);
  }
  return out;
}

std::string reason_for_silence(const ForecastSetup& setup, const Observation& one) {
  if (one.kind == ObservationKind::score) {
    return "A score is kept and compared between trials; no model foretells taste.";
  }
  const PlannedBake::Way way = setup.schedule.bake.way;
  if (is_of_bake(one.kind) && way != PlannedBake::Way::oven && way != PlannedBake::Way::steam) {
    return "Nothing is baked or steamed, and only that is computed.";
  }
  if (one.kind == ObservationKind::volume_ratio && !one.at_minutes) {
    return "It does not say after how many minutes; write \"doubled at 48 min\".";
  }
  if (one.kind == ObservationKind::glaze) {
    return "The recipe has no glaze of sugar and a liquid.";
  }
  return "The recipe has no such prove or bake.";
}

}  // namespace

Weighing observe(ForecastSetup& setup, ForecastRun& run, std::span<const Observation> seen,
                 const RunForecast& again) {
  constexpr int k_most_aims = 3;
  constexpr double k_enough_share = 0.2;  // of the draws
  constexpr double k_fewest = 16.0;       // under these, ranges mean nothing
  const std::vector<SightingError> errors = sighting_errors();
  std::vector<Anywhere> misread;
  Weighing out;
  Looked now = look(setup, run, errors, seen, misread);
  for (const Observation& one : seen) {
    out.fits.push_back({one, false, reason_for_silence(setup, one), {}, 0.0});
  }
  out.effective_draws = now.effective;
  out.before = run.ensemble.weight;
  if (now.sightings.all.empty()) {
    return out;
  }
  for (std::size_t s = 0; s < now.sightings.all.size(); ++s) {
    SeenFit& fit = out.fits[now.sightings.observation[s]];
    fit.used = true;
    fit.why_not.clear();
    fit.expected = in_unit(now.sightings.all[s], run.ensemble.weight);
  }
  const auto scores = [&] { return scores_in(run.ensemble, setup.scores, setup.unknowns); };
  out.inkling = inkling_of(now.sightings.all, scores(), run.ensemble.weight);
  const double enough = k_enough_share * static_cast<double>(run.ensemble.draws());
  for (int aims = 0; aims < k_most_aims && now.effective < enough; ++aims) {
    if (aims > 0) {
      // What the weights say, flattened until enough draws say it.
      const double directions = static_cast<double>(out.inkling.directions.size());
      const double power =
          power_for(run.ensemble.weight, now.log_likelihood, 10.0 * (directions + 1.0));
      out.inkling = moments_along(out.inkling, scores(),
                                  weighed(run.ensemble.weight, now.log_likelihood, power));
    }
    ForecastSetup aimed = setup;
    aimed.aim = aim_at(out.inkling, setup.scores.size());
    ForecastRun next = again(aimed);
    if (next.ensemble.draws() != run.ensemble.draws()) {
      break;  // stopped
    }
    Looked then = look(aimed, next, errors, seen, misread);
    if (then.sightings.all.size() != now.sightings.all.size()) {
      break;
    }
    if (then.effective > now.effective) {
      setup.aim = std::move(aimed.aim);
      run = std::move(next);
      now = std::move(then);
    }
  }
  out.before = run.ensemble.weight;
  out.power = power_for(run.ensemble.weight, now.log_likelihood, k_fewest);
  run.ensemble.weight = weighed(run.ensemble.weight, now.log_likelihood, out.power);
  out.effective_draws = effective_draws(run.ensemble.weight);
  out.inkling = moments_along(out.inkling, scores(), run.ensemble.weight);
  for (std::size_t s = 0; s < now.sightings.all.size(); ++s) {
    out.fits[now.sightings.observation[s]].misread =
        chance_misread(now.sightings.all[s], misread[s], run.ensemble.weight);
  }
  return out;
}

}  // namespace maslin
