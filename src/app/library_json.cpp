// What the library says, as the documents of the commands.
#include "app/library.h"
#include "quantity/instant.h"
#include "recipe/json.h"

namespace maslin {
namespace {

Json named_json(const Named& named) {
  return {{"name", named.name},
          {"title", named.title},
          {"version", named.document_id},
          {"saved_at", instant_text(named.saved_at_ms)},
          {"versions", named.versions},
          {"trials", named.trials},
          {"tags", named.tags}};
}

}  // namespace

std::string kept_to_json(const KeptVersion& kept) {
  return json_text({{"name", kept.name},
                    {"version", kept.document.id},
                    {"place", kept.place},
                    {"changed", kept.changed}});
}

std::string history_to_json(const History& history) {
  Json out = named_json(history.named);
  out["history"] = Json::array();
  for (const CourseEntry& entry : history.course) {
    out["history"].push_back({{"place", entry.place},
                              {"version", entry.document_id},
                              {"title", entry.title},
                              {"saved_at", instant_text(entry.at_ms)},
                              {"why", entry.why},
                              {"parents", entry.parents},
                              {"trials", entry.trials}});
  }
  return json_text(out);
}

std::string search_to_json(const std::string& words, const SearchResult& result) {
  Json out{{"words", words}, {"recipes", Json::array()}, {"notes", Json::array()}};
  for (const FoundRecipe& found : result.recipes) {
    out["recipes"].push_back({{"name", found.name},
                              {"title", found.title},
                              {"version", found.document_id},
                              {"place", found.place},
                              {"current", found.current}});
  }
  for (const FoundNote& found : result.notes) {
    out["notes"].push_back({{"trial", found.trial},
                            {"note", found.note},
                            {"recipe", found.recipe},
                            {"at", instant_text(found.at_ms)},
                            {"text", found.text}});
  }
  return json_text(out);
}

std::string named_to_json(const std::vector<Named>& named, DocumentKind kind) {
  Json list = Json::array();
  for (const Named& one : named) {
    list.push_back(named_json(one));
    if (kind == DocumentKind::kitchen) {
      list.back().erase("tags");
      list.back().erase("trials");
    }
  }
  return json_text({{kind == DocumentKind::kitchen ? "kitchens" : "recipes", list}});
}

std::string check_to_json(const std::vector<std::string>& wrong) {
  return json_text({{"sound", wrong.empty()}, {"wrong", wrong}});
}

std::string backup_to_json(const std::string& file) {
  return json_text({{"file", file}});
}

std::string everything_to_json(const Everything& everything, const std::string& folder) {
  return json_text({{"folder", folder},
                    {"documents", everything.documents},
                    {"names", everything.names},
                    {"trials", everything.trials},
                    {"notes", everything.notes},
                    {"pictures", everything.pictures}});
}

}  // namespace maslin
