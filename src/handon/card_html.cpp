#include <array>
#include <cmath>
#include <utility>

#include "handon/card_text.h"
#include "handon/card_words.h"
#include "handon/carried_lines.h"
#include "handon/differences.h"
#include "handon/embedded_table.h"
#include "quantity/markup_text.h"

namespace maslin::handon {
namespace {

/// "1 3/4" as a cook writes it.
std::string with_fractions(std::string text) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 9> k_signs{{{"1/2", "½"},
                                                                                  {"1/4", "¼"},
                                                                                  {"3/4", "¾"},
                                                                                  {"1/3", "⅓"},
                                                                                  {"2/3", "⅔"},
                                                                                  {"1/8", "⅛"},
                                                                                  {"3/8", "⅜"},
                                                                                  {"5/8", "⅝"},
                                                                                  {"7/8", "⅞"}}};
  for (const auto& [plain, sign] : k_signs) {
    for (std::size_t at = text.find(plain); at != std::string::npos; at = text.find(plain, at)) {
      const bool digit_before = at > 0 && text[at - 1] >= '0' && text[at - 1] <= '9';
      const char after = at + 3 < text.size() ? text[at + 3] : ' ';
      if (digit_before || (after >= '0' && after <= '9')) {
        at += 3;
        continue;
      }
      const bool whole =
          at > 1 && text[at - 1] == ' ' && text[at - 2] >= '0' && text[at - 2] <= '9';
      text.replace(whole ? at - 1 : at, whole ? 4 : 3, sign);
    }
  }
  return text;
}

class Page {
 public:
  explicit Page(const Card& card) : card_(card), words_(card.language) {}

  std::string write() {
    head();
    out_ += "<main>\n";
    title();
    out_ += "<div class=\"two\">\n<section>";
    heading("you_need");
    for (const CardPart& part : card_.parts) {
      write_lines(part);
    }
    measuring();
    out_ += "</section>\n<section>";
    heading("method");
    write_steps();
    out_ += "</section>\n</div>\n";
    day();
    baking();
    differences();
    changes();
    list("notes", card_.notes);
    mind();
    credit();
    out_ += "</main>\n</body>\n</html>\n";
    return std::move(out_);
  }

 private:
  void head() {
    out_ += "<!doctype html>\n<html lang=\"" + markup_escaped(card_.language) +
            "\">\n<head>\n<meta charset=\"utf-8\">\n"
            "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
            "style-src 'unsafe-inline'\">\n"
            "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>" +
            markup_escaped(card_.title) + "</title>\n<style>\n" +
            std::string(handon_data::embedded_table("card_page.css")) +
            "</style>\n</head>\n<body>\n";
  }

  void element(const std::string& tag, const std::string& text, const std::string& kind = "") {
    out_ += "<" + tag + (kind.empty() ? "" : " class=\"" + kind + "\"") + ">" +
            markup_escaped(text) + "</" + tag + ">";
  }
  void heading(const std::string& key) {
    element("h2", words_.say(key));
    out_ += "\n";
  }

  void title() {
    element("h1", card_.title);
    std::string lead = card_.yield;
    if (!card_.setting.empty()) {
      lead += (lead.empty() ? "" : ". ") + card_.setting;
    }
    if (!lead.empty()) {
      element("p", lead + ".", "lead");
    }
    if (card_.batch && !card_.batch->words.empty()) {
      element("p", card_.batch->words);
    }
    out_ += "\n";
  }

  std::string amount_words_of(const CardLine& line) const {
    if (line.amount.way == AmountWay::part && line.amount.words.empty()) {
      return "";
    }
    return line.amount.words;
  }

