#include "app/keeping_report.h"

#include <algorithm>
#include <cmath>
#include <ctime>

#include "quantity/number_text.h"

namespace maslin {
namespace {

/// As many digits of an id as a person needs to name it.
std::string short_id(const std::string& id) {
  constexpr std::size_t k_digits = 10;
  return id.substr(0, k_digits);
}

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words) {
    out += (out.empty() ? "" : ", ") + word;
  }
  return out;
}

/// "1 note", "3 notes".
std::string counted(std::int64_t count, const std::string& what) {
  return std::to_string(count) + " " + what + (count == 1 ? "" : "s");
}

std::string figure(double value) {
  return number_text(value, std::fabs(value) < 20.0 ? 1 : 0);
}

std::string observations_lines(const std::vector<Observation>& observations) {
  std::string out;
  for (const Observation& one : observations) {
    out += "    = " + observation_words(one) + "\n";
    out += one.question.empty() ? "" : "    ? " + one.question + "\n";
  }
  return out;
}

std::string checklist_lines(const std::vector<ChecklistStep>& steps) {
  std::string out;
  for (const ChecklistStep& step : steps) {
    out += step_report(step);
  }
  return out;
}

std::string trial_line(const Trial& trial) {
  return "Trial " + std::to_string(trial.number) + ": " + trial.recipe +
         (trial.kitchen.empty() ? "" : " in " + trial.kitchen) + ", " +
         local_time_text(trial.started_at_ms) + ", " +
         (trial.closed_at_ms ? "closed " + local_time_text(*trial.closed_at_ms) : "open") + ", " +
         counted(trial.notes, "note") + "\n";
}

}  // namespace

std::string observation_words(const Observation& one) {
  std::string kind(observation_kind_name(one.kind));
  // The unit is said after the value.
  for (const std::string ending : {"_celsius", "_grams"}) {
    if (kind.size() > ending.size() && kind.substr(kind.size() - ending.size()) == ending) {
      kind.resize(kind.size() - ending.size());
    }
  }
  std::replace(kind.begin(), kind.end(), '_', ' ');
  std::string word = one.word;
  std::replace(word.begin(), word.end(), '_', ' ');
  const bool is_class = one.kind == ObservationKind::feel || one.kind == ObservationKind::crust;
  std::string out = one.kind == ObservationKind::score ? word : kind;
  out += one.bound == Bound::below ? ", less than" : one.bound == Bound::above ? ", more than" : "";
  out += " " + (is_class ? word : figure(one.value));
  if (one.kind == ObservationKind::score) {
    out += " of " + figure(one.out_of);
  } else if (const std::string_view unit = observation_unit(one.kind); !unit.empty()) {
    out += " " + std::string(unit);
  }
  if (one.at_minutes && one.kind != ObservationKind::minutes_done) {
    out += " at " + figure(*one.at_minutes) + " min";
  }
  if (one.step) {
    out += " (by the clock, since step " + std::to_string(*one.step) + ")";
  }
  return out;
}

std::string local_time_text(std::int64_t ms) {
  const std::time_t seconds = ms / 1000;
  std::tm parts{};
  ::localtime_r(&seconds, &parts);
  std::string out(32, '\0');
  out.resize(std::strftime(out.data(), out.size(), "%Y-%m-%d %H:%M", &parts));
  return out;
}

std::string kept_report(const KeptVersion& kept) {
  return (kept.changed ? "Kept " : "Kept before, unchanged: ") + kept.name + "@" +
         std::to_string(kept.place) + " (" + short_id(kept.document.id) + ")\n";
}

std::string history_report(const History& history) {
  std::string out = history.named.name + (history.named.tags.empty() ? "" : "  [") +
                    joined(history.named.tags) + (history.named.tags.empty() ? "\n" : "]\n");
  for (const CourseEntry& entry : history.course) {
    out += "  @" + std::to_string(entry.place) + "  " + local_time_text(entry.at_ms) + "  " +
           short_id(entry.document_id) + "  " + entry.title;
    out += entry.why.empty() ? "" : "  - " + entry.why;
    for (const std::int64_t trial : entry.trials) {
      out += "  trial " + std::to_string(trial);
    }
    out += "\n";
  }
  return out;
}

