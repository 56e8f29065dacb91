// cli: the commands of the terminal, a thin face on app/. Exit status: 0 done, 1 the
// input is at fault (one sentence on standard error), 2 wrong usage, 3 the program is.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace maslin {

inline constexpr int k_done = 0;
inline constexpr int k_input_at_fault = 1;
inline constexpr int k_wrong_usage = 2;
inline constexpr int k_program_at_fault = 3;

struct CommonOptions {
  bool json = false;
  std::string kitchen;  // a file, or the name of one that is kept
  std::string room;     // of that kitchen, in words: "21, 14 at night"
  std::string store;    // file of the store; empty: the one in the person's data folder
  std::string locale;
  std::uint64_t seed = 1;
  std::uint32_t draws = 1024;
};

int read_command(const std::vector<std::string>& files, const CommonOptions& options);
struct ForecastArguments {
  std::string picture;            // a file for the inside of a piece through its bake, .svg or .png
  std::vector<std::string> seen;  // notes of what was observed so far: "doubled at 48 min"
  bool what_if = false;           // also what the rise would do otherwise
  double rise_minutes = 0.0;      // of all proves together, as wanted; 0: not said
  std::string begins;             // the hour when the dough is mixed: "21:00"
};
int forecast_command(const std::vector<std::string>& files, const ForecastArguments& arguments,
                     const CommonOptions& options);
/// Wants and holds as in adjust/want.h. Status 0 also when wants exclude each other: that is
/// an answer.
int adjust_command(const std::vector<std::string>& files, const std::vector<std::string>& wants,
                   const std::vector<std::string>& holds, const std::string& prices,
                   const CommonOptions& options);
int pantry_command(const std::string& word, const CommonOptions& options);
/// A kitchen file as it is read, or what a kept kitchen has learnt; `unlearn` > 0 takes that
/// trial's lesson back first.
int kitchen_command(const std::string& file, std::int64_t unlearn, const CommonOptions& options);
/// The living card of one recipe, written to `out`; empty or "-" is standard output.
int living_command(const std::string& file, const std::string& out, const CommonOptions& options);
struct ServeArguments {
  std::uint16_t port = 0;  // 0: a free one
  bool lan = false;        // other devices on the network may join
};
int serve_command(const ServeArguments& arguments, const CommonOptions& options);

}  // namespace maslin
