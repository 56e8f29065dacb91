#include "recipe/json_shared.h"

#include "recipe/limits.h"

namespace maslin {
namespace {

double length_mm(const Json& value, const char* key, const std::string& where,
                 Complaints& complaints) {
  const double mm = number_at(value, key).value_or(0.0);
  if (mm < 0 || mm > k_most_tin_mm) {
    complaints.complain(where + "." + key, "is not between 0 and 10 000 mm",
                        "give the inside size in mm");
    return 0.0;
  }
  return mm;
}

}  // namespace

std::string sentence(const Problem& problem) {
  return (problem.where.empty() ? "" : problem.where + ": ") + problem.what +
         (problem.mend.empty() ? "" : "; " + problem.mend) + ".";
}

void Complaints::complain(std::string where, std::string what, std::string mend) {
  if (problems.size() < 20) {
    problems.push_back({std::move(where), std::move(what), std::move(mend)});
  }
}

Json tin_json(const Tin& tin) {
  Json out{{"kind", tin.kind}};
  const auto add = [&out](const char* key, double value) {
    if (value > 0) {
      out[key] = rounded(value);
    }
  };
  add("length_mm", tin.length_mm);
  add("width_mm", tin.width_mm);
  add("depth_mm", tin.depth_mm);
  add("diameter_mm", tin.diameter_mm);
  if (!tin.material.empty()) {
    out["material"] = tin.material;
  }
  if (!tin.colour.empty()) {
    out["colour"] = tin.colour;
  }
  return out;
}

Tin tin_from(const Json& value, const std::string& where, Complaints& complaints) {
  Tin out;
  out.kind = text_at(value, "kind");
  out.length_mm = length_mm(value, "length_mm", where, complaints);
  out.width_mm = length_mm(value, "width_mm", where, complaints);
  out.depth_mm = length_mm(value, "depth_mm", where, complaints);
  out.diameter_mm = length_mm(value, "diameter_mm", where, complaints);
  out.material = text_at(value, "material");
  out.colour = text_at(value, "colour");
  return out;
}

}  // namespace maslin
