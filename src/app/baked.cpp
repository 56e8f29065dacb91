#include "app/baked.h"

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "recipe/json.h"
#include "recipe/recipe_json.h"

namespace maslin {
namespace {

constexpr std::size_t k_most_entries = 5000;
// The longest a baker says at once, and the largest file a card writes, both with room to spare.
constexpr std::size_t k_most_note_bytes = 4000;
constexpr std::size_t k_most_bytes = 4000000;
// The year 2200: what lies beyond is no clock's.
constexpr double k_latest_ms = 7258118400000.0;

constexpr std::array<std::pair<std::string_view, BakedEntry::Kind>, 5> k_kinds = {
    {{"begun", BakedEntry::Kind::begun},
     {"done", BakedEntry::Kind::done},
     {"undone", BakedEntry::Kind::undone},
     {"note", BakedEntry::Kind::note},
     {"taken_back", BakedEntry::Kind::taken_back}}};

template <typename Value>
Result<Value> refused(std::string problem) {
  return {std::nullopt, std::move(problem)};
}

std::optional<std::int64_t> moment_at(const Json& object, std::string_view key) {
  const auto ms = number_at(object, key);
  return ms && *ms >= 0.0 && *ms <= k_latest_ms ? std::optional(static_cast<std::int64_t>(*ms))
                                                : std::nullopt;
}

std::optional<BakedEntry> entry_from(const Json& value) {
  const std::string is = text_at(value, "is");
  const auto kind = std::find_if(k_kinds.begin(), k_kinds.end(),
                                 [&](const auto& row) { return row.first == is; });
  const auto at = moment_at(value, "at_ms");
  if (kind == k_kinds.end() || !at) {
    return std::nullopt;
  }
  const Json* sure = member(value, "sure");
  BakedEntry entry{kind->second,
                   text_at(value, "key"),
                   *at,
                   0,
                   text_at(value, "text"),
                   text_at(value, "note"),
                   sure != nullptr && *sure == true ? Certainty::sure : Certainty::ask};
  const auto step = number_at(value, "step");
  entry.step = step && *step >= 1.0 && *step <= 1e6 ? static_cast<int>(*step) : 0;
  return entry;
}

std::string entries_from(const Json& document, Baked& baked) {
  const Json* list = member(document, "entries");
  if (list == nullptr || !list->is_array()) {
    return "The bake has no list of entries; save it again on the card.";
  }
  const auto entries = list_at(document, "entries");
  if (entries.size() > k_most_entries) {
    return "The bake has more than 5 000 entries; it is no card's.";
  }
  for (std::size_t i = 0; i < entries.size(); ++i) {
    auto entry = entry_from(entries[i]);
    if (!entry) {
      return "entries[" + std::to_string(i) +
             "] is no note and no mark of a step; each has \"is\" and \"at_ms\".";
    }
    if (entry->text.size() > k_most_note_bytes) {
      return "entries[" + std::to_string(i) +
             "] is a note of more than 4 000 bytes; shorten it in the file.";
    }
    baked.entries.push_back(std::move(*entry));
  }
  return "";
}

std::string kept_name(const Baked& baked) {
  const std::string title = baked.title.empty() ? "a bake" : kept_text(baked.title);
  return baked.on == BakedOn::page ? title : title + ", handed on";
}

std::string kitchen_name(const Baked& baked) {
  if (!baked.kitchen.name.empty()) {
    return baked.kitchen.name;
  }
  return baked.on == BakedOn::page ? "kitchen"
                                   : "kitchen of card " + kept_text(baked.key).substr(0, 6);
}

/// The version that was baked: the card's, kept beside the sender's own; of a code the
/// sender's.
Result<std::string> version_of(Store& store, const Baked& baked) {
  const bool here =
      !baked.recipe_id.empty() &&
      version_in_library(store, DocumentKind::recipe, baked.recipe_id).value.has_value();
  if (!baked.recipe) {
    return here ? Result<std::string>{baked.recipe_id, ""}
                : refused<std::string>("The recipe " + kept_text(baked.recipe_id).substr(0, 12) +
                                       " is not kept here, and a code holds no recipe; ask for "
                                       "the file instead.");
  }
  const Result<KeptVersion> kept = keep_in_library(
      store, {*baked.recipe,
              kept_name(baked),
              baked.on == BakedOn::page ? "as baked" : "as baked from a living card",
              here ? baked.recipe_id : "",
              {}});
  return kept.value ? Result<std::string>{kept.value->document.id, ""}
                    : refused<std::string>(kept.problem);
}

/// The trial of this bake when it came before: begun at the same moment in its kitchen.
std::optional<std::int64_t> trial_before(Store& store, const Baked& baked) {
  const auto trials = list_trials(store, TrialFilter::all);
  for (const Trial& trial : trials.value.value_or(std::vector<Trial>{})) {
    if (trial.started_at_ms == baked.started_at_ms && trial.kitchen == kitchen_name(baked)) {
      return trial.number;
    }
  }
  return std::nullopt;
}

Result<std::int64_t> begun_trial(Store& store, const Baked& baked) {
  if (const auto before = trial_before(store, baked)) {
    return {before, ""};
  }
  Result<std::string> version = version_of(store, baked);
  if (!version.value) {
    return refused<std::int64_t>(version.problem);
  }
  StartRequest request;
  request.version = *version.value;
  request.kitchen = baked.kitchen;
  request.kitchen_name = kitchen_name(baked);
  request.at_ms = baked.started_at_ms;
  const Result<StartedTrial> started = start_trial(store, request);
  return started.value ? Result<std::int64_t>{started.value->trial.number, ""}
                       : refused<std::int64_t>(started.problem);
}

/// Writes what the trial does not have yet, in the order it was noted. What is there already
/// is told by its moment and words: each entry there answers one that comes.
class Importer {
 public:
  Importer(Store& store, const NoteWords& words, std::int64_t trial)
      : store_(store), words_(words), trial_(trial) {
    const Result<TrialView> view = view_trial(store, trial);
    notes_ = view.value ? view.value->notes : std::vector<Note>{};
    marks_ = asking([&] {
               return marks_of(store.database(), trial);
             }).value.value_or(std::vector<StepMark>{});
  }

