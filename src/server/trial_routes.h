// trial_routes: the addresses under which a bake is started, noted, looked at and closed.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "server/answer.h"

namespace maslin {

struct Route;

/// A recipe to bake: a document that read gave, found text, or the words for a kept version.
struct StartQuestion {
  std::string recipe_json;
  std::string text;
  std::string version;
  std::string name;          // to keep the recipe under; may be empty
  std::string kitchen_json;  // a kitchen document, or
  std::string kitchen_name;  // the name of a kept one; both may be empty
};

struct NoteQuestion {
  std::int64_t trial = 0;
  std::string text;
  std::string key;  // the sender's own name for the note: the same again is kept once
  std::string at;   // ISO 8601; empty = now
  std::optional<std::int64_t> instead_of;
  std::string certainty;  // "sure" or "ask"; empty = ask
  std::stop_token gone;
};

/// A picture of a trial, as a note that shows it.
struct PictureNote {
  std::int64_t trial = 0;
  std::string bytes;  // of a JPEG, PNG or WebP file
  std::string text;
  std::string key;
  std::string at;
};

/// A kept picture: its kind (image/jpeg, ...) and bytes, or why there is none.
struct PictureAnswer {
  std::string content_type;
  std::string bytes;
  std::string problem;
};

struct MarkQuestion {
  std::int64_t trial = 0;
  std::uint64_t step = 1;
  std::string mark;  // begun, done, undone
  std::string at;
};

/// A trial, with the person who asks perhaps gone.
struct TrialQuestion {
  std::int64_t trial = 0;
  bool forecast = true;  // say also what is to come of it
  std::stop_token gone;
};

struct UnlearnQuestion {
  std::string kitchen;  // its name
  std::int64_t trial = 0;
  std::stop_token gone;
};

/// What to change for the next bake of a kept recipe.
struct NextQuestion {
  std::string recipe;  // its name
  std::string sense;   // which score counts; may be empty
  std::stop_token gone;
};

struct TrialHandlers {
  std::function<ApiAnswer(const StartQuestion&)> start;
  std::function<ApiAnswer()> list;
  std::function<ApiAnswer(const NoteQuestion&)> note;
  std::function<ApiAnswer(const PictureNote&)> add_picture;
  std::function<PictureAnswer(const std::string& id)> picture;
  std::function<ApiAnswer(const MarkQuestion&)> mark;
  std::function<ApiAnswer(const TrialQuestion&)> show;
  std::function<ApiAnswer(const TrialQuestion&)> close;
  std::function<ApiAnswer(const TrialQuestion&)> reopen;
  std::function<ApiAnswer(const TrialQuestion&)> diagnose;
  std::function<ApiAnswer(const NextQuestion&)> next;
  std::function<ApiAnswer(const std::string& kitchen)> learnt;
  std::function<ApiAnswer(const UnlearnQuestion&)> unlearn;
};

std::vector<Route> trial_routes(const TrialHandlers& handlers);

}  // namespace maslin
