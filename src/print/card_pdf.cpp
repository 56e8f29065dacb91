#include "print/card_pdf.h"

#include <algorithm>
#include <array>
#include <string_view>

#include "handon/card_words.h"
#include "handon/carried_lines.h"
#include "print/card_pictures.h"
#include "print/column.h"

namespace maslin::print {
namespace {

using handon::AmountWay;
using handon::Card;
using handon::CardLine;
using handon::CardPart;
using handon::CardStep;
using handon::CardWords;

constexpr double k_margin = 42.0;
constexpr double k_gutter = 22.0;
constexpr Colour k_ink{0.13, 0.11, 0.09};
constexpr Colour k_quiet{0.42, 0.38, 0.34};
constexpr Colour k_accent{0.55, 0.28, 0.05};
constexpr Colour k_line{0.80, 0.74, 0.66};

const Style k_title{20.0, true, false, k_ink};
const Style k_lead{10.0, false, false, k_quiet};
const Style k_heading{12.0, true, false, k_accent};
const Style k_part{10.0, true, false, k_ink};
const Style k_text{9.5, false, false, k_ink};
const Style k_strong{9.5, true, false, k_ink};
const Style k_note{8.5, false, false, k_ink};
const Style k_small{8.0, false, false, k_quiet};

class CardSheet {
 public:
  CardSheet(const Card& card, double width, double height)
      : card_(card),
        words_(card.language),
        sheet_(width, height),
        whole_(sheet_, k_margin, width - 2.0 * k_margin, k_margin) {}

  std::string make() {
    head();
    const Place top = whole_.place();
    const double left = (whole_.width() - k_gutter) * 0.46;
    Column need(sheet_, k_margin, left, k_margin);
    Column method(sheet_, k_margin + left + k_gutter, whole_.width() - left - k_gutter, k_margin);
    need.go_to(top);
    method.go_to(top);
    write_lines(need);
    write_steps(method);
    whole_.go_to(later(need.place(), method.place()));
    pictures();
    notes();
    number_pages();
    return sheet_.pdf(card_.title);
  }

 private:
  void heading(Column& column, const std::string& words) {
    constexpr double k_with_text = 34.0;
    column.space(11.0);
    column.keep(k_with_text);
    column.text(words, k_heading);
    const double y = column.place().y + 1.0;
    sheet_.stroke(column.place().page, {{column.x(), y}, {column.x() + column.width(), y}}, k_line,
                  0.7);
    column.space(5.0);
  }

  void head() {
    whole_.text(card_.title.empty() ? words_.say("method") : card_.title, k_title);
    std::string lead = card_.yield;
    lead += !lead.empty() && !card_.setting.empty() ? ". " : "";
    lead += card_.setting;
    if (!lead.empty()) {
      whole_.text(lead + ".", k_lead);
    }
    if (card_.batch) {
      whole_.text(card_.batch->words, k_lead);
    }
  }

  std::string name_of(const CardLine& line) const {
    return line.note.empty() ? line.name : line.name + ", " + line.note;
  }

  void write_lines(Column& column) {
    heading(column, words_.say("you_need"));
    for (const CardPart& part : card_.parts) {
      constexpr double k_with_line = 28.0;
      column.keep(k_with_line);
      column.text(part.name, k_part);
      for (const CardLine& line : part.lines) {
        const bool grams =
            line.amount.way == AmountWay::measures || line.amount.way == AmountWay::counted;
        const std::string amount = line.amount.words.empty() ? "" : line.amount.words + "  ";
        column.ends(amount + name_of(line), k_text,
                    grams && line.grams > 0.0 ? handon::grams_words(line.grams, words_) : "",
                    k_small);
      }
      column.space(6.0);
    }
    measuring(column);
  }

  void measuring(Column& column) {
    const bool measured =
        std::any_of(card_.parts.begin(), card_.parts.end(), [](const CardPart& part) {
          return std::any_of(part.lines.begin(), part.lines.end(), [](const CardLine& line) {
            return line.amount.way == AmountWay::measures;
          });
        });
    if (!measured) {
      return;
    }
    column.text(words_.say("how_to_measure"), k_part);
    for (const OwnMeasure& own : card_.kitchen.measures) {
      column.text(
          words_.say("measure_is", {words_.measure(own.name, 1.0), words_.number(own.ml, 1)}) + ".",
          k_small);
    }
    column.text(words_.say("measure_level"), k_small);
    column.text(words_.say("measure_parts"), k_small);
  }

