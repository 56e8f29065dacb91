#include "adjust/balance.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace maslin {
namespace {

constexpr double k_elastic_cost = 1000.0;  // per unit of the elastic want: before all else
constexpr double k_feel_tolerance = 0.05;
constexpr double k_relative_tolerance = 0.005;
constexpr int k_most_rounds = 4;
/// Moves the water that the dough feels by less than a tenth of what counts as met.
constexpr double k_same_factor = 3e-4;

using Form = double LineForms::*;

/// A ratio 100 numerator / flour with a bound: what kept figures and percent wants share.
struct Percent {
  WantKind kind;
  Form form;
  double keep_cost;  // per point away from what it was
  double KeptFigures::* kept;
};
constexpr std::array<Percent, 6> k_percents{{
    {WantKind::sugar_pct_flour, &LineForms::sugar, 0.05, &KeptFigures::sugar_pct},
    {WantKind::fat_pct_flour, &LineForms::fat, 0.05, &KeptFigures::fat_pct},
    {WantKind::salt_pct_flour, &LineForms::salt, 1.0, &KeptFigures::salt_pct},
    {WantKind::yeast_pct_flour, &LineForms::yeast, 0.5, &KeptFigures::yeast_pct},
    {WantKind::egg_pct_flour, &LineForms::egg, 0.0, nullptr},
    {WantKind::water_pct_flour, &LineForms::water, 0.0, nullptr},
}};
constexpr double k_feel_keep_cost = 0.15;  // per point

const Percent* percent_of(WantKind kind) {
  for (const Percent& one : k_percents) {
    if (one.kind == kind) {
      return &one;
    }
  }
  return nullptr;
}

double total(const Balance& balance, const std::vector<double>& grams, Form form) {
  double out = 0.0;
  for (std::size_t i = 0; i < grams.size(); ++i) {
    out += balance.lines[i].forms.*form * grams[i];
  }
  return out;
}

std::vector<double> reference_of(const Balance& balance) {
  std::vector<double> out;
  for (const BalanceLine& line : balance.lines) {
    out.push_back(line.grams);
  }
  return out;
}

bool is_about_feel(WantKind kind) {
  return kind == WantKind::feel || kind == WantKind::effective_hydration;
}

/// Builds the programme around a point where the sugars' stiffness factor was taken.
class Programme {
 public:
  Programme(const Balance& balance, const std::vector<double>& at, WholeItems whole_items)
      : balance_(balance),
        whole_items_(whole_items),
        flour_g_(std::max(total(balance, at, &LineForms::flour), 1e-6)) {
    const double plain = 100.0 * total(balance, at, &LineForms::effective) / flour_g_;
    sugar_factor_ = stiffness_factor(plain)[0];
    for (const BalanceLine& line : balance.lines) {
      add_line(line);
    }
    // Ratios alone would also be met by no dough at all.
    LinearProgram::Row flour{
        {}, 0.5 * total(balance, reference_of(balance), &LineForms::flour), k_unbounded};
    for (std::size_t i = 0; i < balance.lines.size(); ++i) {
      flour.terms.emplace_back(amount_[i], balance.lines[i].forms.flour);
    }
    program_.rows.push_back(std::move(flour));
  }

  void want(const Want& want, bool elastic) {
    if (const Percent* percent = percent_of(want.kind)) {
      ratio(percent->form, want.low, want.high, elastic ? k_elastic_cost : 0.0);
    } else if (want.kind == WantKind::effective_hydration) {
      hydration(want.low, want.high, false, elastic ? k_elastic_cost : 0.0);
    } else if (want.kind == WantKind::feel) {
      hydration(want.low, want.high, true, elastic ? k_elastic_cost : 0.0);
    } else if (want.kind == WantKind::total_grams) {
      mass(want.low, want.high, elastic);
    } else if (want.kind == WantKind::fill) {
      mass(balance_.fill_low_g, balance_.fill_high_g, elastic);
    } else if (want.kind == WantKind::cost) {
      cost(want.low, want.high, elastic);
    }
  }

  /// What the recipe was and nobody wants changed.
  void keep(const std::vector<Want>& wants) {
    const auto wanted = [&](auto test) {
      return std::any_of(wants.begin(), wants.end(), [&](const Want& w) { return test(w.kind); });
    };
    for (const Percent& percent : k_percents) {
      if (percent.kept == nullptr || balance_.kept.*percent.kept <= 0.0 ||
          wanted([&](WantKind kind) { return kind == percent.kind; })) {
        continue;
      }
      const double was = balance_.kept.*percent.kept;
      ratio(percent.form, was, was, percent.keep_cost);
    }
    if (!wanted([](WantKind kind) {
          return is_about_feel(kind) || kind == WantKind::water_pct_flour;
        })) {
      hydration(balance_.kept.feel_score, balance_.kept.feel_score, true, k_feel_keep_cost);
    }
  }

  double sugar_factor() const { return sugar_factor_; }

