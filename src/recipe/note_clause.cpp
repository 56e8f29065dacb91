#include "recipe/note_clause.h"

#include <algorithm>
#include <utility>

namespace maslin {

bool is_of(const NoteItem& item, NoteDimension dimension) {
  return item.role == NoteRole::quantity && item.dimension == dimension;
}

std::string trimmed(std::string_view text) {
  constexpr std::string_view k_space = " \t\r\n";
  const std::size_t from = text.find_first_not_of(k_space);
  const std::size_t to = text.find_last_not_of(k_space);
  return from == std::string_view::npos ? "" : std::string(text.substr(from, to - from + 1));
}

NoteClause::NoteClause(std::string_view note, std::vector<NoteItem> items, const NoteWords& words)
    : note_(note), items_(std::move(items)), as_were_(items_), words_(words) {
  text_ = trimmed(note.substr(items_.front().begin, items_.back().end - items_.front().begin));
}

std::vector<Observation> NoteClause::read(NoteContext& context) {
  take_prove(context);
  take_glaze();
  take_flour_left();
  take_masses(context);
  take_scores();
  take_colour();
  take_temperatures();
  take_ratios();
  take_time(context);
  take_height();
  take_done(context);
  take_classes();
  for (Observation& one : out_) {
    finish(one, context);
  }
  return std::move(out_);
}

bool NoteClause::role_at(At at, NoteRole role) const {
  return at < items_.size() && items_[at].role == role;
}

bool NoteClause::has(NoteRole role) const {
  return first(role) < items_.size();
}

NoteClause::At NoteClause::first(NoteRole role) const {
  return static_cast<At>(std::find_if(items_.begin(), items_.end(),
                                      [role](const NoteItem& one) { return one.role == role; }) -
                         items_.begin());
}

NoteClause::At NoteClause::telling(At from, int by) const {
  At at = from + static_cast<At>(by);
  while (at < items_.size() && items_[at].role == NoteRole::word) {
    at += static_cast<At>(by);  // before the first it wraps round to past the last
  }
  return std::min(at, items_.size());
}

void NoteClause::spend(At at) {
  items_[at].role = NoteRole::word;
}

std::string NoteClause::text_of(At at) const {
  return trimmed(note_.substr(items_[at].begin, items_[at].end - items_[at].begin));
}

Observation& NoteClause::add(ObservationKind kind, double value) {
  Observation one;
  one.kind = kind;
  one.value = value;
  one.text = text_;
  out_.push_back(std::move(one));
  return out_.back();
}

void NoteClause::take_prove(NoteContext& context) {
  for (At at = 0; at < items_.size(); ++at) {
    if (role_at(at, NoteRole::prove)) {
      of_prove_ = true;
      prove_ = items_[at].word.empty() ? prove_ : items_[at].word;
      spend(at);
    }
  }
  if (!prove_.empty()) {
    context.prove = prove_;
  }
}

/// When it was seen: minutes, or a bare number after "at".
void NoteClause::take_time(NoteContext& context) {
  const bool only_when = says_only_when();
  for (At at = 0; at < items_.size() && !time_; ++at) {
    if (is_of(items_[at], NoteDimension::minutes)) {
      time_ = items_[at].value;
      spend(at);
    } else if (is_of(items_[at], NoteDimension::clock)) {
      clock_ = items_[at].value;
      spend(at);
    }
  }
  const bool fact = !out_.empty() || has(NoteRole::done) || has(NoteRole::raw) ||
                    has(NoteRole::crust) || has(NoteRole::feel);
  for (At at = 1; at < items_.size() && !time_ && !clock_ && fact; ++at) {
    const bool led = role_at(at - 1, NoteRole::at) || role_at(at - 1, NoteRole::after);
    if (is_of(items_[at], NoteDimension::bare) && led) {
      time_ = items_[at].value;
      spend(at);
    }
  }
  if (time_ && (fact || only_when)) {
    context.at_minutes = time_;
  }
}

/// "48 min, doubled" says when in a clause of its own; "10 minutes too long" does not.
bool NoteClause::says_only_when() const {
  return std::all_of(as_were_.begin(), as_were_.end(),
                     [](const NoteItem& one) { return one.role != NoteRole::word; });
}

void NoteClause::take_done(const NoteContext& context) {
  const At raw = first(NoteRole::raw);
  const At done = first(NoteRole::done);
  const At at = std::min(raw, done);
  // "ready to bake", "prove done at 50": that is not the oven.
  if (at >= items_.size() || of_prove_ || role_at(at + 1, NoteRole::to)) {
    return;
  }
  const std::optional<double> minutes = time_ ? time_ : clock_ ? std::nullopt : context.at_minutes;
  // "out" without a time may be out of anything.
  if (!minutes && !clock_ && items_[at].word == "timed") {
    return;
  }
  const bool not_yet = raw < items_.size() || first(NoteRole::not_so) < done;
  Observation& one = add(ObservationKind::minutes_done, minutes.value_or(0.0));
  one.at_minutes = minutes;
  one.bound = not_yet ? Bound::above : Bound::is;
  spend(at);
}

/// "The glaze held a line", "100 g with 15 g just holds a line".
void NoteClause::take_glaze() {
  const At did = first(NoteRole::glaze_did);
  if (did >= items_.size() || has(NoteRole::not_so)) {
    return;
  }
  const bool about_glaze = std::any_of(items_.begin(), items_.end(), [](const NoteItem& one) {
    return one.role == NoteRole::other && one.word == "glaze";
  });
  std::vector<At> grams;
  for (At at = 0; at < items_.size(); ++at) {
    if (is_of(items_[at], NoteDimension::grams) || is_of(items_[at], NoteDimension::millilitres)) {
      grams.push_back(at);
    }
  }
  const bool amounts = grams.size() == 2;
  if (!about_glaze && !amounts && !items_[did].word.ends_with("line")) {
    return;
  }
  double per_100_g = 0.0;
  if (amounts) {
    const auto [low, high] = std::minmax(items_[grams[0]].value, items_[grams[1]].value);
    per_100_g = high > 0.0 ? 100.0 * low / high : 0.0;
    spend(grams[0]);
    spend(grams[1]);
  }
  add(ObservationKind::glaze, per_100_g).word = items_[did].word;
  spend(did);
}

/// Feel and colour, unless they are denied or said of something else.
void NoteClause::take_classes() {
  if (has(NoteRole::not_so) || has(NoteRole::other)) {
    return;
  }
  // "Pale inside" is the crumb; "core 96, golden" and "96 in the middle and golden" are not.
  const bool of_crumb = has(NoteRole::core) && out_.empty();
  for (At at = 0; at < items_.size(); ++at) {
    const bool feel = role_at(at, NoteRole::feel);
    if (feel || (role_at(at, NoteRole::crust) && !of_crumb)) {
      add(feel ? ObservationKind::feel : ObservationKind::crust, 0.0).word = items_[at].word;
    }
  }
}

void NoteClause::finish(Observation& one, const NoteContext& context) {
  const bool of_a_moment =
      one.kind != ObservationKind::score && one.kind != ObservationKind::mass_before_grams &&
      one.kind != ObservationKind::mass_after_grams &&
      one.kind != ObservationKind::flour_left_grams && one.kind != ObservationKind::height &&
      one.kind != ObservationKind::glaze;
  const bool carries_on = of_a_moment && one.kind != ObservationKind::feel;
  if (of_a_moment && time_) {
    one.at_minutes = time_;
  } else if (carries_on && !clock_ && !one.at_minutes) {
    one.at_minutes = context.at_minutes;
  }
  if (one.kind == ObservationKind::volume_ratio || one.kind == ObservationKind::dough_celsius) {
    one.prove = prove_.empty() ? context.prove : prove_;
  }
  if (clock_ && of_a_moment && one.question.empty()) {
    ask_clock(one, *clock_);
  }
  if (one.question.empty()) {
    ask_usual(one, words_);
  }
}

}  // namespace maslin
