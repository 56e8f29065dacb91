#include "forecast/piece_plan.h"

#include <algorithm>
#include <cmath>

#include "forecast/embedded_table.h"
#include "quantity/number_text.h"
#include "quantity/table.h"

namespace maslin {
namespace {

// All common practice, no source.
/// Free buns and rolls are mostly out of the oven by then, whole loaves are not.
constexpr double k_large_from_minutes = 27.0;
/// So long none leaves buns in.
constexpr double k_no_bun_from_minutes = 35.0;
/// So long only what is one whole takes, however heavy.
constexpr double k_one_from_minutes = 90.0;
/// In so short a time no piece of a pound is baked, and no bun is so heavy.
constexpr double k_no_loaf_to_minutes = 20.0;
constexpr double k_heaviest_bun_grams = 250.0;
constexpr double k_large_grams = 900.0;
constexpr double k_bun_grams = 75.0;

bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80;
}

/// A word that begins there; its end is free, so that plurals count, but not what is done
/// ("rolled oats").
bool has_word(const std::string& text, std::string_view word) {
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const bool begins = at == 0 || !is_letter(text[at - 1]) || word.front() == '-';
    if (begins && text.compare(at + word.size(), 2, "ed") != 0) {
      return true;
    }
  }
  return false;
}

struct ShapeWord {
  PieceShape shape = PieceShape::bun;
  std::string bakeware = "tray";
  double grams = k_bun_grams;
  double neighbours = 3.0;
  bool soft = false;

  bool small() const { return grams <= k_heaviest_bun_grams; }
};

/// The rows whose words stand in the text, in their order; those for titles alone are passed
/// over elsewhere.
std::vector<ShapeWord> shapes_in(const std::string& text, bool is_title) {
  const Table words(forecast_data::embedded_table("piece_words.tsv"));
  std::vector<ShapeWord> out;
  for (std::size_t row = 0; row < words.size(); ++row) {
    const std::string_view where = words.cell(row, "where");
    const bool counts = where != "large" && (is_title || where != "title");
    if (counts && has_word(text, words.cell(row, "word"))) {
      out.push_back({piece_shape_from(words.cell(row, "shape")).value_or(PieceShape::bun),
                     std::string(words.cell(row, "bakeware")),
                     words.number(row, "grams", k_bun_grams), words.number(row, "neighbours"),
                     words.cell(row, "crust") == "soft"});
    }
  }
  return out;
}

/// One large piece: a loaf in its tin where the steps name one, else on a tray.
ShapeWord one_large(const PieceHints& hints) {
  const Table words(forecast_data::embedded_table("piece_words.tsv"));
  bool in_a_tin = hints.tin.has_value();
  for (std::size_t row = 0; row < words.size() && !in_a_tin; ++row) {
    in_a_tin =
        words.cell(row, "where") == "large" && has_word(hints.steps, words.cell(row, "word"));
  }
  return in_a_tin ? ShapeWord{PieceShape::tin_loaf, "tin", k_large_grams, 0.0}
                  : ShapeWord{PieceShape::hearth, "tray", k_large_grams, 0.0};
}

class PiecePlan {
 public:
  PiecePlan(const PieceHints& hints, PlannedBake& bake) : hints_(hints), bake_(bake) {}

  std::vector<Doubt> plan() {
    choose_word();
    bake_.shape = word_.shape;
    bake_.bakeware = word_.bakeware;
    bake_.neighbours = word_.neighbours;
    bake_.soft = word_.soft;
    bake_.tin = hints_.tin;
    if (bake_.tin) {
      take_tin(*bake_.tin);
    }
    count();
    // A bun or roll of more than that is a loaf; a loaf of less a roll.
    if (each() > k_heaviest_bun_grams && bake_.shape == PieceShape::bun) {
      bake_.shape = PieceShape::hearth;
    }
    if (bake_.shape == PieceShape::tin_loaf && each() < 160.0) {
      bake_.shape = PieceShape::bun;
      bake_.bakeware = "tray";
    }
    return std::move(doubts_);
  }