  std::string take(const Baked& baked) {
    std::set<std::string> gone;
    for (const BakedEntry& entry : baked.entries) {
      if (entry.kind == BakedEntry::Kind::taken_back) {
        gone.insert(entry.note);
      }
    }
    for (const BakedEntry& entry : baked.entries) {
      const std::string problem = entry.kind == BakedEntry::Kind::taken_back ? std::string()
                                  : entry.kind != BakedEntry::Kind::note     ? mark(entry)
                                  : gone.contains(entry.key)                 ? take_back(entry)
                                                                             : note(entry);
      if (!problem.empty()) {
        return problem;
      }
    }
    return "";
  }
  std::size_t added() const { return added_; }

 private:
  const Note* note_there(const BakedEntry& entry) const {
    const std::string text = kept_text(entry.text);
    const auto found = std::find_if(notes_.begin(), notes_.end(), [&](const Note& one) {
      return one.at_ms == entry.at_ms && one.text == text;
    });
    return found == notes_.end() ? nullptr : &*found;
  }

  std::string write(const NoteRequest& request) {
    const Result<WrittenNote> written = write_note(store_, words_, request);
    added_ += written.value ? 1U : 0U;
    return written.problem;
  }

  std::string note(const BakedEntry& entry) {
    return note_there(entry) != nullptr
               ? ""
               : write({trial_, entry.text, entry.at_ms, {}, {}, {}, entry.certainty});
  }