  void write_steps(Column& column) {
    heading(column, words_.say("method"));
    for (const CardPart& part : card_.parts) {
      for (const CardStep& step : part.steps) {
        column.marked(std::to_string(step.number), k_strong, step.words, k_text, 20.0);
        if (!step.as_found.empty()) {
          column.text(words_.say("as_found", {step.as_found}), k_small, 20.0);
        }
        column.space(4.0);
      }
    }
  }

  /// The rise that is waited for longest by its target, to draw.
  const ProveSummary* rise() const {
    const ProveSummary* out = nullptr;
    for (const ProveSummary& prove : card_.there.proves) {
      const bool drawn = prove.volume_ratio.bands.size() > 1;
      if (drawn && (out == nullptr || prove.minutes.p50 > out->minutes.p50)) {
        out = &prove;
      }
    }
    return out;
  }

  void pictures() {
    if (card_.times.empty()) {
      return;
    }
    constexpr double k_picture = 104.0;
    constexpr double k_head = 14.0;
    heading(whole_, words_.say("day"));
    draw_day(whole_, card_.times);
    const ProveSummary* prove = rise();
    const bool cuts = card_.there.bake && !card_.there.bake->cuts.empty();
    if (prove == nullptr && !cuts) {
      return;
    }
    whole_.space(6.0);
    const Column::Room room = whole_.room(k_picture);
    const double half = (room.box.width - k_gutter) / 2.0;
    const auto title = [&](const std::string& words, double x) {
      sheet_.draw(room.page, sheet_.lines(words, k_part, half), 0, {x, room.box.y});
    };
    if (prove != nullptr) {
      const std::size_t at = static_cast<std::size_t>(prove - card_.there.proves.data());
      title(at < card_.times.size() ? card_.times[at].name : words_.say("first_rise"), room.box.x);
      draw_rise(sheet_, room.page, {room.box.x, room.box.y + k_head, half, k_picture - k_head},
                *prove);
    }
    if (cuts) {
      const double x = room.box.x + half + k_gutter;
      title(words_.say("in_oven"), x);
      draw_cuts(sheet_, room.page, {x, room.box.y + k_head, half, k_picture - k_head},
                *card_.there.bake, words_);
    }
  }

  void list(const std::string& key, const std::vector<std::string>& items) {
    if (items.empty()) {
      return;
    }
    heading(whole_, words_.say(key));
    for (const std::string& item : items) {
      whole_.marked("•", k_note, item, k_note, 10.0);
      whole_.space(2.0);
    }
  }

  void notes() {
    std::vector<std::string> items;
    for (const handon::BakeAdvice& advice : card_.baking) {
      items.push_back(advice.words);
    }
    list("baking", items);
    items.clear();
    for (const handon::Difference& difference : card_.differences) {
      items.push_back(difference.words);
    }
    list("differs", items);
    items.clear();
    for (const handon::CardChange& change : card_.changes) {
      items.push_back(words_.say("change", {change.what, change.from, change.to, change.why}));
    }
    list("changed", items);
    list("notes", card_.notes);
    items.clear();
    for (const Caution& caution : card_.cautions) {
      items.push_back(caution.text);
    }
    list("mind", items);
    if (!card_.credit.empty()) {
      whole_.space(8.0);
      whole_.text(words_.say("found_at", {card_.credit}), k_small);
    }
  }

  void number_pages() {
    const std::size_t pages = sheet_.pages();
    for (std::size_t page = 0; page < pages && pages > 1; ++page) {
      const auto lines =
          sheet_.lines(card_.title + "  " + std::to_string(page + 1) + "/" + std::to_string(pages),
                       k_small, whole_.width());
      sheet_.draw(page, lines, 0,
                  {k_margin + whole_.width() - Sheet::line_width(*lines, 0),
                   sheet_.height() - k_margin + 10.0});
    }
  }

  const Card& card_;
  CardWords words_;
  Sheet sheet_;
  Column whole_;
};

}  // namespace

Paper paper_of(const std::string& country) {
  // ISO 216 is not used in North America, the Philippines, Chile, Colombia and Venezuela.
  constexpr std::array<std::string_view, 8> k_letter{"us", "ca", "mx", "ph",
                                                     "cl", "co", "ve", "pr"};
  return std::find(k_letter.begin(), k_letter.end(), country) != k_letter.end() ? Paper::letter
                                                                                : Paper::a4;
}

std::string card_to_pdf(const Card& card, Paper paper) {
  // ISO 216 A4 210 x 297 mm; ANSI A 8.5 x 11 in.
  const bool letter = paper == Paper::letter;
  return CardSheet(card, letter ? 612.0 : 595.28, letter ? 792.0 : 841.89).make();
}

}  // namespace maslin::print