  BalanceSolution solved() const {
    const LinearSolution solution = solve(program_);
    BalanceSolution out;
    out.status = solution.status;
    if (solution.status == SolveStatus::optimal) {
      for (std::size_t i = 0; i < balance_.lines.size(); ++i) {
        const double unit = whole_unit_g(balance_.lines[i]);
        const double x = solution.x[amount_[i]];
        out.grams.push_back(unit > 0.0 && !balance_.lines[i].held ? unit * std::round(x / unit)
                                                                  : x);
      }
    }
    return out;
  }

 private:
  /// Grams of what stays whole of a line, 0 where any amount will do.
  double whole_unit_g(const BalanceLine& line) const {
    const bool whole = whole_items_ == WholeItems::kept ||
                       (whole_items_ == WholeItems::packs_divisible && !line.pack);
    return whole ? line.unit_grams : 0.0;
  }

  void add_line(const BalanceLine& line) {
    const double fixed = line.gone ? 0.0 : line.grams;
    const bool free = !line.held && !line.gone;
    const std::size_t x = program_.add_column(
        {0.0, free ? 0.0 : fixed,
         free ? std::min(line.most_grams, std::max(20.0 * line.grams, 5.0 * flour_g_)) : fixed});
    amount_.push_back(x);
    if (!free) {
      return;
    }
    // |x - grams| as two columns; its cost is relative to the line, small lines to 2 % of flour.
    const double cost = line.weight / std::max(line.grams, 0.02 * flour_g_);
    const std::size_t up = program_.add_column({cost});
    const std::size_t down = program_.add_column({cost});
    program_.rows.push_back({{{x, 1.0}, {up, -1.0}, {down, 1.0}}, line.grams, line.grams});
    const double unit_g = whole_unit_g(line);
    if (unit_g > 0.0) {
      const std::size_t count = program_.add_column({0.0, 0.0, 200.0, true});
      program_.rows.push_back({{{x, 1.0}, {count, -unit_g}}, 0.0, 0.0});
    }
  }

  /// 100 sum(form x) / flour between low and high.
  void ratio(Form form, double low, double high, double soft_cost) {
    LinearProgram::Row below{{}, 0.0, k_unbounded};
    LinearProgram::Row above{{}, -k_unbounded, 0.0};
    for (std::size_t i = 0; i < balance_.lines.size(); ++i) {
      const LineForms& forms = balance_.lines[i].forms;
      below.terms.emplace_back(amount_[i], (100.0 * forms.*form - low * forms.flour) / flour_g_);
      above.terms.emplace_back(amount_[i], (100.0 * forms.*form - high * forms.flour) / flour_g_);
    }
    push_pair(std::move(below), std::move(above), low, high, soft_cost);
  }

  /// Effective hydration, less the absorption when it is the feel, between low and high.
  void hydration(double low, double high, bool feel, double soft_cost) {
    LinearProgram::Row below{{}, 0.0, k_unbounded};
    LinearProgram::Row above{{}, -k_unbounded, 0.0};
    for (std::size_t i = 0; i < balance_.lines.size(); ++i) {
      const LineForms& forms = balance_.lines[i].forms;
      const double points = 100.0 * (forms.effective + sugar_factor_ * forms.sugar_water) -
                            (feel ? forms.absorbed : 0.0);
      below.terms.emplace_back(amount_[i], (points - low * forms.flour) / flour_g_);
      above.terms.emplace_back(amount_[i], (points - high * forms.flour) / flour_g_);
    }
    push_pair(std::move(below), std::move(above), low, high, soft_cost);
  }

  void mass(double low, double high, bool elastic) {
    LinearProgram::Row row{{}, low, high};
    for (const std::size_t column : amount_) {
      row.terms.emplace_back(column, 1.0);
    }
    push(std::move(row), elastic ? k_elastic_cost / flour_g_ : 0.0);
  }

  /// In hundredths of what it costs now, whatever the currency.
  void cost(double low, double high, bool elastic) {
    const double now = total(balance_, reference_of(balance_), &LineForms::cost);
    const double scale = 100.0 / std::max(now, 1e-9);
    LinearProgram::Row row{
        {},
        scale * (low - balance_.other_cost),
        high < k_want_no_limit ? scale * (high - balance_.other_cost) : k_unbounded};
    for (std::size_t i = 0; i < balance_.lines.size(); ++i) {
      row.terms.emplace_back(amount_[i], scale * balance_.lines[i].forms.cost);
    }
    push(std::move(row), elastic ? k_elastic_cost : 0.0);
  }

  void push_pair(LinearProgram::Row below, LinearProgram::Row above, double low, double high,
                 double soft_cost) {
    if (low > -1e6) {
      push(std::move(below), soft_cost);
    }
    if (high < 1e6) {
      push(std::move(above), soft_cost);
    }
  }

  void push(LinearProgram::Row row, double soft_cost) {
    if (soft_cost > 0.0) {
      row.terms.emplace_back(program_.add_column({soft_cost}), 1.0);
      row.terms.emplace_back(program_.add_column({soft_cost}), -1.0);
    }
    program_.rows.push_back(std::move(row));
  }

