#include "forecast/citations.h"

#include <algorithm>

#include "forecast/embedded_table.h"
#include "quantity/table.h"

namespace maslin {

std::vector<Citation> citations() {
  const Table rows(forecast_data::embedded_table("citations.tsv"));
  const Table counts(forecast_data::embedded_table("checks.tsv"));
  std::vector<Citation> out;
  for (std::size_t row = 0; row < rows.size(); ++row) {
    Citation one{std::string(rows.cell(row, "figure")),
                 std::string(rows.cell(row, "says")),
                 std::string(rows.cell(row, "document")),
                 {}};
    for (std::string_view subject : split(rows.cell(row, "checks"), ',')) {
      subject.remove_prefix(std::min(subject.find_first_not_of(' '), subject.size()));
      for (std::size_t i = 0; i < counts.size(); ++i) {
        if (counts.cell(i, "subject") == subject) {
          one.checks.push_back({std::string(subject), static_cast<int>(counts.number(i, "figures")),
                                static_cast<int>(counts.number(i, "met"))});
        }
      }
    }
    out.push_back(std::move(one));
  }
  return out;
}

}  // namespace maslin
