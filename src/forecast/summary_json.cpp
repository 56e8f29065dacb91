#include <cmath>

#include "dough/temperature.h"
#include "forecast/citations.h"
#include "forecast/summary.h"
#include "properties/water.h"
#include "recipe/json.h"

namespace maslin {
namespace {

Json band_json(const Band& band) {
  return {{"p10", rounded(band.p10)}, {"p50", rounded(band.p50)}, {"p90", rounded(band.p90)}};
}

Json shares_json(const Shares& shares) {
  Json out = Json::object();
  for (const auto& [name, share] : shares) {
    out[name] = rounded(share);
  }
  return out;
}

Json trace_json(const BandTrace& trace, const char* name) {
  Json minutes = Json::array();
  Json p10 = Json::array();
  Json p50 = Json::array();
  Json p90 = Json::array();
  for (std::size_t i = 0; i < trace.bands.size(); ++i) {
    minutes.push_back(rounded(static_cast<double>(i) * trace.step_minutes));
    p10.push_back(rounded(trace.bands[i].p10));
    p50.push_back(rounded(trace.bands[i].p50));
    p90.push_back(rounded(trace.bands[i].p90));
  }
  Json out{{"minutes", std::move(minutes)}};
  out[name] = {{"p10", std::move(p10)}, {"p50", std::move(p50)}, {"p90", std::move(p90)}};
  return out;
}

Json hold_back_json(const HoldBack& hold) {
  Json steps = Json::array();
  for (const HoldBackStep& step : hold.steps) {
    steps.push_back({{"added_grams", rounded(step.added_grams)}, {"do", step.what_to_do}});
  }
  return {{"of", hold.what == HeldBack::flour ? "flour" : "liquid"},
          {"wanted", std::string(feel_name(hold.wanted))},
          {"as_written_grams", rounded(hold.as_written_g)},
          {"at_first_grams", rounded(hold.at_first_g)},
          {"keep_by_grams", rounded(hold.keep_by_g)},
          {"likely_grams", rounded(hold.likely_g)},
          {"chance_all_used", rounded(hold.chance_all_used)},
          {"chance_not_enough", rounded(hold.chance_not_enough)},
          {"steps", std::move(steps)}};
}

Json dough_json(const DoughSummary& dough) {
  Json bakers = Json::object();
  for (const auto& [id, band] : dough.bakers_pct) {
    bakers[id] = band_json(band);
  }
  Json out{{"total_grams", band_json(dough.total_grams)},
           {"flour_grams", band_json(dough.flour_grams)},
           {"baker_pct", std::move(bakers)},
           {"water_pct_flour", band_json(dough.water_pct_flour)},
           {"effective_hydration", band_json(dough.effective_hydration)},
           {"absorption_pct_flour", band_json(dough.absorption_pct)},
           {"feel", dough.feel.empty() ? "" : dough.feel.front().first},
           {"feel_words", dough.feel_words},
           {"feel_score", band_json(dough.feel_score)},
           {"feel_probability", shares_json(dough.feel)}};
  out["hold_back_grams"] = dough.hold_back ? rounded(dough.hold_back->keep_by_g) : Json(0.0);
  if (dough.hold_back) {
    out["hold_back"] = hold_back_json(*dough.hold_back);
  }
  if (dough.hold_back_liquid) {
    out["hold_back_liquid"] = hold_back_json(*dough.hold_back_liquid);
  }
  out["sugar_pct_flour"] = band_json(dough.sugar_pct_flour);
  out["fat_pct_flour"] = band_json(dough.fat_pct_flour);
  out["salt_pct_flour"] = band_json(dough.salt_pct_flour);
  out["egg_pct_flour"] = band_json(dough.egg_pct_flour);
  out["instant_yeast_pct_flour"] = band_json(dough.yeast_pct_flour);
  out["water_activity"] = band_json(dough.water_activity);
  out["ph"] = band_json(dough.ph);
  out["celsius"] = band_json(dough.celsius);
  if (dough.liquid) {
    out["liquid_warmth"] = {{"for_dough_celsius", k_wanted_dough_celsius},
                            {"celsius", band_json(dough.liquid->celsius)},
                            {"ice_grams", band_json(dough.liquid->ice_grams)}};
  }
  out["volume_ml"] = band_json(dough.volume_ml);
  return out;
}

Json prove_json(const ProveSummary& prove) {
  Json out{{"name", prove.name},
           {"minutes_to_target", band_json(prove.minutes)},
           {"target", prove.target},
           {"target_volume_ratio", rounded(prove.target_ratio)},
           {"chance_reached", rounded(prove.chance_reached)},
           {"celsius", band_json(prove.celsius)}};
  out["stated_minutes"] = range_json(prove.stated_minutes);
  if (prove.ratio_at_stated) {
    out["volume_ratio_at_stated"] = band_json(*prove.ratio_at_stated);
  }
  if (prove.frost != Frost::none) {
    out["frost"] = prove.frost == Frost::freezes ? "freezes" : "thaws";
  }
  if (prove.thawed_minutes) {
    out["thawed_minutes"] = band_json(*prove.thawed_minutes);
  }
  out["band"] = trace_json(prove.volume_ratio, "volume_ratio");
  out["dough_band"] = trace_json(prove.dough_celsius, "celsius");
  return out;
}

Json preferment_json(const PrefermentSummary& one) {
  return {{"name", one.name},
          {"stands_minutes", rounded(one.stands_minutes)},
          {"ripe_volume_ratio", rounded(one.ripe_ratio)},
          {"ripe_minutes", band_json(one.ripe_minutes)},
          {"volume_ratio_at_end", band_json(one.ratio_at_end)},
          {"celsius", band_json(one.celsius)},
          {"ph", band_json(one.ph)},
          {"acid_mmol_per_100g_flour", band_json(one.acid_mmol_per_100g_flour)},
          {"sugar_spent_pct", band_json(one.sugar_spent_pct)},
          {"band", trace_json(one.volume_ratio, "volume_ratio")}};
}

Json moment_json(const BakeMomentSummary& moment) {
  return {{"core_celsius", band_json(moment.core_celsius)},
          {"surface_celsius", band_json(moment.surface_celsius)},
          {"weight_loss_pct", band_json(moment.weight_loss_pct)},
          {"lightness", band_json(moment.lightness)},
          {"crust_mm", band_json(moment.crust_mm)},
          {"crust", moment.crust.empty() ? "" : moment.crust.front().first},
          {"crust_probability", shares_json(moment.crust)}};
}

/// Cuts through one piece, a row for each of `minutes`; from the base to the open surface.
Json section_json(const BakeSummary& bake) {
  Json out{{"minutes", Json::array()},
           {"depth_mm", Json::array()},
           {"temperature_c", Json::array()},
           {"moisture", Json::array()},
           {"lightness", Json::array()}};
  for (std::size_t i = 0; i < bake.cuts.size(); ++i) {
    const BakeProfile& cut = bake.cuts[i];
    Json depths = Json::array();
    Json heats = Json::array();
    Json waters = Json::array();
    Json colours = Json::array();
    for (std::size_t j = 0; j < cut.depth_mm.size(); ++j) {
      depths.push_back(std::round(cut.depth_mm[j] * 100.0) / 100.0);
      heats.push_back(std::round((cut.temperature_k[j] - k_zero_celsius_k) * 10.0) / 10.0);
      waters.push_back(std::round(cut.water[j] * 1000.0) / 1000.0);
    }
    for (const double lightness : cut.lightness) {
      colours.push_back(std::round(lightness * 10.0) / 10.0);
    }
    if (cut.filling_to > cut.filling_from) {
      out["filling"] = {cut.filling_from, cut.filling_to};
    }
    out["minutes"].push_back(std::round(bake.cut_minutes[i] * 10.0) / 10.0);
    out["depth_mm"].push_back(std::move(depths));
    out["temperature_c"].push_back(std::move(heats));
    out["moisture"].push_back(std::move(waters));
    out["lightness"].push_back(std::move(colours));
  }
  return out;
}

Json bake_json(const BakeSummary& bake) {
  Json out{{"minutes_to_done", band_json(bake.minutes)}};
  out.update(moment_json(bake.done));
  out["pieces"] = rounded(bake.pieces);
  out["shape"] = bake.shape;
  out["setting_celsius"] = rounded(bake.setting_celsius);
  if (bake.stated && bake.stated_minutes) {
    Json stated = moment_json(*bake.stated);
    stated["minutes"] = rounded(*bake.stated_minutes);
    out["at_stated_time"] = std::move(stated);
  }
  out["band"] = trace_json(bake.core_celsius, "core_celsius");
  out["surface_band"] = trace_json(bake.surface_celsius, "surface_celsius");
  if (!bake.cuts.empty()) {
    out["section"] = section_json(bake);
  }
  return out;
}

Json finish_json(const FinishSummary& finish) {
  Json out{{"what", finish.what}, {"part", finish.part}};
  if (!finish.term.empty()) {
    out["term"] = finish.term.front().first;
    out["term_probability"] = shares_json(finish.term);
  }
  if (!finish.term_on_warm_piece.empty()) {
    out["term_on_warm_piece"] = finish.term_on_warm_piece.front().first;
  }
  for (const auto& [name, band] : finish.figures) {
    if (name.rfind("chance_", 0) == 0) {
      out[name] = rounded(band.p50);
    } else {
      out[name] = band_json(band);
    }
  }
  return out;
}

Json cites_json() {
  Json out = Json::array();
  for (const Citation& one : citations()) {
    Json checks = Json::array();
    for (const ChecksHeld& held : one.checks) {
      checks.push_back({{"subject", held.subject}, {"figures", held.figures}, {"met", held.met}});
    }
    out.push_back({{"figure", one.figure},
                   {"model", one.model},
                   {"document", one.document},
                   {"checks", std::move(checks)}});
  }
  return out;
}

Json seen_json(const SeenFit& fit) {
  Json out{{"kind", std::string(observation_kind_name(fit.observation.kind))},
           {"text", fit.observation.text},
           {"used", fit.used}};
  if (fit.observation.at_minutes) {
    out["at_minutes"] = rounded(*fit.observation.at_minutes);
  }
  if (!fit.used) {
    out["why_not"] = fit.why_not;
    return out;
  }
  out["expected"] = band_json(fit.expected);
  out["misread"] = rounded(fit.misread);
  if (!fit.observation.question.empty()) {
    out["question"] = fit.observation.question;
  }
  return out;
}

Json what_if_json(const RiseWhatIf& one) {
  Json out{{"group", std::string(what_if_group_name(one.group))},
           {"what", one.what},
           {"rise_minutes", band_json(one.minutes)},
           {"chance_reached", rounded(one.chance_reached)},
           {"yeast_grams", rounded(one.yeast_grams)}};
  if (one.room_celsius) {
    out["room_celsius"] = rounded(*one.room_celsius);
    out["same_time_yeast_grams"] =
        one.same_time_yeast_grams ? rounded(*one.same_time_yeast_grams) : Json(nullptr);
  }
  if (one.prove_celsius) {
    out["prove_celsius"] = rounded(*one.prove_celsius);
  }
  return out;
}

Json what_ifs_json(const RiseWhatIfs& what_ifs) {
  if (!what_ifs.problem.empty()) {
    return {{"problem", what_ifs.problem}, {"others", Json::array()}};
  }
  Json out{{"as_it_is", what_if_json(what_ifs.as_it_is)}, {"others", Json::array()}};
  for (const RiseWhatIf& one : what_ifs.others) {
    out["others"].push_back(what_if_json(one));
  }
  return out;
}

Json bake_what_if_json(const BakeWhatIf& one) {
  Json out{{"group", std::string(bake_what_if_group_name(one.group))}, {"what", one.what}};
  if (!one.problem.empty()) {
    out["problem"] = one.problem;
    return out;
  }
  out["minutes"] = rounded(one.minutes);
  out["core_celsius"] = rounded(one.core_celsius);
  out["crust"] = std::string(crust_name(crust_of(one.lightness)));
  out["weight_loss_pct"] = rounded(one.weight_loss_pct);
  return out;
}

Json bake_what_ifs_json(const BakeWhatIfs& what_ifs) {
  Json out{{"others", Json::array()}};
  if (!what_ifs.problem.empty()) {
    out["problem"] = what_ifs.problem;
    return out;
  }
  out["as_it_is"] = bake_what_if_json(what_ifs.as_it_is);
  for (const BakeWhatIf& one : what_ifs.others) {
    out["others"].push_back(bake_what_if_json(one));
  }
  if (what_ifs.for_golden) {
    const BakeWhatIfs::Setting& setting = *what_ifs.for_golden;
    out["for_golden"] = setting.problem.empty() ? Json{{"celsius", rounded(setting.celsius)},
                                                       {"minutes", rounded(setting.minutes)}}
                                                : Json{{"problem", setting.problem}};
  }
  if (what_ifs.last_minute_before_dry) {
    out["last_minute_before_dry"] = rounded(*what_ifs.last_minute_before_dry);
  }
  return out;
}

}  // namespace

std::string summary_to_json(const ForecastSummary& summary) {
  Json out{{"title", summary.title}, {"draws", summary.draws}, {"seed", summary.seed}};
  if (summary.dough) {
    out["dough"] = dough_json(*summary.dough);
  }
  if (summary.counted_from) {
    out["counted_from"] = hour_of_day_text(*summary.counted_from);
  }
  for (const PrefermentSummary& one : summary.preferments) {
    out["preferments"].push_back(preferment_json(one));
  }
  out["proves"] = Json::array();
  for (const ProveSummary& prove : summary.proves) {
    out["proves"].push_back(prove_json(prove));
  }
  out["bake"] = summary.bake ? bake_json(*summary.bake) : Json(nullptr);
  out["finish"] = Json::array();
  for (const FinishSummary& one : summary.finish) {
    out["finish"].push_back(finish_json(one));
  }
  out["keeping"] = Json::array();
  for (const FinishSummary& one : summary.keeping) {
    out["keeping"].push_back(finish_json(one));
  }
  out["problems"] = summary.problems;
  out["cautions"] = Json::array();
  for (const Caution& caution : summary.cautions) {
    out["cautions"].push_back(
        {{"text", caution.text}, {"about", caution.about}, {"source", caution.source}});
  }
  out["narrow_by"] = Json::array();
  for (const NarrowBy& one : summary.narrow_by) {
    out["narrow_by"].push_back({{"measure", one.measure},
                                {"narrows", one.narrows},
                                {"unit", one.unit},
                                {"from", rounded(one.from)},
                                {"to", rounded(one.to)}});
  }
  out["cites"] = cites_json();
  out["doubts"] = Json::array();
  for (const Doubt& doubt : summary.doubts) {
    out["doubts"].push_back({{"text", doubt.text}, {"why", doubt.why}});
  }
  if (!summary.seen.empty()) {
    out["seen"] = Json::array();
    for (const SeenFit& fit : summary.seen) {
      out["seen"].push_back(seen_json(fit));
    }
    out["effective_draws"] = rounded(summary.effective_draws);
  }
  if (summary.what_if) {
    out["what_if"] = what_ifs_json(*summary.what_if);
  }
  if (summary.bake_what_if) {
    out["bake_what_if"] = bake_what_ifs_json(*summary.bake_what_if);
  }
  return json_text(out);
}

}  // namespace maslin
