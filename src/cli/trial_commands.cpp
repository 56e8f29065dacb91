#include <filesystem>
#include <fstream>
#include <iostream>

#include "app/diagnosing.h"
#include "app/keeping_report.h"
#include "app/learning.h"
#include "app/proposing.h"
#include "app/trials.h"
#include "cli/inputs.h"
#include "cli/keeping_commands.h"

namespace maslin {
namespace {

/// Prints an answer as a document or in words, or complains.
template <typename Value, typename Document, typename Words>
int say(const Result<Value>& asked, const CommonOptions& options, const Document& document,
        const Words& words) {
  if (!asked.value) {
    return complain("", asked.problem);
  }
  // Flushed: what is answered is safe, and the one who reads is to know at once.
  std::cout << (options.json ? document(*asked.value) + "\n" : words(*asked.value)) << std::flush;
  return k_done;
}

/// The store opened and the moment read, or a complaint.
struct Bench {
  std::optional<Store> store;
  std::int64_t at_ms = 0;
};
std::optional<Bench> bench(const CommonOptions& options, const KeepingOptions& keeping) {
  const Result<std::int64_t> at = moment_of(keeping.at, now_ms());
  if (!at.value) {
    complain("--at", at.problem);
    return std::nullopt;
  }
  Result<Store> store = open_store(options.store);
  if (!store.value) {
    complain("", store.problem);
    return std::nullopt;
  }
  return Bench{std::move(store.value), *at.value};
}

/// The recipe to start with: from a file, or else as it is kept.
bool set_recipe(const CommonOptions& options, const KeepingOptions& keeping,
                StartRequest& request) {
  const std::string& file = keeping.words.front();
  const auto text = text_of(file);
  if (!text) {
    request.version = file;
    return true;
  }
  const Tools tools;
  Result<Recipe> recipe = read_recipe(tools, {*text, file == "-" ? "" : file, options.locale});
  if (!recipe.value) {
    complain(name_of(file), recipe.problem);
    return false;
  }
  request.recipe = std::move(recipe.value);
  request.name = keeping.name;
  if (request.name.empty() && request.recipe->title.empty()) {
    request.name = std::filesystem::path(name_of(file)).stem().string();
  }
  return true;
}

bool set_kitchen(const CommonOptions& options, StartRequest& request) {
  if (options.kitchen.empty()) {
    return true;
  }
  const auto text = text_of(options.kitchen);
  if (!text) {
    request.kitchen_name = options.kitchen;
    return true;
  }
  Result<Kitchen> kitchen = read_kitchen_file(*text);
  if (!kitchen.value) {
    complain(options.kitchen, kitchen.problem);
    return false;
  }
  request.kitchen = std::move(kitchen.value);
  request.kitchen_name = std::filesystem::path(name_of(options.kitchen)).stem().string();
  return true;
}

bool set_pictures(const KeepingOptions& keeping, NoteRequest& request) {
  for (const std::string& file : keeping.pictures) {
    auto bytes = text_of(file);
    if (!bytes) {
      complain(file, "is no picture file that can be read; check the name.");
      return false;
    }
    request.pictures.push_back(std::move(*bytes));
  }
  return true;
}

/// Each line of standard input as a note of its own, answered one by one; the first that
/// cannot be kept ends it, so that none is lost unnoticed.
int note_lines(Store& store, const NoteWords& words, NoteRequest request,
               const CommonOptions& options, const KeepingOptions& keeping) {
  std::string line;
  while (std::getline(std::cin, line)) {
    if (line.find_first_not_of(" \t\r") == std::string::npos) {
      continue;
    }
    request.text = line;
    request.at_ms = keeping.at.empty() ? now_ms() : request.at_ms;
    const int status = say(write_note(store, words, request), options, note_to_json, note_report);
    if (status != k_done) {
      return status;
    }
  }
  return k_done;
}

LiveOptions live_options(const CommonOptions& options) {
  LiveOptions out;
  out.forecast.seed = options.seed;
  out.forecast.draws = options.draws;
  return out;
}

/// The note that was kept, then what it says of the rest of the bake.
int say_note(const Tools& tools, Store& store, WrittenNote written, const CommonOptions& options) {
  if (!options.json) {
    // Before the forecast: the note is safe, and the baker is to know at once.
    std::cout << note_report(written) << std::flush;
  }
  Result<LiveTrial> live = live_trial(tools, store, written.trial, live_options(options));
  if (!live.value) {
    return complain("", live.problem);
  }
  std::cout << (options.json
                    ? live_note_to_json({std::move(written), std::move(*live.value)}) + "\n"
                    : live_report(*live.value));
  return k_done;
}

}  // namespace

int trial_start(const CommonOptions& options, const KeepingOptions& keeping) {
  StartRequest request;
  if (!set_recipe(options, keeping, request) || !set_kitchen(options, request)) {
    return k_input_at_fault;
  }
  auto here = bench(options, keeping);
  if (!here) {
    return k_input_at_fault;
  }
  request.at_ms = here->at_ms;
  return say(start_trial(*here->store, request), options, started_to_json, started_report);
}

int trial_note(const CommonOptions& options, const KeepingOptions& keeping) {
  NoteRequest request;
  auto here = set_pictures(keeping, request) ? bench(options, keeping) : std::nullopt;
  if (!here) {
    return k_input_at_fault;
  }
  request.trial = keeping.trial;
  request.at_ms = here->at_ms;
  request.certainty = keeping.sure ? Certainty::sure : Certainty::ask;
  if (keeping.instead_of > 0) {
    request.instead_of = keeping.instead_of;
  }
  if (keeping.words == std::vector<std::string>{"-"}) {
    return note_lines(*here->store, NoteWords(), request, options, keeping);
  }
  for (const std::string& word : keeping.words) {
    request.text += (request.text.empty() ? "" : " ") + word;
  }
  if (keeping.no_forecast) {
    return say(write_note(*here->store, NoteWords(), request), options, note_to_json, note_report);
  }
  const Tools tools;
  Result<WrittenNote> written = write_note(*here->store, tools.note_words, request);
  return written.value ? say_note(tools, *here->store, std::move(*written.value), options)
                       : complain("", written.problem);
}

int trial_step(const CommonOptions& options, const KeepingOptions& keeping) {
  auto here = bench(options, keeping);
  if (!here) {
    return k_input_at_fault;
  }
  const StepMark mark{keeping.step, mark_from(keeping.mark).value_or(Mark::begun), here->at_ms};
  return say(
      mark_trial_step(*here->store, keeping.trial, mark), options,
      [&](const ChecklistStep& step) { return step_to_json(keeping.trial, step); }, step_report);
}

int trial_close(const CommonOptions& options, const KeepingOptions& keeping) {
  auto here = bench(options, keeping);
  if (!here) {
    return k_input_at_fault;
  }
  const Tools tools;
  // Judged by what the kitchen knew before it learns from this very bake.
  const Result<DiagnosedTrial> diagnosed =
      diagnose_trial(tools, *here->store, keeping.trial, {}, live_options(options));
  const Result<ClosedTrial> closed =
      close_trial(tools, *here->store, keeping.trial, here->at_ms, live_options(options));
  const int status = say(closed, options, closed_to_json, closed_report);
  if (status == k_done && !options.json && diagnosed.value && !diagnosed.value->diagnoses.empty()) {
    std::cout << diagnosed_report(*diagnosed.value);
  }
  return status;
}

int trial_diagnose(const CommonOptions& options, const KeepingOptions& keeping) {
  auto here = bench(options, keeping);
  return here ? say(diagnose_trial(Tools(), *here->store, keeping.trial, keeping.faults,
                                   live_options(options)),
                    options, diagnosed_to_json, diagnosed_report)
              : k_input_at_fault;
}

int trial_next(const CommonOptions& options, const KeepingOptions& keeping) {
  NextRequest request{keeping.name, keeping.sense, {}, live_options(options)};
  for (const std::string& text : keeping.limits) {
    ParsedLimit parsed = parse_limit(text);
    if (!parsed.limit) {
      return complain("--limit", parsed.problem);
    }
    request.limits.push_back(std::move(*parsed.limit));
  }
  auto here = bench(options, keeping);
  return here ? say(propose_next(Tools(), *here->store, request), options, proposed_to_json,
                    proposed_report)
              : k_input_at_fault;
}

int trial_reopen(const CommonOptions& options, const KeepingOptions& keeping) {
  auto here = bench(options, keeping);
  return here ? say(
                    reopen_trial(Tools(), *here->store, keeping.trial, live_options(options)),
                    options, [](const Trial& trial) { return trials_to_json({trial}); },
                    [](const Trial& trial) { return trials_report({trial}); })
              : k_input_at_fault;
}

int trial_list(const CommonOptions& options, const KeepingOptions& keeping) {
  auto here = bench(options, keeping);
  const TrialFilter filter = keeping.open ? TrialFilter::open : TrialFilter::all;
  return here ? say(list_trials(*here->store, filter), options, trials_to_json, trials_report)
              : k_input_at_fault;
}

int trial_show(const CommonOptions& options, const KeepingOptions& keeping) {
  auto here = bench(options, keeping);
  if (!here) {
    return k_input_at_fault;
  }
  return say(past_trial(*here->store, keeping.trial), options, trial_to_json, trial_report);
}

int trial_picture(const CommonOptions& options, const KeepingOptions& keeping) {
  auto here = bench(options, keeping);
  if (!here) {
    return k_input_at_fault;
  }
  const Result<KeptPicture> picture = picture_in_library(*here->store, keeping.name);
  if (!picture.value) {
    return complain("", picture.problem);
  }
  if (std::filesystem::exists(keeping.out)) {
    return complain(keeping.out, "is already there; name a new file.");
  }
  std::ofstream file(keeping.out, std::ios::binary);
  file << picture.value->bytes;
  file.close();
  return file ? k_done : complain(keeping.out, "cannot be written; check its folder and the disk.");
}

}  // namespace maslin