  std::string take_back(const BakedEntry& entry) {
    const Note* there = note_there(entry);
    return there == nullptr || there->corrected
               ? ""
               : write({trial_, "taken back", entry.at_ms, there->number, {}, {}, Certainty::ask});
  }

  std::string mark(const BakedEntry& entry) {
    const StepMark mark{entry.step,
                        entry.kind == BakedEntry::Kind::begun  ? Mark::begun
                        : entry.kind == BakedEntry::Kind::done ? Mark::done
                                                               : Mark::undone,
                        entry.at_ms};
    const auto there = std::find_if(marks_.begin(), marks_.end(), [&](const StepMark& one) {
      return one.step == mark.step && one.mark == mark.mark && one.at_ms == mark.at_ms;
    });
    if (there != marks_.end()) {
      marks_.erase(there);
      return "";
    }
    const Result<ChecklistStep> marked = mark_trial_step(store_, trial_, mark);
    added_ += marked.value ? 1U : 0U;
    return marked.problem;
  }

  Store& store_;
  const NoteWords& words_;
  std::int64_t trial_;
  std::vector<Note> notes_;
  std::vector<StepMark> marks_;
  std::size_t added_ = 0;
};

}  // namespace

Result<Baked> baked_from_json(std::string_view text) {
  if (text.size() > k_most_bytes) {
    return refused<Baked>("The file is larger than 4 MB; no card saves one so large.");
  }
  const auto document = parse_json(text);
  if (!document || !document->is_object() ||
      number_at(*document, "maslin_baked").value_or(0.0) != 1.0) {
    return refused<Baked>(
        "This is no bake from a living card; it begins with {\"maslin_baked\": 1, and is saved on "
        "the card under 'Send it home'.");
  }
  Baked baked;
  baked.key = text_at(*document, "key");
  baked.title = text_at(*document, "title");
  baked.recipe_id = text_at(*document, "recipe_id");
  const auto started = moment_at(*document, "started_at_ms");
  baked.on = text_at(*document, "from") == "page" ? BakedOn::page : BakedOn::card;
  const bool has_recipe = member(*document, "recipe") != nullptr;
  if (!started || (baked.recipe_id.size() != 64 && !has_recipe)) {
    return refused<Baked>(
        "The bake says not when it was begun, or of which recipe; save it again.");
  }
  baked.started_at_ms = *started;
  if (const Json* recipe = member(*document, "recipe")) {
    RecipeDocument read = recipe_from_json(json_text(*recipe));
    if (!read.problems.empty()) {
      return refused<Baked>(sentence(read.problems.front()));
    }
    baked.recipe = std::move(read.recipe);
  }
  if (const Json* kitchen = member(*document, "kitchen")) {
    KitchenDocument read = kitchen_from_json(json_text(*kitchen));
    if (!read.problems.empty()) {
      return refused<Baked>(sentence(read.problems.front()));
    }
    baked.kitchen = std::move(read.kitchen);
  }
  std::string problem = entries_from(*document, baked);
  return problem.empty() ? Result<Baked>{std::move(baked), ""} : refused<Baked>(std::move(problem));
}

Result<ImportedTrial> import_baked(Store& store, const NoteWords& words, const Baked& baked) {
  const Result<std::int64_t> trial = begun_trial(store, baked);
  if (!trial.value) {
    return refused<ImportedTrial>(trial.problem);
  }
  Importer importer(store, words, *trial.value);
  std::string problem = importer.take(baked);
  if (!problem.empty()) {
    return refused<ImportedTrial>(std::move(problem));
  }
  Result<TrialView> view = view_trial(store, *trial.value);
  return view.value
             ? Result<ImportedTrial>{ImportedTrial{std::move(*view.value), importer.added()}, ""}
             : refused<ImportedTrial>(view.problem);
}

std::string imported_to_json(const ImportedTrial& imported) {
  Json out = parse_json(trial_to_json(imported.view)).value_or(Json::object());
  out["added"] = imported.added;
  return json_text(out);
}

}  // namespace maslin