std::string search_report(const SearchResult& result) {
  std::string out;
  for (const FoundRecipe& found : result.recipes) {
    out += found.name + (found.current ? "" : "@" + std::to_string(found.place) + " (older)") +
           "  " + found.title + "\n";
  }
  for (const FoundNote& found : result.notes) {
    out += "trial " + std::to_string(found.trial) + ", " + found.recipe + ", " +
           local_time_text(found.at_ms) + ": " + found.text + "\n";
  }
  return out.empty() ? "Nothing kept has these words.\n" : out;
}

std::string named_report(const std::vector<Named>& named, DocumentKind kind) {
  std::string out;
  for (const Named& one : named) {
    out += one.name + "  (" + counted(one.versions, "version");
    out += kind == DocumentKind::recipe ? ", " + counted(one.trials, "trial") + ")" : ")";
    out += one.tags.empty() ? "\n" : "  [" + joined(one.tags) + "]\n";
  }
  return out.empty() ? "Nothing is kept yet.\n" : out;
}

std::string check_report(const std::vector<std::string>& wrong) {
  std::string out;
  for (const std::string& sentence : wrong) {
    out += sentence + "\n";
  }
  return out.empty() ? "The store is sound.\n" : out;
}

std::string everything_report(const Everything& everything, std::string_view where) {
  return counted(everything.documents, "document") + ", " + counted(everything.names, "name") +
         ", " + counted(everything.trials, "trial") + ", " + counted(everything.notes, "note") +
         " and " + counted(everything.pictures, "picture") + " " + std::string(where) + ".\n";
}

std::string started_report(const StartedTrial& started) {
  return trial_line(started.trial) + checklist_lines(started.checklist);
}

std::string note_report(const WrittenNote& written) {
  std::string out = "  " + std::to_string(written.note.number) + "  " +
                    local_time_text(written.note.at_ms) + "  " + written.note.text + "\n";
  return out + observations_lines(written.observations);
}

std::string step_report(const ChecklistStep& step) {
  std::string out = step.done_at_ms ? "  [x] " : step.begun_at_ms ? "  [>] " : "  [ ] ";
  out += std::to_string(step.step) + "  " + step.part + ": ";
  out += step.what.text.empty() ? std::string(step_kind_name(step.what.kind)) : step.what.text;
  out += step.begun_at_ms ? "  (begun " + local_time_text(*step.begun_at_ms) : "";
  out += step.done_at_ms
             ? (step.begun_at_ms ? ", done " : "  (done ") + local_time_text(*step.done_at_ms)
             : "";
  return out + (step.begun_at_ms || step.done_at_ms ? ")\n" : "\n");
}

std::string closed_report(const ClosedTrial& closed) {
  std::string out = trial_line(closed.trial) + observations_lines(closed.observations);
  for (const std::string& sentence : closed.learnt) {
    out += sentence + "\n";
  }
  return out + (closed.learning.empty() ? "" : closed.learning + "\n");
}

std::string trial_report(const TrialView& view) {
  std::string out = trial_line(view.trial) + checklist_lines(view.checklist);
  for (const Note& note : view.notes) {
    out += note_report({view.trial.number, note, observations_from_json(note.observations), {}});
    out += note.corrected ? "    (corrected by a later note)\n" : "";
    for (const std::string& picture : note.pictures) {
      out += "    picture " + short_id(picture) + "\n";
    }
  }
  for (const std::string& sentence : view.learnt) {
    out += sentence + "\n";
  }
  return out;
}

std::string trials_report(const std::vector<Trial>& trials) {
  std::string out;
  for (const Trial& trial : trials) {
    out += trial_line(trial);
  }
  return out.empty() ? "No trial was started yet.\n" : out;
}

}  // namespace maslin
