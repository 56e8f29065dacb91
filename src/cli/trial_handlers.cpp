#include "cli/trial_handlers.h"

#include <utility>

#include "app/diagnosing.h"
#include "app/learning.h"
#include "app/live.h"
#include "app/proposing.h"
#include "cli/api_answers.h"

namespace maslin {
namespace {

LiveOptions live(std::stop_token gone) {
  LiveOptions out;
  out.stop = std::move(gone);
  return out;
}

ApiAnswer start_asked(const Tools& tools, const std::string& file, const StartQuestion& question) {
  StartRequest request;
  request.version = question.version;
  request.name = question.name;
  request.kitchen_name = question.kitchen_name;
  request.at_ms = now_ms();
  if (question.version.empty()) {
    const std::string& text = question.recipe_json.empty() ? question.text : question.recipe_json;
    Result<Recipe> recipe = read_recipe(tools, {text, "", ""});
    if (!recipe.value) {
      return problem_of(recipe.problem);
    }
    request.recipe = std::move(recipe.value);
  }
  if (!question.kitchen_json.empty()) {
    Result<Kitchen> kitchen = read_kitchen(question.kitchen_json);
    if (!kitchen.value) {
      return problem_of(kitchen.problem);
    }
    request.kitchen = std::move(kitchen.value);
  }
  return of_store(file, [&](Store& store) { return start_trial(store, request); }, started_to_json);
}

ApiAnswer note_asked(const Tools& tools, const std::string& file, const NoteQuestion& question) {
  const Result<std::int64_t> at = moment_of(question.at, now_ms());
  if (!at.value) {
    return problem_of(at.problem);
  }
  NoteRequest request;
  request.trial = question.trial;
  request.text = question.text;
  request.sender_key = question.key;
  request.at_ms = *at.value;
  request.instead_of = question.instead_of;
  request.certainty = question.certainty == "sure" ? Certainty::sure : Certainty::ask;
  return of_store(
      file,
      [&](Store& store) -> Result<LiveNote> {
        Result<WrittenNote> written = write_note(store, tools.note_words, request);
        if (!written.value) {
          return {std::nullopt, written.problem};
        }
        Result<LiveTrial> trial = live_trial(tools, store, question.trial, live(question.gone));
        LiveNote out{std::move(*written.value), {}};
        out.trial.problem = trial.problem;
        if (trial.value) {
          out.trial = std::move(*trial.value);
        }
        return {std::move(out), ""};
      },
      live_note_to_json);
}

ApiAnswer picture_added(const Tools& tools, const std::string& file, const PictureNote& note) {
  const Result<std::int64_t> at = moment_of(note.at, now_ms());
  if (!at.value) {
    return problem_of(at.problem);
  }
  NoteRequest request;
  request.trial = note.trial;
  request.text = note.text;
  request.sender_key = note.key;
  request.at_ms = *at.value;
  request.pictures = {note.bytes};
  return of_store(
      file, [&](Store& store) { return write_note(store, tools.note_words, request); },
      note_to_json);
}

PictureAnswer picture_asked(const std::string& file, const std::string& id) {
  Result<Store> store = open_store(file);
  if (!store.value) {
    return {"", "", store.problem};
  }
  Result<KeptPicture> picture = picture_in_library(*store.value, id);
  return picture.value
             ? PictureAnswer{"image/" + std::string(picture_kind_name(picture.value->kind)),
                             std::move(picture.value->bytes), ""}
             : PictureAnswer{"", "", picture.problem};
}

ApiAnswer mark_asked(const std::string& file, const MarkQuestion& question) {
  const Result<std::int64_t> at = moment_of(question.at, now_ms());
  if (!at.value) {
    return problem_of(at.problem);
  }
  const StepMark mark{static_cast<int>(question.step),
                      mark_from(question.mark).value_or(Mark::begun), *at.value};
  return of_store(
      file, [&](Store& store) { return mark_trial_step(store, question.trial, mark); },
      [&](const ChecklistStep& step) { return step_to_json(question.trial, step); });
}

}  // namespace

TrialHandlers trial_handlers(const Tools& tools, const std::string& file) {
  TrialHandlers out;
  out.start = [&tools, file](const StartQuestion& question) {
    return start_asked(tools, file, question);
  };
  out.list = [file] {
    return of_store(
        file, [](Store& store) { return list_trials(store, TrialFilter::all); }, trials_to_json);
  };
  out.note = [&tools, file](const NoteQuestion& question) {
    return note_asked(tools, file, question);
  };
  out.add_picture = [&tools, file](const PictureNote& note) {
    return picture_added(tools, file, note);
  };
  out.picture = [file](const std::string& id) { return picture_asked(file, id); };
  out.mark = [file](const MarkQuestion& question) { return mark_asked(file, question); };
  out.show = [&tools, file](const TrialQuestion& question) {
    if (!question.forecast) {
      return of_store(
          file, [&](Store& store) { return past_trial(store, question.trial); }, trial_to_json);
    }
    return of_store(
        file,
        [&](Store& store) { return live_trial(tools, store, question.trial, live(question.gone)); },
        live_trial_to_json);
  };
  out.close = [&tools, file](const TrialQuestion& question) {
    return of_store(
        file,
        [&](Store& store) {
          return close_trial(tools, store, question.trial, now_ms(), live(question.gone));
        },
        closed_to_json);
  };
  out.reopen = [&tools, file](const TrialQuestion& question) {
    return of_store(
        file,
        [&](Store& store) {
          return reopen_trial(tools, store, question.trial, live(question.gone));
        },
        [](const Trial& trial) { return trials_to_json({trial}); });
  };
  out.diagnose = [&tools, file](const TrialQuestion& question) {
    return of_store(
        file,
        [&](Store& store) {
          return diagnose_trial(tools, store, question.trial, {}, live(question.gone));
        },
        diagnosed_to_json);
  };
  out.next = [&tools, file](const NextQuestion& question) {
    const NextRequest request{question.recipe, question.sense, {}, live(question.gone)};
    return of_store(
        file, [&](Store& store) { return propose_next(tools, store, request); }, proposed_to_json);
  };
  out.learnt = [file](const std::string& kitchen) {
    return of_store(
        file, [&](Store& store) { return learnt_in_library(store, kitchen); }, learnt_to_json);
  };
  out.unlearn = [&tools, file](const UnlearnQuestion& question) {
    return of_store(
        file,
        [&](Store& store) {
          return unlearn_trial(tools, store, question.kitchen, question.trial, now_ms(),
                               live(question.gone));
        },
        learnt_to_json);
  };
  return out;
}

}  // namespace maslin
