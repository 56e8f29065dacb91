// What a clause says was measured: masses, temperatures, volumes, heights and scores.
#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "quantity/number_text.h"
#include "quantity/units.h"
#include "recipe/note_clause.h"

namespace maslin {
namespace {

bool is_temperature(const NoteItem& item) {
  return is_of(item, NoteDimension::celsius) || is_of(item, NoteDimension::fahrenheit) ||
         is_of(item, NoteDimension::degrees);
}

bool is_subject(NoteRole role) {
  return role == NoteRole::core || role == NoteRole::dough || role == NoteRole::room ||
         role == NoteRole::other;
}

bool may_be_time(const NoteItem& item) {
  return is_of(item, NoteDimension::minutes) || is_of(item, NoteDimension::bare);
}

/// The figure at the front of a quantity's words.
double figure_of(const std::string& text) {
  return number_from(text.substr(0, text.find_first_not_of("0123456789."))).value_or(0.0);
}

}  // namespace

void NoteClause::take_flour_left() {
  if (!has(NoteRole::flour_left)) {
    return;
  }
  for (At at = 0; at < items_.size(); ++at) {
    if (is_of(items_[at], NoteDimension::grams)) {
      add(ObservationKind::flour_left_grams, items_[at].value);
      spend(at);
      return;
    }
  }
}

void NoteClause::take_masses(NoteContext& context) {
  if (const auto ends = take_from_to(NoteDimension::grams)) {
    add_mass(context, ends->low, ObservationKind::mass_before_grams);
    add_mass(context, ends->high, ObservationKind::mass_after_grams);
  }
  for (At at = 0; at < items_.size(); ++at) {
    take_mass_at(context, at);
  }
}

/// "980 g before", "went in at 980 g"; a bare number needs its word behind it.
void NoteClause::take_mass_at(NoteContext& context, At at) {
  constexpr double k_least_bare_g = 50.0;
  const bool bare = is_of(items_[at], NoteDimension::bare) && items_[at].value >= k_least_bare_g;
  if (!is_of(items_[at], NoteDimension::grams) && !bare) {
    return;
  }
  const At behind = telling(at, 1);
  At ahead = telling(at, -1);
  ahead = role_at(ahead, NoteRole::at) ? telling(ahead, -1) : ahead;
  // "after" may lead a time instead: "870 g after 40 minutes".
  const At next = telling(behind, 1);
  const bool timed = next < items_.size() && may_be_time(items_[next]);
  for (const At beside : {behind, bare ? items_.size() : ahead}) {
    const bool after = role_at(beside, NoteRole::after) && !(beside == behind && timed) &&
                       (!bare || context.mass_before);
    if (role_at(beside, NoteRole::before)) {
      add_mass(context, at, ObservationKind::mass_before_grams);
    } else if (after || role_at(beside, NoteRole::after_bake)) {
      add_mass(context, at, ObservationKind::mass_after_grams);
    } else {
      continue;
    }
    spend(beside);
    return;
  }
}

void NoteClause::add_mass(NoteContext& context, At at, ObservationKind kind) {
  add(kind, items_[at].value);
  context.mass_before = context.mass_before || kind == ObservationKind::mass_before_grams;
  spend(at);
}

std::optional<NoteClause::FromTo> NoteClause::take_from_to(NoteDimension dimension) {
  const At from = first(NoteRole::from);
  const At low = telling(from, 1);
  const At to = telling(low, 1);
  const At high = telling(to, 1);
  if (from >= items_.size() || !role_at(to, NoteRole::to) || high >= items_.size() ||
      !is_of(items_[high], dimension) ||
      !(is_of(items_[low], dimension) || is_of(items_[low], NoteDimension::bare))) {
    return std::nullopt;
  }
  if (items_[low].dimension == NoteDimension::bare) {
    // "from 4 to 9 cm": the first is in the unit of the second, which is already in SI.
    const double figure = figure_of(text_of(high));
    items_[low].value *= figure > 0.0 ? items_[high].value / figure : 1.0;
  }
  spend(from);
  spend(to);
  return FromTo{low, high};
}

/// "crumb 7/9", "7 out of 9 for the crumb".
void NoteClause::take_scores() {
  At begin = 0;
  for (At at = 0; at < items_.size(); ++at) {
    At to = at;
    double out_of = items_[at].second;
    if (is_of(items_[at], NoteDimension::bare) && role_at(at + 1, NoteRole::out_of) &&
        at + 2 < items_.size() && is_of(items_[at + 2], NoteDimension::bare)) {
      to = at + 2;
      out_of = items_[to].value;
    } else if (!is_of(items_[at], NoteDimension::pair)) {
      continue;
    }
    add_score(begin, at, to, out_of);
    at = to;
    begin = to + 1;
  }
}

void NoteClause::add_score(At begin, At from, At to, double out_of) {
  constexpr double k_fewest = 3.0;
  constexpr double k_most = 100.0;
  if (out_of < k_fewest || out_of > k_most) {
    return;
  }
  const std::string before = subject_between(begin, from);
  const std::string after = before.empty() ? subject_between(to + 1, items_.size()) : "";
  Observation& one = add(ObservationKind::score, items_[from].value);
  one.out_of = out_of;
  one.word = !before.empty() ? before : !after.empty() ? after : "overall";
  for (At at = begin; at <= to; ++at) {
    spend(at);
  }
}

/// The subject of a score: its words without articles and the like.
std::string NoteClause::subject_between(At from, At to) const {
  constexpr std::array<std::string_view, 12> k_filler{"the", "a",  "an", "for",  "is",   "was",
                                                      "i",   "id", "it", "give", "gave", "of"};
  std::string out;
  for (At at = from; at < to; ++at) {
    const NoteItem& one = as_were_[at];
    const bool filler = std::find(k_filler.begin(), k_filler.end(), one.word) != k_filler.end() ||
                        one.role == NoteRole::quantity || one.role == NoteRole::at;
    if (!filler) {
      out += (out.empty() ? "" : " ") + text_of(at);
    }
  }
  return out;
}

/// A colour is the crust's unless the clause speaks of something else: "crumb #f3e3c0".
void NoteClause::take_colour() {
  const bool of_crust = std::none_of(items_.begin(), items_.end(), [](const NoteItem& one) {
    return is_subject(one.role) || one.role == NoteRole::not_so;
  });
  for (At at = 0; at < items_.size() && of_crust && !of_prove_; ++at) {
    if (is_of(items_[at], NoteDimension::lightness)) {
      add(ObservationKind::crust_lightness, items_[at].value);
      spend(at);
    }
  }
}

/// Each temperature goes to the subject before it, or else to the one behind it.
void NoteClause::take_temperatures() {
  At subject = items_.size();
  for (At at = 0; at < items_.size(); ++at) {
    if (is_subject(items_[at].role)) {
      subject = at;
      continue;
    }
    const bool bare =
        subject < at && is_of(items_[at], NoteDimension::bare) && is_bare_temperature(subject, at);
    if (!is_temperature(items_[at]) && !bare) {
      continue;
    }
    for (At behind = at; subject >= items_.size() && behind < items_.size(); ++behind) {
      subject = is_subject(items_[behind].role) ? behind : subject;
    }
    add_temperature(subject < items_.size() ? items_[subject].role : NoteRole::done, at);
    subject = items_.size();
  }
}

/// "core 96", "room at 19"; not "dough doubled at 48".
bool NoteClause::is_bare_temperature(At subject, At at) const {
  const bool told = has(NoteRole::ratio) || has(NoteRole::feel) || has(NoteRole::done) ||
                    has(NoteRole::crust) || has(NoteRole::rising) ||
                    std::any_of(items_.begin(), items_.end(), [](const NoteItem& one) {
                      return is_of(one, NoteDimension::factor);
                    });
  const At between = telling(subject, 1);
  const bool at_it = role_at(between, NoteRole::at) && !told && telling(between, 1) == at;
  return (between == at || at_it) && items_[subject].role != NoteRole::other;
}

void NoteClause::add_temperature(NoteRole subject, At at) {
  const bool in_fahrenheit_scale = is_of(items_[at], NoteDimension::fahrenheit);
  const double written = items_[at].value;
  const double celsius =
      in_fahrenheit_scale ? std::round(100.0 * in_celsius(fahrenheit(written))) / 100.0 : written;
  const UsualRange core = words_.usual("core_celsius");
  const bool done_by_core = subject == NoteRole::done && has(NoteRole::done) &&
                            celsius >= core.low && celsius <= core.high;
  spend(at);
  if (subject == NoteRole::core || done_by_core) {
    add(ObservationKind::core_celsius, celsius);
  } else if (subject == NoteRole::dough) {
    add(ObservationKind::dough_celsius, celsius);
  } else if (subject == NoteRole::room) {
    add(ObservationKind::room_celsius, celsius);
  } else {
    return;
  }
  ask_temperature(out_.back(), in_fahrenheit_scale ? Scale::fahrenheit : Scale::celsius, words_);
}

void NoteClause::take_ratios() {
  if (const auto ends = take_from_to(NoteDimension::millilitres)) {
    add_growth(ends->low, ends->high);
  }
  if (has(NoteRole::rising)) {
    if (const auto ends = take_from_to(NoteDimension::millimetres)) {
      add_growth(ends->low, ends->high);
    }
  }
  for (At at = 0; at < items_.size(); ++at) {
    if (is_of(items_[at], NoteDimension::factor) || role_at(at, NoteRole::ratio)) {
      add_ratio(at, items_[at].value);
    } else if (is_of(items_[at], NoteDimension::percent) && has(NoteRole::rising)) {
      add_ratio(at, 1.0 + items_[at].value / 100.0);
    }
  }
}

/// In a straight-sided jar the height is as good as the volume.
void NoteClause::add_growth(At low, At high) {
  if (items_[low].value > 0.0) {
    add(ObservationKind::volume_ratio, items_[high].value / items_[low].value);
  }
  spend(low);
  spend(high);
}

void NoteClause::add_ratio(At at, double value) {
  Observation& one = add(ObservationKind::volume_ratio, value);
  // Almost doubled is 1.8 (data/until_words.tsv, common practice).
  constexpr double k_nearly = 0.9;
  for (At before = 0; before < at; ++before) {
    if (role_at(before, NoteRole::nearly)) {
      one.value *= k_nearly;
    } else if (role_at(before, NoteRole::not_so) || role_at(before, NoteRole::below)) {
      one.bound = Bound::below;
    } else if (role_at(before, NoteRole::above)) {
      one.bound = Bound::above;
    } else {
      continue;
    }
    spend(before);
  }
  spend(at);
}

void NoteClause::take_height() {
  if (!has(NoteRole::height) && !has(NoteRole::rising)) {
    return;
  }
  for (At at = 0; at < items_.size(); ++at) {
    if (is_of(items_[at], NoteDimension::millimetres)) {
      add(ObservationKind::height, items_[at].value);
      spend(at);
      return;
    }
  }
}

}  // namespace maslin
