#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>

#include "quantity/instant.h"
#include "recipe/json.h"
#include "store/documents.h"
#include "store/everything.h"
#include "store/lessons.h"
#include "store/trials.h"

namespace maslin {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void cannot_write(const fs::path& file) {
  throw StoreError({file.string(), "cannot be written (" + std::string(std::strerror(errno)) + ")",
                    "check the folder, your right to write there, and that the disk has room"});
}

void write_file(const fs::path& file, const std::string& bytes) {
  std::ofstream stream(file, std::ios::binary);
  stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  stream.close();
  if (!stream) {
    cannot_write(file);
  }
}

/// The JSON file, written entry by entry so that a large store needs no large memory.
class Writer {
 public:
  explicit Writer(const fs::path& file) : file_(file), stream_(file, std::ios::binary) {
    if (!stream_) {
      cannot_write(file_);
    }
    stream_ << "{\"maslin_library\":1";
  }
  void begin_list(const char* key) {
    stream_ << ",\n\"" << key << "\":[";
    first_ = true;
  }
  /// `open` lacks its closing brace when `body` is to be its last member, as it is.
  void entry(const Json& entry, const std::string& body = {}) {
    std::string line = json_text(entry);
    if (!body.empty()) {
      line.back() = ',';
      line += "\"body\":" + body + "}";
    }
    stream_ << (first_ ? "\n" : ",\n") << line;
    first_ = false;
  }
  void end_list() { stream_ << "\n]"; }
  void end() {
    stream_ << "\n}\n";
    stream_.close();
    if (!stream_) {
      cannot_write(file_);
    }
  }

 private:
  fs::path file_;
  std::ofstream stream_;
  bool first_ = true;
};

int write_documents(Database& database, Writer& writer) {
  Statement rows = database.ask(
      "SELECT id, kind, title, first_saved_at_ms, number, body FROM document ORDER BY number");
  Statement parents = database.ask(
      "SELECT d.id FROM descent JOIN document d ON d.number = parent WHERE document = ?"
      " ORDER BY parent",
      {nullptr});
  int count = 0;
  writer.begin_list("documents");
  for (; rows.row(); ++count) {
    Json entry{{"id", rows.text(0)},
               {"kind", rows.text(1)},
               {"title", rows.text(2)},
               {"first_saved_at", instant_text(rows.whole(3))},
               {"parents", Json::array()}};
    parents.again({rows.whole(4)});
    while (parents.row()) {
      entry["parents"].push_back(parents.text(0));
    }
    writer.entry(entry, rows.text(5));
  }
  writer.end_list();
  return count;
}

int write_names(Database& database, Writer& writer) {
  Statement rows = database.ask("SELECT kind, name, number FROM name ORDER BY number");
  Statement tags = database.ask("SELECT word FROM tag WHERE name = ? ORDER BY word", {nullptr});
  Statement course = database.ask(
      "SELECT d.id, at_ms, why FROM course JOIN document d ON d.number = document"
      " WHERE name = ? ORDER BY place",
      {nullptr});
  int count = 0;
  writer.begin_list("names");
  for (; rows.row(); ++count) {
    Json entry{{"kind", rows.text(0)},
               {"name", rows.text(1)},
               {"tags", Json::array()},
               {"course", Json::array()}};
    tags.again({rows.whole(2)});
    while (tags.row()) {
      entry["tags"].push_back(tags.text(0));
    }
    course.again({rows.whole(2)});
    while (course.row()) {
      entry["course"].push_back({{"document", course.text(0)},
                                 {"at", instant_text(course.whole(1))},
                                 {"why", course.text(2)}});
    }
    writer.entry(entry);
  }
  writer.end_list();
  return count;
}

int write_pictures(Database& database, Writer& writer, const fs::path& folder) {
  Statement rows = database.ask("SELECT id, kind, bytes FROM picture ORDER BY number");
  int count = 0;
  writer.begin_list("pictures");
  for (; rows.row(); ++count) {
    const PictureKind kind = picture_kind_from(rows.text(1)).value_or(PictureKind::jpeg);
    const std::string file = "pictures/" + rows.text(0) + "." + std::string(picture_ending(kind));
    write_file(folder / file, rows.text(2));
    writer.entry({{"id", rows.text(0)}, {"kind", rows.text(1)}, {"file", file}});
  }
  writer.end_list();
  return count;
}

Json note_json(const Note& note) {
  Json out{{"note", note.number},
           {"at", instant_text(note.at_ms)},
           {"text", note.text},
           {"observations", parse_json(note.observations).value_or(Json::array())}};
  out["instead_of"] = note.instead_of ? Json(*note.instead_of) : Json(nullptr);
  out["pictures"] = note.pictures;
  if (!note.sender_key.empty()) {
    out["key"] = note.sender_key;
  }
  return out;
}

void write_trials(Database& database, Writer& writer, Everything& written) {
  writer.begin_list("trials");
  std::vector<Trial> trials = all_trials(database, TrialFilter::all);
  for (auto trial = trials.rbegin(); trial != trials.rend(); ++trial, ++written.trials) {
    Json entry{{"trial", trial->number}, {"recipe", trial->recipe}, {"version", trial->version_id}};
    entry["kitchen"] = trial->kitchen.empty() ? Json(nullptr) : Json(trial->kitchen);
    entry["kitchen_document"] =
        trial->kitchen_state_id.empty() ? Json(nullptr) : Json(trial->kitchen_state_id);
    entry["started_at"] = instant_text(trial->started_at_ms);
    entry["closed_at"] =
        trial->closed_at_ms ? Json(instant_text(*trial->closed_at_ms)) : Json(nullptr);
    entry["marks"] = Json::array();
    for (const StepMark& mark : marks_of(database, trial->number)) {
      entry["marks"].push_back({{"step", mark.step},
                                {"mark", std::string(mark_name(mark.mark))},
                                {"at", instant_text(mark.at_ms)}});
    }
    if (const auto lesson = lesson_of(database, trial->number)) {
      entry["lesson"] = {
          {"taught_at", instant_text(lesson->taught_at_ms)},
          {"unlearnt_at",
           lesson->unlearnt_at_ms ? Json(instant_text(*lesson->unlearnt_at_ms)) : Json(nullptr)},
          {"kitchen", lesson->body}};
    }
    entry["notes"] = Json::array();
    for (const Note& note : notes_of(database, trial->number)) {
      entry["notes"].push_back(note_json(note));
      ++written.notes;
    }
    writer.entry(entry);
  }
  writer.end_list();
}

}  // namespace

Everything write_out(Store& store, const std::string& folder) {
  const fs::path root(folder);
  std::error_code failed;
  if (fs::exists(root, failed) && !fs::is_empty(root, failed)) {
    throw StoreError({folder, "is not empty", "name a new folder; nothing is written over"});
  }
  fs::create_directories(root / "pictures", failed);
  if (failed) {
    throw StoreError({folder, "cannot be made (" + failed.message() + ")",
                      "check the folder above it and your right to write there"});
  }
  // One reading transaction: what others write meanwhile does not get half into it.
  Database& database = store.database();
  Everything written;
  database.run("BEGIN");
  try {
    Writer writer(root / "library.json");
    written.documents = write_documents(database, writer);
    written.names = write_names(database, writer);
    written.pictures = write_pictures(database, writer, root);
    write_trials(database, writer, written);
    writer.end();
  } catch (...) {
    database.take_back();
    throw;
  }
  database.take_back();  // nothing was changed
  return written;
}

}  // namespace maslin
