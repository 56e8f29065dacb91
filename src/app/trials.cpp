#include "app/trials.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "recipe/recipe_json.h"

namespace maslin {
namespace {

constexpr std::size_t k_longest_note = 10000;
constexpr std::size_t k_most_pictures = 12;

template <typename Value>
Result<Value> refused(std::string problem) {
  return {std::nullopt, std::move(problem)};
}

std::string no_such_trial(std::int64_t number) {
  return "There is no trial " + std::to_string(number) +
         "; `maslin trial list` shows the trials there are.";
}

std::string closed_words(std::int64_t number) {
  const std::string n = std::to_string(number);
  return "Trial " + n + " is closed; open it again with `maslin trial reopen " + n +
         "`, or start another.";
}

/// The trial, when it is there and still open; else the problem.
Result<Trial> open_trial(Database& database, std::int64_t number) {
  std::optional<Trial> trial = trial_of(database, number);
  if (!trial) {
    return refused<Trial>(no_such_trial(number));
  }
  if (trial->closed_at_ms) {
    return refused<Trial>(closed_words(number));
  }
  return {std::move(trial), ""};
}

/// Whether a kitchen learns anything of them: a score is the baker's alone.
bool teaches(const std::vector<Observation>& observations) {
  return std::any_of(observations.begin(), observations.end(),
                     [](const Observation& one) { return one.kind != ObservationKind::score; });
}

std::vector<ChecklistStep> checklist_of(Database& database, const Trial& trial) {
  const std::optional<Document> version = document_of(database, trial.version);
  return checklist_of(recipe_from_json(version ? version->body : "").recipe,
                      marks_of(database, trial.number));
}

/// Whether minutes of this observation count from the beginning of such a step.
bool counts_from(ObservationKind kind, StepKind step) {
  switch (kind) {
    case ObservationKind::volume_ratio:
      return step == StepKind::prove || step == StepKind::rest;
    case ObservationKind::minutes_done:
    case ObservationKind::core_celsius:
    case ObservationKind::crust:
    case ObservationKind::crust_lightness:
      return step == StepKind::bake || step == StepKind::steam || step == StepKind::fry;
    case ObservationKind::feel:
      return step == StepKind::mix || step == StepKind::knead;
    default:
      return false;
  }
}

/// The step that was under way at that moment and from whose beginning it counts.
const ChecklistStep* step_under_way(const std::vector<ChecklistStep>& steps, ObservationKind kind,
                                    std::int64_t at_ms) {
  const ChecklistStep* found = nullptr;
  for (const ChecklistStep& step : steps) {
    const bool under_way = step.begun_at_ms && *step.begun_at_ms <= at_ms &&
                           (!step.done_at_ms || *step.done_at_ms >= at_ms);
    if (under_way && counts_from(kind, step.what.kind) &&
        (found == nullptr || *step.begun_at_ms > *found->begun_at_ms)) {
      found = &step;
    }
  }
  return found;
}

/// Gives what was seen now the minutes since its step began; a bake that is done, nobody
/// knows when, is no observation.
void time_by_clock(std::vector<Observation>& observations, const std::vector<ChecklistStep>& steps,
                   std::int64_t at_ms) {
  constexpr double k_minute_ms = 60000.0;
  for (Observation& one : observations) {
    const ChecklistStep* step =
        one.at_minutes || !one.question.empty() ? nullptr : step_under_way(steps, one.kind, at_ms);
    if (step != nullptr) {
      one.at_minutes = static_cast<double>(at_ms - *step->begun_at_ms) / k_minute_ms;
      one.step = step->step;
      one.value = one.kind == ObservationKind::minutes_done ? *one.at_minutes : one.value;
    }
  }
  std::erase_if(observations, [](const Observation& one) {
    return one.kind == ObservationKind::minutes_done && !one.at_minutes;
  });
}

std::string note_problem(const NoteRequest& request) {
  if (request.text.find_first_not_of(" \t\r\n") == std::string::npos && request.pictures.empty()) {
    return "The note is empty; write what you saw, or add a picture.";
  }
  if (request.text.size() > k_longest_note) {
    return "The note is longer than 10 000 bytes; write it as several.";
  }
  if (request.pictures.size() > k_most_pictures) {
    return "A note takes up to 12 pictures; write another note for the rest.";
  }
  return "";
}

Result<WrittenNote> write_note_in(Transaction& change, const NoteWords& words,
                                  const NoteRequest& request) {
  Database& database = change.database();
  const std::optional<Trial> trial = trial_of(database, request.trial);
  if (const auto sent = request.sender_key.empty()
                            ? std::nullopt
                            : note_by_key(database, request.trial, request.sender_key)) {
    return {WrittenNote{request.trial, *sent, observations_from_json(sent->observations), {}}, ""};
  }
  std::string problem = trial ? note_problem(request) : no_such_trial(request.trial);
  const std::optional<Note> corrected =
      request.instead_of ? note_of(database, request.trial, *request.instead_of) : std::nullopt;
  if (problem.empty() && request.instead_of && !corrected) {
    problem = "Trial " + std::to_string(request.trial) + " has no note " +
              std::to_string(*request.instead_of) + " to correct.";
  }
  if (!problem.empty()) {
    return refused<WrittenNote>(problem);
  }
  NewNote note;
  note.trial = request.trial;
  note.at_ms = request.at_ms;
  note.text = kept_text(request.text);
  note.instead_of = request.instead_of;
  note.sender_key = kept_text(request.sender_key);
  for (const std::string& bytes : request.pictures) {
    const CleanPicture clean = clean_picture(bytes);
    if (!clean.problem.empty()) {
      return refused<WrittenNote>("The picture " + clean.problem);
    }
    note.pictures.push_back(keep_picture(change, clean));
  }
  NoteReading reading = read_note(note.text, words);
  time_by_clock(reading.observations, checklist_of(database, *trial), request.at_ms);
  if (trial->closed_at_ms &&
      (teaches(reading.observations) ||
       (corrected && teaches(observations_from_json(corrected->observations))))) {
    return refused<WrittenNote>(closed_words(request.trial));
  }
  if (request.certainty == Certainty::sure) {
    for (Observation& one : reading.observations) {
      one.question.clear();
      one.meant.reset();
      one.meant_minutes.reset();
    }
  }
  note.observations = observations_to_json(reading.observations);
  const std::int64_t number = add_note(change, note);
  return {WrittenNote{request.trial, *note_of(database, request.trial, number),
                      std::move(reading.observations), std::move(reading.unread)},
          ""};
}

Result<NewTrial> trial_of_request(Transaction& change, Store& store, const StartRequest& request) {
  NewTrial trial;
  trial.started_at_ms = request.at_ms;
  if (request.recipe) {
    KeepRequest keep;
    keep.recipe = *request.recipe;
    keep.name = request.name;
    const Result<KeptVersion> kept = keep_in_library(change, keep);
    if (!kept.value) {
      return refused<NewTrial>(kept.problem);
    }
    trial.recipe = kept.value->name_number;
    trial.version = kept.value->document.number;
  } else {
    const Result<NamedVersion> found =
        version_in_library(store, DocumentKind::recipe, request.version);
    if (!found.value) {
      return refused<NewTrial>(found.problem);
    }
    const auto name = found.value->name
                          ? found.value->name
                          : name_of_document(change.database(), found.value->document.number);
    trial.recipe = name.value_or(0);
    trial.version = found.value->document.number;
  }
  if (request.kitchen) {
    const std::string name =
        kept_text(request.kitchen->name.empty() ? request.kitchen_name : request.kitchen->name);
    const Kept kept =
        keep_kitchen(change, *request.kitchen,
                     Keep{name.empty() ? "kitchen" : name, "", std::nullopt, now_ms()});
    trial.kitchen = kept.name;
    trial.kitchen_state = kept.document.number;
  } else if (!request.kitchen_name.empty()) {
    const Result<NamedVersion> found =
        version_in_library(store, DocumentKind::kitchen, request.kitchen_name);
    if (!found.value) {
      return refused<NewTrial>(found.problem);
    }
    trial.kitchen = found.value->name;
    trial.kitchen_state = found.value->document.number;
  }
  return {trial, ""};
}

}  // namespace

std::vector<ChecklistStep> checklist_of(const Recipe& recipe, const std::vector<StepMark>& marks) {
  std::vector<ChecklistStep> out;
  for (const std::size_t part : parts_in_order(recipe).value_or(std::vector<std::size_t>{})) {
    for (const Step& step : recipe.parts[part].steps) {
      out.push_back({static_cast<int>(out.size()) + 1,
                     recipe.parts[part].name,
                     step,
                     {},
                     {},
                     recipe.parts[part].kind});
    }
  }
  for (const StepMark& mark : marks) {
    if (mark.step < 1 || mark.step > static_cast<int>(out.size())) {
      continue;
    }
    ChecklistStep& step = out[static_cast<std::size_t>(mark.step) - 1];
    if (mark.mark == Mark::begun) {
      step.begun_at_ms = mark.at_ms;
      step.done_at_ms.reset();
    } else if (mark.mark == Mark::done) {
      step.done_at_ms = mark.at_ms;
    } else {
      step.begun_at_ms.reset();
      step.done_at_ms.reset();
    }
  }
  return out;
}

Result<StartedTrial> start_trial(Store& store, const StartRequest& request) {
  return flat(asking([&]() -> Result<StartedTrial> {
    Transaction change(store.database());
    const Result<NewTrial> trial = trial_of_request(change, store, request);
    if (!trial.value) {
      return refused<StartedTrial>(trial.problem);
    }
    const std::int64_t number = start_trial(change, *trial.value);
    StartedTrial started{*trial_of(change.database(), number), {}};
    started.checklist = checklist_of(change.database(), started.trial);
    change.commit();
    return {std::move(started), ""};
  }));
}

Result<WrittenNote> write_note(Store& store, const NoteWords& words, const NoteRequest& request) {
  return flat(asking([&] {
    Transaction change(store.database());
    Result<WrittenNote> written = write_note_in(change, words, request);
    if (written.value) {
      change.commit();
    }
    return written;
  }));
}

Result<ChecklistStep> mark_trial_step(Store& store, std::int64_t number, const StepMark& mark) {
  return flat(asking([&]() -> Result<ChecklistStep> {
    Transaction change(store.database());
    const Result<Trial> trial = open_trial(change.database(), number);
    if (!trial.value) {
      return refused<ChecklistStep>(trial.problem);
    }
    const std::size_t steps = checklist_of(change.database(), *trial.value).size();
    if (mark.step < 1 || mark.step > static_cast<int>(steps)) {
      return refused<ChecklistStep>("Trial " + std::to_string(number) + " has steps 1 to " +
                                    std::to_string(steps) + ", no step " +
                                    std::to_string(mark.step) + ".");
    }
    mark_step(change, number, mark);
    ChecklistStep now =
        checklist_of(change.database(), *trial.value)[static_cast<std::size_t>(mark.step) - 1];
    change.commit();
    return {std::move(now), ""};
  }));
}

Result<TrialView> view_trial(Store& store, std::int64_t number) {
  return flat(asking([&]() -> Result<TrialView> {
    Database& database = store.database();
    const std::optional<Trial> trial = trial_of(database, number);
    if (!trial) {
      return refused<TrialView>(no_such_trial(number));
    }
    return {TrialView{*trial, checklist_of(database, *trial), notes_of(database, number), {}}, ""};
  }));
}

Result<std::vector<Trial>> list_trials(Store& store, TrialFilter filter) {
  return asking([&] { return all_trials(store.database(), filter); });
}

Result<KeptPicture> picture_in_library(Store& store, std::string_view id) {
  return flat(asking([&]() -> Result<KeptPicture> {
    std::optional<KeptPicture> picture = picture_of(store.database(), id);
    if (!picture) {
      return refused<KeptPicture>("There is no picture " + std::string(id) +
                                  "; `maslin trial show` names those of a trial.");
    }
    return {std::move(picture), ""};
  }));
}

}  // namespace maslin
