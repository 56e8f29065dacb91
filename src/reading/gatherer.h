#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "reading/draft.h"
#include "reading/fragments.h"
#include "reading/heading.h"
#include "reading/layout.h"
#include "reading/line_shape.h"
#include "reading/prose.h"

namespace maslin::reading {

struct LineState {
  Text* text = nullptr;
  std::size_t from = 0;
  std::size_t to = 0;
  bool blank_before = false;
  bool quoted = false;
  bool numbered = false;
  std::size_t list_from = 0;  // past what leads to the list: "You need: "
  bool taken = false;         // an ingredient was read from it
  bool titled = false;        // names the dish, though it reads as an ingredient
  bool listed = false;        // reads as an ingredient by its shape alone
  bool steplike = false;      // begins with a verb, or has verbs with times
};

/// The lines with amounts and names that alternate, each on a line of its own, put together.
std::vector<FoundLine> joined_rows(const std::vector<FoundLine>& found, const Lexicons& lexicons,
                                   const Lexicon& lexicon);

/// Questions for a food's amount with their answers, and amounts taken back in the next line, each
/// made one line.
std::vector<FoundLine> answered_lines(const std::vector<FoundLine>& lines, const Lexicons& lexicons,
                                      const Lexicon& lexicon);

/// Gathers one text. The state is the section and part that the lines so far opened.
class Gatherer {
 public:
  Gatherer(const FoundText& found, const Lexicons& lexicons, const Lexicon& lexicon)
      : found_(found), lexicons_(lexicons), lexicon_(lexicon) {}

  Draft run();