 private:
  double said() const { return hints_.by_steps > 0.0 ? hints_.by_steps : hints_.by_yield; }
  double each() const { return hints_.dough_grams / bake_.pieces; }
  bool several() const { return hints_.by_steps > 1.0 || hints_.by_yield > 1.0; }

  /// The first word that the minutes in the oven do not speak against: the title's, then the
  /// steps'.
  void choose_word() {
    const bool none_said = said() <= 0.0 && !bake_.piece_grams;
    const bool no_bun = none_said && hints_.oven_minutes >= k_no_bun_from_minutes;
    std::vector<ShapeWord> words = shapes_in(hints_.title, true);
    const std::vector<ShapeWord> later = shapes_in(hints_.steps, false);
    words.insert(words.end(), later.begin(), later.end());
    const auto meant = std::find_if(words.begin(), words.end(),
                                    [&](const ShapeWord& one) { return !(no_bun && one.small()); });
    if (meant != words.end()) {
      word_ = *meant;
    } else if (none_said && hints_.oven_minutes >= k_large_from_minutes) {
      word_ = one_large(hints_);
    }
  }

  void take_tin(const Tin& tin) {
    if (tin.kind == "loaf" && !several()) {
      bake_.shape = PieceShape::tin_loaf;
      bake_.bakeware = "tin";
    } else if (tin.kind == "ring" && !several()) {
      bake_.shape = PieceShape::ring;
      bake_.bakeware = "tin";
    } else if ((tin.kind == "round" || tin.kind == "tray" || tin.kind == "loaf") && several() &&
               bake_.shape == PieceShape::bun) {
      // Do they touch? They do when the tin gives each less than its own breadth of room.
      const double grams = hints_.dough_grams /
                           std::max(1.0, hints_.by_steps > 0.0 ? hints_.by_steps : hints_.by_yield);
      const double area = tin.diameter_mm > 0 ? 0.785 * tin.diameter_mm * tin.diameter_mm
                                              : tin.length_mm * tin.width_mm;
      const double pieces = hints_.dough_grams / grams;
      // A risen bun of m grams is about 2.2 m^(1/3) cm across: common practice, no source.
      const double breadth = 22.0 * std::cbrt(grams);
      if (area > 0 && area / pieces < breadth * breadth) {
        bake_.shape = PieceShape::cluster;
        bake_.neighbours = 3.0;
      }
    }
  }

  /// "Divide in two" before the rolling out, or a yield of one batch: not that many buns.
  bool cannot_be_meant() const {
    return said() > 0.0 && said() <= 2.0 && word_.small() && !bake_.piece_grams &&
           hints_.dough_grams / said() > k_heaviest_bun_grams && hints_.oven_minutes > 0.0 &&
           hints_.oven_minutes <= k_no_loaf_to_minutes;
  }

  void count() {
    if (said() > 0.0 && !cannot_be_meant()) {
      bake_.pieces = said();
      return;
    }
    if (bake_.piece_grams) {
      bake_.pieces = std::max(1.0, std::round(hints_.dough_grams / *bake_.piece_grams));
      return;
    }
    const bool one = !word_.small() && hints_.oven_minutes >= k_one_from_minutes;
    bake_.pieces = one ? 1.0 : std::max(1.0, std::round(hints_.dough_grams / word_.grams));
    const std::string taken =
        "taken as " + number_text(bake_.pieces, 0) + " of about " + number_text(each(), 0) + " g";
    doubts_.push_back({"how many pieces",
                       said() > 0.0 ? number_text(said(), 0) + " is said, but pieces of " +
                                          number_text(hints_.dough_grams / said(), 0) +
                                          " g are not baked in " +
                                          number_text(hints_.oven_minutes, 0) + " minutes; " + taken
                                    : "not said; " + taken});
  }

  const PieceHints& hints_;
  PlannedBake& bake_;
  ShapeWord word_;
  std::vector<Doubt> doubts_;
};

}  // namespace

std::vector<Doubt> plan_piece_by(const PieceHints& hints, PlannedBake& bake) {
  return PiecePlan(hints, bake).plan();
}

}  // namespace maslin
