// What a trial says, as the documents of the commands.
#include "app/trials.h"
#include "quantity/instant.h"
#include "recipe/json.h"

namespace maslin {
namespace {

Json instant_json(const std::optional<std::int64_t>& ms) {
  return ms ? Json(instant_text(*ms)) : Json(nullptr);
}

Json text_or_null(const std::string& text) {
  return text.empty() ? Json(nullptr) : Json(text);
}

Json trial_json(const Trial& trial) {
  return {{"trial", trial.number},
          {"recipe", trial.recipe},
          {"title", trial.title},
          {"version", trial.version_id},
          {"kitchen", text_or_null(trial.kitchen)},
          {"kitchen_version", text_or_null(trial.kitchen_state_id)},
          {"started_at", instant_text(trial.started_at_ms)},
          {"closed_at", instant_json(trial.closed_at_ms)},
          {"notes", trial.notes}};
}

Json step_json(const ChecklistStep& step) {
  return {{"step", step.step},
          {"part", step.part},
          {"kind", std::string(step_kind_name(step.what.kind))},
          {"text", step.what.text},
          {"minutes", range_json(step.what.minutes)},
          {"celsius", range_json(step.what.celsius)},
          {"until", step.what.until},
          {"begun_at", instant_json(step.begun_at_ms)},
          {"done_at", instant_json(step.done_at_ms)}};
}

Json checklist_json(const std::vector<ChecklistStep>& steps) {
  Json out = Json::array();
  for (const ChecklistStep& step : steps) {
    out.push_back(step_json(step));
  }
  return out;
}

Json observations_json(const std::string& text) {
  return parse_json(text).value_or(Json::array());
}

Json questions_json(const std::vector<Observation>& observations) {
  Json out = Json::array();
  for (const Observation& one : observations) {
    if (!one.question.empty()) {
      out.push_back(one.question);
    }
  }
  return out;
}

Json read_as_json(const std::vector<Observation>& observations) {
  Json out = Json::array();
  for (const Observation& one : observations) {
    out.push_back(observation_words(one));
  }
  return out;
}

Json note_json(const Note& note) {
  const std::vector<Observation> observations = observations_from_json(note.observations);
  return {{"note", note.number},
          {"at", instant_text(note.at_ms)},
          {"text", note.text},
          {"observations", observations_json(note.observations)},
          {"read_as", read_as_json(observations)},
          {"questions", questions_json(observations)},
          {"instead_of", note.instead_of ? Json(*note.instead_of) : Json(nullptr)},
          {"corrected", note.corrected},
          {"pictures", note.pictures}};
}

}  // namespace

std::string started_to_json(const StartedTrial& started) {
  Json out = trial_json(started.trial);
  out["checklist"] = checklist_json(started.checklist);
  return json_text(out);
}

std::string note_to_json(const WrittenNote& written) {
  Json out{{"trial", written.trial}};
  out.update(note_json(written.note));
  out["unread"] = written.unread;
  return json_text(out);
}

std::string step_to_json(std::int64_t trial, const ChecklistStep& step) {
  Json out{{"trial", trial}};
  out.update(step_json(step));
  return json_text(out);
}

std::string closed_to_json(const ClosedTrial& closed) {
  Json out = trial_json(closed.trial);
  out["observations"] = observations_json(observations_to_json(closed.observations));
  out["questions"] = questions_json(closed.observations);
  out["learnt"] = closed.learnt;
  out["learning"] = closed.learning;
  return json_text(out);
}

std::string trial_to_json(const TrialView& view) {
  Json out = trial_json(view.trial);
  out["checklist"] = checklist_json(view.checklist);
  out["notes"] = Json::array();
  for (const Note& note : view.notes) {
    out["notes"].push_back(note_json(note));
  }
  out["learnt"] = view.learnt;
  return json_text(out);
}

std::string trials_to_json(const std::vector<Trial>& trials) {
  Json list = Json::array();
  for (const Trial& trial : trials) {
    list.push_back(trial_json(trial));
  }
  return json_text({{"trials", list}});
}

}  // namespace maslin
