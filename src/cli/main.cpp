#include <CLI/CLI.hpp>
#include <csignal>
#include <cstdio>
#include <exception>
#include <string>
#include <vector>

#include "app/app.h"
#include "cli/commands.h"
#include "cli/compare_command.h"
#include "cli/cost_command.h"
#include "cli/hand_on_command.h"
#include "cli/keeping_arguments.h"
#include "cli/label_command.h"
#include "cli/plan_command.h"

namespace {

using namespace maslin;

int run(int argc, char** argv) {
  CLI::App app{"maslin: from a found bread or bun recipe to one you can trust."};
  app.set_version_flag("--version", std::string(version()));
  app.require_subcommand(1);
  CommonOptions options;
  std::vector<std::string> files;
  std::string word;
  ServeArguments serving;
  ForecastArguments forecasting;
  int status = k_done;

  const auto common = [&options](CLI::App* command) {
    command->add_flag("--json", options.json, "One JSON document a line instead of words");
    command->add_option("--seed", options.seed,
                        "Seed of the draws; the same seed, the same answer");
    command->add_option("--draws", options.draws, "Draws of a forecast")
        ->check(CLI::Range(8, 65536));
    command->add_option("--kitchen", options.kitchen,
                        "A kitchen file (docs/schema/kitchen.schema.json), or a kept one's name");
    command->add_option("--room", options.room,
                        "The room of it: 21; or \"21, 14 at night\"; or \"16 at 7:00, 22 at 13\"");
    command->add_option("--store", options.store, "The file things are kept in")
        ->check([](const std::string& file) { return file.empty() ? "needs a file's name" : ""; });
    command->add_option("--locale", options.locale, "Whose measures: us, uk, au, eu, old_uk, ...");
  };

  CLI::App* read =
      app.add_subcommand("read", "Found text to a weighed recipe with ranges and doubts");
  read->add_option("FILE", files, "Recipe texts; - is standard input")->required();
  common(read);
  read->callback([&] { status = read_command(files, options); });

  CLI::App* forecast =
      app.add_subcommand("forecast", "What the dough, the rise and the bake will do");
  forecast->add_option("RECIPE", files, "Recipe texts or read documents; - is standard input")
      ->required();
  forecast->add_option("--picture", forecasting.picture,
                       "A file for the inside of a piece through its bake: .svg or .png");
  forecast->add_option("--begins", forecasting.begins,
                       "The hour when the dough is mixed, where the room changes through the day");
  forecast->add_flag("--what-if", forecasting.what_if,
                     "Also the rise with other yeast, in other rooms, with less sugar, and the "
                     "bake with other pieces, tins and settings");
  forecast
      ->add_option("--rise-in", forecasting.rise_minutes,
                   "What it takes for all proves together to last so many minutes")
      ->check(CLI::Range(5.0, 2880.0));
  common(forecast);
  forecast
      ->add_option("--seen", forecasting.seen,
                   "What was seen so far: 'doubled at 48 min', 'dough 24 C'; may be repeated")
      ->expected(1)
      ->take_all();
  forecast->callback([&] { status = forecast_command(files, forecasting, options); });

  std::vector<std::string> wants;
  std::vector<std::string> holds;
  CLI::App* adjust = app.add_subcommand("adjust", "The least change that gives what is wanted");
  adjust->add_option("RECIPE", files, "Recipe texts or read documents; - is standard input")
      ->required();
  adjust
      ->add_option(
          "--want", wants,
          "In words (softer, less sugar, 12 pieces of 80 g, no egg, fits the tin, cheaper by 10 %) "
          "or short "
          "(feel=soft, sugar_pct_flour<=20, scale=2, swap butter=vegetable_oil); may be repeated")
      ->expected(1)
      ->take_all();
  adjust->add_option("--hold", holds, "What stays: eggs, flour, orange=3; may be repeated")
      ->expected(1)
      ->take_all();
  std::string prices;
  const char* priced =
      "Your prices: a table of item, amount, unit, price; or JSON. Else the kitchen's";
  adjust->add_option("--prices", prices, priced);
  common(adjust);
  adjust->callback([&] { status = adjust_command(files, wants, holds, prices, options); });

  std::string rules = "eu";
  CLI::App* label =
      app.add_subcommand("label", "Ingredients, allergens and nutrition as on a pack");
  label->add_option("RECIPE", files, "Recipe texts or read documents; - is standard input")
      ->required();
  label->add_option("--rules", rules, "Whose law: eu, uk, us or codex");
  common(label);
  label->callback([&] { status = label_command(files, rules, options); });
  add_plan_command(app, common, [&](const PlanOptions& asked, const std::vector<std::string>& of) {
    status = plan_command(of, asked, options);
  });

  int loads = 1;
  CLI::App* cost = app.add_subcommand("cost", "What to buy by packs, and what a batch costs");
  cost->add_option("RECIPE", files, "Recipe texts or read documents; - is standard input")
      ->required();
  cost->add_option("--prices", prices, priced);
  cost->add_option("--loads", loads, "How often the oven is filled")->check(CLI::Range(1, 100));
  common(cost);
  cost->callback([&] { status = cost_command(files, prices, loads, options); });

  CLI::App* pantry = app.add_subcommand("pantry", "What is known of an ingredient, with sources");
  pantry->add_option("WORD", word, "An ingredient, or part of its name")->required();
  common(pantry);
  pantry->callback([&] { status = pantry_command(word, options); });

  std::string beside;
  CLI::App* compare =
      app.add_subcommand("compare", "Two versions or bakes side by side: amounts and outcome");
  compare->add_option("A", word, "A recipe file, a kept version (knots@2), or a trial's number")
      ->required();
  compare->add_option("B", beside, "The other")->required();
  common(compare);
  compare->callback([&] { status = compare_command(word, beside, options); });

  CLI::App* kitchen = app.add_subcommand("kitchen", "Check a kitchen file and print what it says");
  kitchen->add_option("FILE", word, "A kitchen file; - is standard input");
  std::int64_t unlearn = 0;
  kitchen->add_option("--unlearn", unlearn, "Take back what this trial taught the kept kitchen")
      ->check(CLI::PositiveNumber);
  common(kitchen);
  kitchen->callback([&, kitchen] {
    if (!kitchen->get_subcommands().empty()) {
      return;
    }
    if (word.empty()) {
      throw CLI::RequiredError("FILE, add, list or show");
    }
    status = kitchen_command(word, unlearn, options);
  });

  add_hand_on_command(app, common,
                      [&](const HandOnOptions& asked, const std::vector<std::string>& of) {
                        status = asked.living ? living_command(of.front(), asked.out, options)
                                              : hand_on_command(of, asked, options);
                      });

  KeepingOptions keeping;
  add_keeping_commands(app, *kitchen, {options, keeping, common, status});

  CLI::App* serve = app.add_subcommand("serve", "The page, on this machine only unless --lan");
  serve->add_option("--port", serving.port, "Port; 0 picks a free one and prints it");
  serve->add_flag("--lan", serving.lan, "Let paired devices on this network use it too");
  serve->add_option("--store", options.store, "The file things are kept in");
  serve->callback([&] { status = serve_command(serving, options); });

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? k_done : k_wrong_usage;
  }
  return status;
}

}  // namespace

int main(int argc, char** argv) {
  // Writing past a quota then fails with a reason instead of ending the program.
  std::signal(SIGXFSZ, SIG_IGN);
  try {
    return run(argc, argv);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "maslin failed: %s. This is a fault of the program; please report it.\n",
                 error.what());
    return maslin::k_program_at_fault;
  }
}
