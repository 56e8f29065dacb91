#include "cli/plan_command.h"

#include <CLI/CLI.hpp>
#include <chrono>
#include <ctime>
#include <iostream>
#include <memory>

#include "app/library.h"
#include "app/planning.h"
#include "app/trial_day.h"
#include "cli/inputs.h"
#include "plan/calendar.h"
#include "plan/clock_text.h"
#include "plan/plan_text.h"

namespace maslin {
namespace {

/// Minutes since 1970 on this machine's own clock, as it is set here.
double minutes_here() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm here{};
  localtime_r(&now, &here);
  return std::floor((static_cast<double>(now) + static_cast<double>(here.tm_gmtoff)) / 60.0);
}

/// The request, or nothing once the sentence why is said.
std::optional<PlanRequest> request_of(const PlanOptions& plan) {
  DayWords words{plan.ready_at, plan.now, plan.chance, plan.awake, plan.done};
  const double here = minutes_here();
  bool ahead = false;
  for (std::string* said : {&words.now, &words.ready_at}) {
    if (said->empty()) {
      continue;
    }
    const ReadClock read = clock_said(*said, here);
    if (!read.minutes) {
      complain("", read.problem);
      return std::nullopt;
    }
    ahead = said == &words.ready_at && *read.minutes > here;
    *said = clock_text(*read.minutes);
  }
  // A day that is still to come cannot begin before now; one in the past is an example.
  if (words.now.empty() && (words.ready_at.empty() || ahead || !words.done.empty())) {
    words.now = clock_text(here);
  }
  Result<PlanRequest> out = plan_request_from(words);
  if (!out.value) {
    complain("", out.problem);
  }
  return std::move(out.value);
}

std::string written(const DayPlan& plan, const PlanOptions& how, const CommonOptions& options) {
  if (options.json) {
    return plan_to_json(plan) + "\n";
  }
  return how.as == "ics" ? plan_to_calendar(plan) : plan_text(plan);
}

}  // namespace

void add_plan_command(
    CLI::App& program, const std::function<void(CLI::App*)>& add_common,
    const std::function<void(const PlanOptions&, const std::vector<std::string>&)>& run) {
  struct Asked {
    PlanOptions plan;
    std::vector<std::string> files;
  };
  const auto asked = std::make_shared<Asked>();
  PlanOptions& plan = asked->plan;
  CLI::App* command =
      program.add_subcommand("plan", "The day, backwards from the hour it is wanted");
  command->add_option("RECIPE", asked->files,
                      "Recipe texts or read documents; - is standard input");
  command->add_option("--trial", plan.trial, "The rest of this trial's day, by what was noted")
      ->check(CLI::PositiveNumber);
  command
      ->add_option("--seen", plan.seen,
                   "What was seen so far: 'doubled at 48 min'; may be repeated")
      ->expected(1)
      ->allow_extra_args(false)  // what follows is the recipe
      ->take_all();
  command->add_option("--ready-at", plan.ready_at,
                      "When it is wanted, on the kitchen's clock: 16:00, tomorrow 7:30, Sat 12:00, "
                      "2026-05-01T16:00");
  command->add_option("--now", plan.now,
                      "Nothing begins before; else the machine's clock, for a day that is to come");
  command->add_option(
      "--awake", plan.awake,
      "Hours with hands, every day: 6-23; 0-24 for all. Else the kitchen's, or 6-23");
  command->add_option("--chance", plan.chance, "Wanted chance of being ready in time")
      ->check(CLI::Range(0.5, 0.99));
  command
      ->add_option("--done", plan.done,
                   "A step done or under way: \"knead=13:00/13:12\", \"first prove=13:15/\"; may "
                   "be repeated")
      ->expected(1)
      ->allow_extra_args(false)  // what follows is the recipe
      ->take_all();
  command->add_option("--as", plan.as, "text, or ics for a calendar")
      ->check(CLI::IsMember({"text", "ics"}));
  add_common(command);
  command->callback([asked, run] {
    if (asked->files.empty() == (asked->plan.trial == 0)) {
      throw CLI::RequiredError("RECIPE or --trial, one of them");
    }
    run(asked->plan, asked->files);
  });
}

int plan_command(const std::vector<std::string>& files, const PlanOptions& plan,
                 const CommonOptions& options) {
  const auto kitchen = kitchen_of(options);
  const auto request = kitchen ? request_of(plan) : std::nullopt;
  if (!request) {
    return k_input_at_fault;
  }
  const Tools tools;
  DayQuestion common;
  common.forecast.kitchen = *kitchen;
  common.forecast.options = {options.seed, options.draws};
  common.plan = *request;
  if (!take_seen(tools, plan.seen, common.forecast.seen)) {
    return k_input_at_fault;
  }
  if (plan.trial > 0) {
    Result<Store> store = open_store(options.store);
    if (!store.value) {
      return complain("", store.problem);
    }
    const Result<DayPlan> day = plan_trial(tools, *store.value, plan.trial, common);
    if (!day.value) {
      return complain("", day.problem);
    }
    std::cout << written(*day.value, plan, options);
    return k_done;
  }
  return for_each_recipe(tools, files, options, [&](const Recipe& recipe, const std::string& file) {
    const Result<DayPlan> day = plan_recipe(tools, recipe, common);
    if (!day.value) {
      return complain(name_of(file), day.problem);
    }
    std::cout << written(*day.value, plan, options);
    return k_done;
  });
}

}  // namespace maslin
