#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>

#include "quantity/instant.h"
#include "recipe/json.h"
#include "recipe/recipe_json.h"
#include "store/documents.h"
#include "store/everything.h"
#include "store/lessons.h"
#include "store/sha256.h"
#include "store/trials.h"

namespace maslin {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t k_most_bytes = 1U << 30U;

[[noreturn]] void refuse(const std::string& where, const std::string& what) {
  throw StoreError({where, what, "the store was left as it was; write the library out again"});
}

std::string file_text(const fs::path& file, std::size_t most) {
  std::ifstream stream(file, std::ios::binary);
  std::error_code failed;
  if (!stream || fs::file_size(file, failed) > most || failed) {
    refuse(file.string(), "cannot be read, or is too large");
  }
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// One entry of one of the lists, with what is needed to complain about it.
struct Entry {
  const Json& json;
  std::string where;

  std::string text(const char* key) const {
    const Json* value = member(json, key);
    if (value == nullptr || !value->is_string()) {
      refuse(where + "." + key, "is no text");
    }
    return value->get<std::string>();
  }
  std::optional<std::string> text_or_none(const char* key) const {
    const Json* value = member(json, key);
    return value == nullptr || value->is_null() ? std::nullopt : std::optional(text(key));
  }
  std::int64_t whole(const char* key) const {
    const Json* value = member(json, key);
    if (value == nullptr || !value->is_number_integer()) {
      refuse(where + "." + key, "is no whole number");
    }
    return value->get<std::int64_t>();
  }
  std::int64_t instant(const char* key) const {
    const auto moment = instant_from(text(key));
    if (!moment || !moment->zoned) {
      refuse(where + "." + key, "is no moment like 2026-05-01T14:03:07.123Z");
    }
    return moment->ms;
  }
  std::vector<std::string> texts(const char* key) const {
    std::vector<std::string> out;
    for (const Json& value : list_at(json, key)) {
      if (!value.is_string()) {
        refuse(where + "." + key, "is no list of texts");
      }
      out.push_back(value.get<std::string>());
    }
    return out;
  }
  std::vector<Entry> entries(const char* key) const {
    std::vector<Entry> out;
    for (const Json& value : list_at(json, key)) {
      out.push_back({value, where + "." + key + "[" + std::to_string(out.size()) + "]"});
    }
    return out;
  }
};

/// Reads a library into a transaction, keeping the numbers its ids and names got.
class Reader {
 public:
  Reader(Transaction& transaction, fs::path folder)
      : transaction_(transaction), folder_(std::move(folder)) {}

  /// One entry of one of the lists.
  void read(const std::string& list, const Json& json) {
    const Entry entry{json, list + "[" + std::to_string(count_[list]++) + "]"};
    if (list == "documents") {
      document(entry);
    } else if (list == "names") {
      name(entry);
    } else if (list == "pictures") {
      picture(entry);
    } else if (list == "trials") {
      trial(entry);
    } else {
      refuse(list, "is no list that this maslin knows");
    }
  }

  /// What has to wait for all entries; answers what was read.
  Everything finish() {
    for (const auto& [number, waiting] : notes_) {
      if (add_note(transaction_, waiting.note) != number) {
        refuse(waiting.where + ".note", "is not the next number after the note before it");
      }
    }
    return {count_["documents"], count_["names"], count_["trials"], static_cast<int>(notes_.size()),
            count_["pictures"]};
  }

 private:
  using Numbers = std::map<std::string, std::int64_t>;

  static std::int64_t known(const Numbers& numbers, const std::string& key,
                            const std::string& where) {
    const auto at = numbers.find(key);
    if (at == numbers.end()) {
      refuse(where, "points at \"" + key + "\", which is not in the library before it");
    }
    return at->second;
  }

  void document(const Entry& entry) {
    Document document;
    document.id = entry.text("id");
    document.kind = entry.text("kind") == "kitchen" ? DocumentKind::kitchen : DocumentKind::recipe;
    document.title = entry.text("title");
    document.first_saved_at_ms = entry.instant("first_saved_at");
    const Json* body = member(entry.json, "body");
    document.body = body == nullptr ? "" : json_text(*body);
    if (sha256_hex(document.body) != document.id) {
      refuse(entry.where, "does not have the content its id stands for");
    }
    const std::string words = document.kind == DocumentKind::recipe
                                  ? recipe_words(recipe_from_json(document.body).recipe)
                                  : "";
    const std::int64_t number = document_row(transaction_, document, words);
    for (const std::string& parent : entry.texts("parents")) {
      descent_row(transaction_, number, known(documents_, parent, entry.where + ".parents"));
    }
    documents_[document.id] = number;
  }

  void name(const Entry& entry) {
    const bool kitchen = entry.text("kind") == "kitchen";
    const std::string called = entry.text("name");
    const std::int64_t number =
        name_row(transaction_, kitchen ? DocumentKind::kitchen : DocumentKind::recipe, called);
    for (const std::string& tag : entry.texts("tags")) {
      tag_row(transaction_, number, tag);
    }
    for (const Entry& place : entry.entries("course")) {
      Keep keep;
      keep.why = place.text("why");
      keep.at_ms = place.instant("at");
      course_row(transaction_, number, known(documents_, place.text("document"), place.where),
                 keep);
    }
    learn_name_words(transaction_, number);
    (kitchen ? kitchens_ : recipes_)[called] = number;
  }

  void picture(const Entry& entry) {
    const std::string id = entry.text("id");
    // The file's name is made from the id and never taken from the library's text.
    const auto kind = picture_kind_from(entry.text("kind"));
    if (!kind || id.find_first_not_of("0123456789abcdef") != std::string::npos) {
      refuse(entry.where, "is no picture of a known kind");
    }
    const fs::path file = folder_ / "pictures" / (id + "." + std::string(picture_ending(*kind)));
    const CleanPicture clean = clean_picture(file_text(file, k_largest_picture));
    if (!clean.problem.empty() || clean.kind != *kind || sha256_hex(clean.bytes) != id) {
      refuse(file.string(), "is not the picture its name stands for");
    }
    pictures_[id] = keep_picture(transaction_, clean);
  }

  void trial(const Entry& entry) {
    NewTrial trial;
    trial.recipe = known(recipes_, entry.text("recipe"), entry.where + ".recipe");
    trial.version = known(documents_, entry.text("version"), entry.where + ".version");
    if (const auto kitchen = entry.text_or_none("kitchen")) {
      trial.kitchen = known(kitchens_, *kitchen, entry.where + ".kitchen");
    }
    if (const auto state = entry.text_or_none("kitchen_document")) {
      trial.kitchen_state = known(documents_, *state, entry.where + ".kitchen_document");
    }
    trial.started_at_ms = entry.instant("started_at");
    const std::int64_t number = start_trial(transaction_, trial);
    if (number != entry.whole("trial")) {
      refuse(entry.where + ".trial", "is not the next number after the trial before it");
    }
    for (const Entry& at : entry.entries("marks")) {
      const auto mark = mark_from(at.text("mark"));
      if (!mark) {
        refuse(at.where + ".mark", "is not begun, done or undone");
      }
      mark_step(transaction_, number,
                {static_cast<int>(at.whole("step")), *mark, at.instant("at")});
    }
    if (entry.text_or_none("closed_at")) {
      set_closed(transaction_, number, entry.instant("closed_at"));
    }
    lesson(entry, number, trial.kitchen);
    for (const Entry& note : entry.entries("notes")) {
      notes_[note.whole("note")] = {note_of_entry(number, note), note.where};
    }
  }

  void lesson(const Entry& entry, std::int64_t trial, const std::optional<std::int64_t>& kitchen) {
    const Json* taught = member(entry.json, "lesson");
    if (taught == nullptr) {
      return;
    }
    const Entry at{*taught, entry.where + ".lesson"};
    if (!kitchen) {
      refuse(at.where, "belongs to a trial without a kitchen");
    }
    Lesson lesson{trial, *kitchen, at.instant("taught_at"), std::nullopt, at.text("kitchen")};
    if (at.text_or_none("unlearnt_at")) {
      lesson.unlearnt_at_ms = at.instant("unlearnt_at");
    }
    keep_lesson(transaction_, lesson);
  }

  /// Notes are written when all are known, in the order of their numbers, which is the
  /// order in which they were written first.
  NewNote note_of_entry(std::int64_t trial, const Entry& entry) {
    NewNote note;
    note.trial = trial;
    note.at_ms = entry.instant("at");
    note.text = entry.text("text");
    const Json* observations = member(entry.json, "observations");
    note.observations = observations == nullptr ? "[]" : json_text(*observations);
    if (const Json* instead = member(entry.json, "instead_of");
        instead != nullptr && !instead->is_null()) {
      note.instead_of = entry.whole("instead_of");
    }
    if (const auto key = entry.text_or_none("key")) {
      note.sender_key = *key;
    }
    for (const std::string& id : entry.texts("pictures")) {
      note.pictures.push_back(known(pictures_, id, entry.where + ".pictures"));
    }
    return note;
  }

  struct WaitingNote {
    NewNote note;
    std::string where;
  };

  Transaction& transaction_;
  fs::path folder_;
  Numbers documents_;
  Numbers recipes_;
  Numbers kitchens_;
  Numbers pictures_;
  std::map<std::int64_t, WaitingNote> notes_;
  std::map<std::string, int> count_;
};

/// Walks the file's text and hands over each entry of each list as soon as it is whole, so
/// that a large library needs little more memory than its text.
void walk(const fs::path& file, Reader& reader) {
  constexpr int k_deepest = 64;
  const std::string text = file_text(file, k_most_bytes);
  std::string list;
  bool known_format = false;
  const auto at = [&](int depth, Json::parse_event_t event, Json& parsed) {
    if (depth > k_deepest) {
      refuse(file.string(), "nests too deep");
    }
    if (depth == 1 && event == Json::parse_event_t::key) {
      list = parsed.get<std::string>();
    } else if (depth == 1 && event == Json::parse_event_t::value && list == "maslin_library") {
      known_format = parsed == 1;
      if (!known_format) {
        refuse(file.string(), "was written by a newer maslin");
      }
    } else if (depth == 2 && event == Json::parse_event_t::object_end && known_format) {
      reader.read(list, parsed);
      return false;
    }
    return true;
  };
  const Json rest = Json::parse(text.begin(), text.end(), at, false);
  if (rest.is_discarded() || !known_format) {
    refuse(file.string(), "is no library that maslin wrote, or not all of it");
  }
}

}  // namespace

Everything read_in(Store& store, const std::string& folder) {
  Database& database = store.database();
  Transaction transaction(database);
  if (database.whole("SELECT (SELECT count(*) FROM document) + (SELECT count(*) FROM name)"
                     " + (SELECT count(*) FROM picture)") != 0) {
    throw StoreError({database.file(), "holds something already",
                      "read the library into a new store, named with --store"});
  }
  const fs::path root(folder);
  Reader reader(transaction, root);
  walk(root / "library.json", reader);
  const Everything read = reader.finish();
  transaction.commit();
  return read;
}

}  // namespace maslin