 private:
  void cut();
  void cut_line(const FoundLine& found, std::vector<std::string_view>& units);
  /// A long list and the method's first line are no sentence that was wrapped.
  bool is_list_before_method(const FoundLine& found) const;
  /// "1. 3 cups flour": the numbers of a list are no steps.
  void unnumber_lists();
  /// A misspelt word after a number is a misspelt unit: "10 minuts", "2 tabelspoons".
  static void mend_after_numbers(Text& text);
  /// A ditto mark behind a number is the unit said last.
  void read_dittos(Text& text);
  /// A title that names a food and a measure is no line of the list: "TANTE'S TAMARIND TWISTS".
  void unlist_title();
  /// Names under "we use the following:" in a text that lists no amounts: how many.
  std::size_t list_bare_names();
  bool is_title_above(const LineState& first) const;
  void shape(LineState& state) const;
  static std::size_t first_sentence(const Text& text, std::size_t from, std::size_t to);
  DraftPart& part(PartKind kind, std::string name);
  DraftPart& current();
  void remark(const LineState& state);
  void line(LineState& state);
  static bool is_signature(const Text& text);
  /// Handles a line that is or begins with a heading; true when nothing is left of it.
  /// Whether a line only tells how long things take, each behind its label.
  bool tells_times(const LineState& state) const;
  bool heading(LineState& state);
  /// A line that reads like a heading and is one of the list.
  void add_whole_line(Text& text, std::size_t from, std::size_t to);
  /// A part named in the middle of another's list goes into that one.
  bool names_listed_part(const Heading& found, const LineState& state) const;
  void open(const Heading& found, const LineState& state);
  void keep_rest(const Heading& found, const Text& text);
  bool next_listed() const;
  /// A short line without amount or verb, set off before a list.
  bool unknown_heading(const LineState& state) const;
  bool label(const LineState& state, const Heading& found);
  static bool number_inside(const Text& text, std::size_t from, std::size_t to);
  void take_yield(const Text& text, std::size_t from, std::size_t to, bool labelled);
  /// The first line that is neither list nor method, short enough to be one.
  bool tells_yield(const LineState& state) const;
  bool title(const LineState& state);
  void body(Text& text, std::size_t from, std::size_t to, const LineState& state);
  bool segment_body(Text& text, Span segment, const LineState& state, std::size_t to);
  /// "Filling: 100 g butter, …" in the middle of a line.
  static std::optional<Heading> list_heading(Text& text, const Span& span);
  bool open_list(Text& text, Span& span, const LineState& state);
  /// The first sentence from `from` on that opens a list.
  static std::size_t next_list(Text& text, const std::vector<Span>& all, std::size_t from);
  /// A sentence outside list and method that names two amounts of food or more.
  bool tells_amounts(Text& text, const Span& span) const;
  /// A sentence above the list that says what to do with amounts of food: a step.
  bool works_amounts(Text& text, const Span& span) const;
  /// The steps said above the list go before those below it.
  void put_early_steps();
  /// An amount that only the method names is an ingredient too.
  void take_unlisted();
  /// Amounts in lines that nothing else wanted, when no flour was found in the others: half of a
  /// message is a list, half of it is told.
  void take_left_over();
  bool has_flour() const;
  bool has_liquid() const;
  /// "Add enough water to make a dough", where no line is a liquid: a line without an amount.
  void take_untold_water();
  /// The same of flour: "stir in rye flour until …".
  void take_untold_flour();
  /// The first thing that `added` finds in a sentence of the method, as a line without an amount;
  /// `usual` says in its doubt how much is, when it is not empty.
  void take_untold(const std::function<Match(const Text&, const Span&)>& added,
                   std::string_view usual);
  bool is_listed(const DraftLine& line) const;
  static bool list_follows(const Text& text, std::size_t from, std::size_t to);
  /// "olive oil… a lot. 4-5 tbsp": an amount alone belongs to the name before it.
  static void join_bare_amounts(const Text& text, std::vector<Span>& all);
  /// "…, 1 oz yeast, knead well, rise 2 hours": the method in a list's own sentence.
  static void part_method(const Text& text, std::vector<Span>& all);
  bool list_sentence(Text& text, const Span& span, const LineState& state);
  /// In an ingredients section a short line is an ingredient though nobody knows it.
  bool unknown(const LineLook& look, std::size_t verbs) const;
  /// "Milk", "Lard" and "White sugar" above the first line with an amount.
  bool leads_list(const Text& text, const Span& span) const;
  /// Between two lines that are listed stands a third, though nobody knows it.
  bool among_listed(const Text& text, const Span& span, const LineLook& look,
                    std::size_t verbs) const;
  /// "Suet 3/4 cup", "Boiling fowl 1": nothing follows the amount.
  static bool ends_with_amount(const Text& text, const Span& span);
  /// "Sprinkle salt" in a list is no step.
  static bool is_bare_loose(const Text& text, const Span& span);
  /// "10 mins", "750 kcal": a figure of the recipe, no line of its list.
  /// "WEIGHT  MEASURE": words that only head columns.
  static bool heads_columns(const Text& text, const Span& span);
  static bool is_bare_figure(const Text& text, const Span& span);
  static bool has_heat(const Text& text, const Span& span);
  static bool has_purpose(const Text& text, const Span& span);
  bool is_method(const Text& text, const Span& span, const LineState& state) const;
  bool add_lines(Text& text, const Span& span);
  /// "60 g butter, for the filling": the part that the end of a line names.
  static std::optional<PartKind> part_said(const Text& text, const Span& span);
  /// A line with a purpose of its own goes to the part that serves it.
  void add_line(DraftLine line);
  void add_step(const Text& text, const Span& span);
  /// Method lines after the last list are the dough's; between lists they are the part's.
  DraftPart& step_part();
  bool prose_segment(Text& text, const Span& segment);
  /// "60 g sugar, zest of lemon, vanilla, a pinch of salt": what is only named between amounts.
  void add_bare_names(Text& text, const Span& span);
  bool prose_sentence(Text& text, const Span& span);
  /// In running text that began with the whole list, a share of what was listed.
  bool is_told_share(const Text& text, const Span& span, const Mention& mention) const;
  /// A sentence with a setting, an ingredient or a verb no one uses of guests.
  static bool speaks_of_dough(const Text& text, const Span& span);
  /// Running text has no headings: "for the swirl" opens a part, what goes on a dough
  /// rolled out is its filling, and rolling it up or baking it ends that.
  void turn_part(const Text& text, std::size_t from, std::size_t to);

  const FoundText& found_;
  const Lexicons& lexicons_;
  const Lexicon& lexicon_;
  Draft draft_;
  std::vector<LineState> lines_;
  std::vector<DraftStep> early_;  // steps said above the list
  std::string ditto_;             // the unit said last
  std::size_t at_ = 0;
  std::size_t part_ = 0;
  SectionKind section_ = SectionKind::none;
  bool prose_ = false;
  bool prose_list_ = false;  // a sentence of the running text was the list
  bool last_was_ingredient_ = false;
  bool after_method_ = false;
  bool interleaved_ = false;
  bool line_done_ = false;
};

}  // namespace maslin::reading
