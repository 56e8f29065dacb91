#include "app/bake_report.h"

#include <cmath>

#include "quantity/number_text.h"

namespace maslin {
namespace {

constexpr std::size_t k_width = 40;

std::string padded(const std::string& text, std::size_t width) {
  std::size_t letters = 0;
  for (const char c : text) {
    letters += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1U : 0U;
  }
  return text + std::string(letters < width ? width - letters : 1, ' ');
}

std::string whole(double value) {
  return number_text(std::round(value), 0);
}

std::string line(const BakeWhatIf& one) {
  if (!one.problem.empty()) {
    return padded(one.what, k_width) + one.problem;
  }
  return padded(one.what, k_width) + padded(whole(one.minutes) + " min", 9) +
         padded(whole(one.core_celsius) + " °C", 8) +
         padded(std::string(crust_name(crust_of(one.lightness))), 12) +
         number_text(one.weight_loss_pct, 1) + " %";
}

}  // namespace

std::vector<std::string> bake_what_if_lines(const BakeWhatIfs& what_ifs) {
  if (!what_ifs.problem.empty()) {
    return {what_ifs.problem};
  }
  std::vector<std::string> out{
      padded("", k_width) + padded("done", 9) + padded("core", 8) + padded("crust", 12) + "lost",
      line(what_ifs.as_it_is)};
  for (const BakeWhatIf& one : what_ifs.others) {
    out.push_back(line(one));
  }
  if (what_ifs.for_golden) {
    const BakeWhatIfs::Setting& setting = *what_ifs.for_golden;
    out.push_back(padded("golden just when the core is done", k_width) +
                  (setting.problem.empty()
                       ? "at " + whole(setting.celsius) + " °C, " + whole(setting.minutes) + " min"
                       : setting.problem));
  }
  if (what_ifs.last_minute_before_dry) {
    out.push_back(padded("before it is dry (12 % lost)", k_width) + "out by minute " +
                  whole(std::floor(*what_ifs.last_minute_before_dry)));
  }
  return out;
}

}  // namespace maslin