  const Balance& balance_;
  WholeItems whole_items_;
  double flour_g_;
  double sugar_factor_ = 1.0;
  LinearProgram program_;
  std::vector<std::size_t> amount_;  // column of each line's grams
};

Portions portions_of(const Balance& balance, const std::vector<double>& grams) {
  Portions out;
  for (std::size_t i = 0; i < grams.size(); ++i) {
    for (const Portions::Item& item : balance.lines[i].per_gram.items) {
      out.items.push_back({item.ingredient, item.grams * grams[i]});
    }
  }
  return out;
}

}  // namespace

void set_forms(BalanceLine& line, const DoughModel& model) {
  const DoughTerms terms = dough_terms(model, line.per_gram, {});
  const Portions mixed = line.per_gram.mixed_in();
  const auto of = [&](Component c) { return mixed.grams_of(c)[0]; };
  LineForms& out = line.forms;
  out.flour = terms.flour_g[0];
  out.water = of(Component::water) - terms.flour_moisture_g[0];
  out.sugar = of(Component::sucrose) + of(Component::glucose) + of(Component::fructose) +
              of(Component::lactose) + of(Component::maltose);
  out.fat = of(Component::fat);
  out.salt = of(Component::salt);
  out.egg = terms.egg_g[0];
  out.yeast = terms.yeast_g[0];
  out.effective = terms.effective_water_g[0];
  out.sugar_water = terms.sugar_water_g[0];
  // Flour already wetted takes up what the usual flour does.
  out.absorbed = terms.absorbed_g[0] + 60.0 * (terms.flour_g[0] - terms.bag_flour_g[0]);
}

DoughState state_of(const Balance& balance, const std::vector<double>& grams) {
  return assess_dough(*balance.model, portions_of(balance, grams), {});
}

double figure_of(const Balance& balance, const Want& want, const std::vector<double>& grams) {
  const double flour = std::max(total(balance, grams, &LineForms::flour), 1e-9);
  if (const Percent* percent = percent_of(want.kind)) {
    return 100.0 * total(balance, grams, percent->form) / flour;
  }
  if (want.kind == WantKind::feel) {
    return state_of(balance, grams).feel_score[0];
  }
  if (want.kind == WantKind::effective_hydration) {
    return state_of(balance, grams).effective_hydration_pct[0];
  }
  if (want.kind == WantKind::cost) {
    return total(balance, grams, &LineForms::cost) + balance.other_cost;
  }
  double sum_g = 0.0;
  for (const double g : grams) {
    sum_g += g;
  }
  return want.kind == WantKind::total_grams || want.kind == WantKind::fill ? sum_g : 0.0;
}

bool is_met(const Balance& balance, const Want& want, const std::vector<double>& grams) {
  const double value = figure_of(balance, want, grams);
  const bool fill = want.kind == WantKind::fill;
  const double low = fill ? balance.fill_low_g : want.low;
  const double high = fill ? balance.fill_high_g : want.high;
  const double slack_low =
      want.kind == WantKind::feel ? k_feel_tolerance : k_relative_tolerance * std::fabs(low);
  const double slack_high =
      want.kind == WantKind::feel ? k_feel_tolerance : k_relative_tolerance * std::fabs(high);
  return value >= low - slack_low && value <= high + slack_high;
}

KeptFigures kept_figures(const Balance& balance) {
  std::vector<double> grams;
  for (const BalanceLine& line : balance.lines) {
    grams.push_back(line.grams_before);
  }
  KeptFigures out;
  const double flour = std::max(total(balance, grams, &LineForms::flour), 1e-6);
  for (const Percent& percent : k_percents) {
    if (percent.kept != nullptr) {
      out.*percent.kept = 100.0 * total(balance, grams, percent.form) / flour;
    }
  }
  out.feel_score = state_of(balance, grams).feel_score[0];
  return out;
}

BalanceSolution solve_balance(const Balance& balance, const std::vector<Want>& wants,
                              const Want* elastic, WholeItems whole_items) {
  std::vector<double> at = reference_of(balance);
  BalanceSolution out;
  const auto answer = [&](WholeItems items) {
    // The stiffness factor of sugar is the one thing not linear: taken at the last answer.
    double factor = 0.0;
    for (int round = 0; round < k_most_rounds; ++round) {
      Programme programme(balance, at, items);
      if (std::fabs(programme.sugar_factor() - factor) < k_same_factor) {
        return;
      }
      factor = programme.sugar_factor();
      for (const Want& want : wants) {
        programme.want(want, elastic != nullptr && want.text == elastic->text);
      }
      programme.keep(wants);
      out = programme.solved();
      if (out.status != SolveStatus::optimal) {
        return;
      }
      at = out.grams;
    }
  };
  // Where the factor comes to rest is found in parts, which is quick; whole items take the rest.
  answer(WholeItems::divisible);
  if (out.status == SolveStatus::optimal && whole_items != WholeItems::divisible) {
    answer(whole_items);
  }
  return out;
}

}  // namespace maslin