  void write_lines(const CardPart& part) {
    element("h3", part.name);
    out_ += "<table class=\"lines\"><tbody>\n";
    for (const CardLine& line : part.lines) {
      const bool measured = line.amount.way == AmountWay::measures;
      const std::string amount = with_fractions(markup_escaped(amount_words_of(line)));
      out_ += "<tr><td>" + (amount.empty() ? "" : "<b>" + amount + "</b> ");
      out_ += markup_escaped(line.name);
      if (!line.note.empty()) {
        out_ += ", " + markup_escaped(line.note);
      }
      out_ += "</td><td class=\"grams\">";
      if (measured || line.amount.way == AmountWay::counted) {
        out_ += markup_escaped(grams_words(line.grams, words_));
        if (measured && std::fabs(line.amount.error_pct) >= 0.5) {
          out_ += " " + markup_escaped((line.amount.error_pct > 0.0 ? "+" : "−") +
                                       words_.number(std::fabs(line.amount.error_pct), 0) + " %");
        }
      }
      out_ += "</td></tr>\n";
    }
    out_ += "</tbody></table>\n";
  }

  void measuring() {
    bool measured = false;
    for (const CardPart& part : card_.parts) {
      for (const CardLine& line : part.lines) {
        measured = measured || line.amount.way == AmountWay::measures;
      }
    }
    if (!measured) {
      return;
    }
    element("h3", words_.say("how_to_measure"));
    out_ += "<p class=\"quiet\">";
    for (const OwnMeasure& own : card_.kitchen.measures) {
      out_ += markup_escaped(words_.say(
                  "measure_is", {words_.measure(own.name, 1.0), words_.number(own.ml, 1)})) +
              ". ";
    }
    out_ += markup_escaped(words_.say("measure_level")) + " ";
    out_ += markup_escaped(words_.say("measure_parts")) + " ";
    out_ += markup_escaped(words_.say("error_note")) + "</p>\n";
  }

  void write_steps() {
    for (const CardPart& part : card_.parts) {
      if (part.steps.empty()) {
        continue;
      }
      out_ += "<ol class=\"steps\">\n";
      for (const CardStep& step : part.steps) {
        out_ += "<li>";
        element("b", std::to_string(step.number));
        element("span", step.words);
        if (!step.as_found.empty()) {
          element("span", words_.say("as_found", {step.as_found}), "quiet");
        }
        out_ += "</li>\n";
      }
      out_ += "</ol>\n";
    }
  }

  void day() {
    if (card_.times.empty()) {
      return;
    }
    heading("day");
    out_ += "<div class=\"day\">\n";
    for (const CardTime& time : card_.times) {
      const long share = std::max(1L, std::lround(time.minutes.p50));
      out_ += "<div style=\"flex:" + std::to_string(share) + " 1 0\">";
      out_ += markup_escaped(time.name) + "<br><b>" + markup_escaped(time.words) + "</b>";
      if (!time.until.empty()) {
        out_ += "<br><span class=\"quiet\">" + markup_escaped(words_.say("until", {time.until})) +
                "</span>";
      }
      out_ += "</div>\n";
    }
    out_ += "</div>\n";
  }

  void list(const std::string& key, const std::vector<std::string>& items) {
    if (items.empty()) {
      return;
    }
    heading(key);
    out_ += "<ul>\n";
    for (const std::string& item : items) {
      element("li", item);
      out_ += "\n";
    }
    out_ += "</ul>\n";
  }

  void baking() {
    std::vector<std::string> items;
    for (const BakeAdvice& advice : card_.baking) {
      items.push_back(advice.words);
    }
    list("baking", items);
  }

  void differences() {
    std::vector<std::string> items;
    for (const Difference& difference : card_.differences) {
      items.push_back(difference.words);
    }
    list("differs", items);
  }

  void changes() {
    std::vector<std::string> items;
    for (const CardChange& change : card_.changes) {
      items.push_back(words_.say("change", {change.what, change.from, change.to, change.why}));
    }
    list("changed", items);
  }

  void mind() {
    if (card_.cautions.empty()) {
      return;
    }
    out_ += "<section class=\"mind\">";
    heading("mind");
    out_ += "<ul>\n";
    for (const Caution& caution : card_.cautions) {
      element("li", caution.text);
      out_ += "\n";
    }
    out_ += "</ul></section>\n";
  }

  void credit() {
    if (!card_.credit.empty()) {
      element("p", words_.say("found_at", {card_.credit}), "quiet");
      out_ += "\n";
    }
  }

  const Card& card_;
  CardWords words_;
  std::string out_;
};

}  // namespace

std::string card_to_html(const Card& card) {
  return Page(card).write();
}

}  // namespace maslin::handon
