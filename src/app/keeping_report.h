// The terminal's words for what is kept: recipes, kitchens, trials and notes.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "app/library.h"
#include "app/trials.h"

namespace maslin {

/// "2026-05-01 16:03" on the clock here.
std::string local_time_text(std::int64_t ms);

std::string kept_report(const KeptVersion& kept);
std::string history_report(const History& history);
std::string search_report(const SearchResult& result);
std::string named_report(const std::vector<Named>& named, DocumentKind kind);
std::string check_report(const std::vector<std::string>& wrong);
/// "written to" or "read from" the folder.
std::string everything_report(const Everything& everything, std::string_view where);

std::string started_report(const StartedTrial& started);
std::string note_report(const WrittenNote& note);
std::string step_report(const ChecklistStep& step);
std::string closed_report(const ClosedTrial& closed);
std::string trial_report(const TrialView& view);
std::string trials_report(const std::vector<Trial>& trials);

}  // namespace maslin
