#include "adjust/want_words.h"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "adjust/flour_moves.h"
#include "adjust/phrase.h"
#include "dough/feel.h"

namespace maslin {
namespace {

struct FigureWord {
  std::string_view word;
  WantKind kind;
};
constexpr std::array<FigureWord, 19> k_figure_words{{
    {"sugar", WantKind::sugar_pct_flour},
    {"sugary", WantKind::sugar_pct_flour},
    {"sweet", WantKind::sugar_pct_flour},
    {"fat", WantKind::fat_pct_flour},
    {"butter", WantKind::fat_pct_flour},
    {"oil", WantKind::fat_pct_flour},
    {"rich", WantKind::fat_pct_flour},
    {"salt", WantKind::salt_pct_flour},
    {"salty", WantKind::salt_pct_flour},
    {"yeast", WantKind::yeast_pct_flour},
    {"egg", WantKind::egg_pct_flour},
    {"eggs", WantKind::egg_pct_flour},
    {"water", WantKind::water_pct_flour},
    {"liquid", WantKind::water_pct_flour},
    {"hydration", WantKind::effective_hydration},
    {"cost", WantKind::cost},
    {"costs", WantKind::cost},
    {"price", WantKind::cost},
    {"costing", WantKind::cost},
}};

std::optional<WantKind> figure_in(const Phrase& phrase) {
  for (const FigureWord& one : k_figure_words) {
    if (phrase.has({one.word})) {
      return one.kind;
    }
  }
  return std::nullopt;
}

Want want_of(const Phrase& phrase, WantKind kind) {
  Want out;
  out.text = phrase.text;
  out.kind = kind;
  return out;
}

Want relative(const Phrase& phrase, WantKind kind, double times) {
  Want out = want_of(phrase, kind);
  out.times = times;
  return out;
}

/// How far "less" and "more" go: a fifth down, a quarter up; common practice, no source.
double step_times(const Phrase& phrase, bool less) {
  if (phrase.has({"little", "slightly", "bit", "touch"})) {
    return less ? 0.9 : 1.1;
  }
  if (const auto number = phrase.number(); number && phrase.has({"%", "percent"})) {
    return less ? 1.0 - std::min(*number, 100.0) / 100.0 : 1.0 + *number / 100.0;
  }
  if (const auto share = phrase.share()) {
    return less ? 1.0 - *share : 1.0 + *share;
  }
  if (phrase.has({"much", "lot", "far", "lots"})) {
    return less ? 0.6 : 1.6;
  }
  return less ? 0.8 : 1.25;
}

/// "10 % less sugar", "cut the sugar by 10 %": and not "no more than 10 %", "less than 10 %".
bool by_a_share(const Phrase& phrase) {
  return phrase.has({"%", "percent"}) && !phrase.has({"no", "than", "most", "least", "to"}) &&
         phrase.has({"less", "fewer", "lower", "reduce", "cut", "more", "higher", "extra", "raise",
                     "cheaper"});
}

std::optional<Want> feel_said(const Phrase& phrase) {
  if (const std::optional<DoughFeel> feel = feel_from(phrase.joined())) {
    ParsedWant exact = parse_want("feel=" + std::string(feel_name(*feel)));
    exact.want->text = phrase.text;
    return exact.want;
  }
  const bool softer = phrase.has({"softer", "slacker", "looser", "wetter"}) ||
                      (phrase.has({"more"}) && phrase.has({"soft", "slack"})) ||
                      (phrase.has({"less"}) && phrase.has({"stiff", "firm"}));
  const bool stiffer = phrase.has({"stiffer", "firmer", "tighter", "drier"}) ||
                       (phrase.has({"more"}) && phrase.has({"stiff", "firm"})) ||
                       (phrase.has({"less"}) && phrase.has({"soft", "slack", "wet", "sticky"}));
  if (softer == stiffer) {
    return std::nullopt;
  }
  Want out = want_of(phrase, WantKind::feel);
  const double classes = phrase.has({"much", "lot", "far"})                   ? 2.0
                         : phrase.has({"little", "slightly", "bit", "touch"}) ? 0.5
                                                                              : 1.0;
  out.feel_classes = softer ? classes : -classes;
  return out;
}

std::optional<Want> relative_figure(const Phrase& phrase) {
  if (phrase.has({"sweeter"})) {
    return relative(phrase, WantKind::sugar_pct_flour, step_times(phrase, false));
  }
  if (phrase.has({"richer"})) {
    return relative(phrase, WantKind::fat_pct_flour, step_times(phrase, false));
  }
  if (phrase.has({"saltier"})) {
    return relative(phrase, WantKind::salt_pct_flour, step_times(phrase, false));
  }
  if (phrase.has({"cheaper"})) {
    return relative(phrase, WantKind::cost, step_times(phrase, true));
  }
  const std::optional<WantKind> kind = figure_in(phrase);
  const std::optional<double> share = phrase.share();
  if (!kind || (phrase.number() && !share && !by_a_share(phrase))) {
    return std::nullopt;
  }
  if (phrase.has({"halve"})) {
    return relative(phrase, *kind, 0.5);
  }
  if (phrase.has({"twice", "double"})) {
    return relative(phrase, *kind, 2.0);
  }
  const bool less = phrase.has({"less", "fewer", "lower", "reduce", "cut", "reduced"});
  const bool more = phrase.has({"more", "higher", "extra", "raise"});
  if (less != more) {
    return relative(phrase, *kind, step_times(phrase, less));
  }
  // "Two thirds of the sugar".
  return share && !less ? std::optional(relative(phrase, *kind, *share)) : std::nullopt;
}

std::optional<Want> figure_said(const Phrase& phrase) {
  const std::optional<WantKind> kind = figure_in(phrase);
  const std::optional<double> number = phrase.number();
  if (!kind || !number || phrase.has({"g", "kg", "grams", "ml"})) {
    return std::nullopt;
  }
  const bool most =
      phrase.has({"most", "under", "below", "max", "maximum", "up", "within", "<", "<="}) ||
      (phrase.has({"no"}) && phrase.has({"more"})) || (phrase.has({"less", "lower"}));
  const bool least = phrase.has({"least", "over", "above", "min", "minimum", ">", ">="}) ||
                     (phrase.has({"no"}) && phrase.has({"less"}));
  Want out = want_of(phrase, *kind);
  out.low = most && !least ? 0.0 : *number;
  out.high = least ? k_want_no_limit : *number;
  out.each = *kind == WantKind::cost && (phrase.has({"each", "apiece"}) || phrase.has_piece_word());
  return out;
}

std::vector<Want> yield_said(const Phrase& phrase) {
  std::vector<Want> out;
  const auto push = [&](WantKind kind, double value) {
    Want want = want_of(phrase, kind);
    want.low = value;
    want.high = value;
    out.push_back(want);
  };
  const std::optional<double> grams = phrase.grams();
  if (const std::string what = phrase.of_what(); grams && !what.empty()) {
    push(WantKind::scale, *grams);
    out.back().from = what;
    return out;
  }
  const std::optional<double> count = phrase.count_of_pieces();
  const bool each = phrase.has({"each", "apiece"}) || count || phrase.has_piece_word();
  if (count) {
    push(WantKind::pieces, *count);
  }
  if (grams) {
    push(each ? WantKind::piece_grams : WantKind::total_grams, *grams);
  }
  if (out.empty() && phrase.has({"tin", "tray", "pan"}) &&
      phrase.has({"fit", "fits", "fill", "fills", "for", "in", "right"})) {
    out.push_back(want_of(phrase, WantKind::fill));
  }
  const bool whole =
      phrase.has({"recipe", "much", "amount", "batch", "many", "all"}) || phrase.words.size() <= 2;
  if (out.empty() && whole && !figure_in(phrase)) {
    const double times = phrase.has({"halve"})              ? 0.5
                         : phrase.has({"twice", "double"})  ? 2.0
                         : phrase.has({"triple", "treble"}) ? 3.0
                         : phrase.share()                   ? *phrase.share()
                         : phrase.has({"times", "x"})       ? phrase.number().value_or(0.0)
                                                            : 0.0;
    if (times > 0.0) {
      push(WantKind::scale, times);
    }
  }
  return out;
}

std::vector<Want> absence_said(const Phrase& phrase) {
  const auto one = [&](WantKind kind) { return std::vector<Want>{want_of(phrase, kind)}; };
  if (phrase.has({"vegan"})) {
    return {want_of(phrase, WantKind::no_egg), want_of(phrase, WantKind::no_dairy)};
  }
  if (phrase.has({"eggless"})) {
    return one(WantKind::no_egg);
  }
  const std::string rest = phrase.after({"no", "without"}).empty()
                               ? (phrase.has({"free"}) ? phrase.before({"free"}) : "")
                               : phrase.after({"no", "without"});
  if (rest == "egg" || rest == "eggs") {
    return one(WantKind::no_egg);
  }
  if (rest == "dairy" || rest == "milk" || rest == "lactose") {
    return one(WantKind::no_dairy);
  }
  if (rest.empty()) {
    return {};
  }
  Want swap = want_of(phrase, WantKind::swap);
  swap.from = rest;
  return {swap};
}

/// The words without a share and what belongs to it: "half the butter" is "butter".
std::string without_share(const std::string& words) {
  std::string out;
  bool number = false;
  for (const std::string& word : phrase_of(words).words) {
    const Phrase one{word, {word}};
    const bool part = one.share().has_value() || one.number().has_value() ||
                      one.has({"%", "percent", "all"}) || (number && one.has({"of"}));
    number = part;
    out += part ? "" : (out.empty() ? "" : " ") + word;
  }
  return out;
}

/// So much of what goes, when a share is said: "half the butter", "30 % wholemeal".
double share_said(const Phrase& phrase) {
  const auto number = phrase.number();
  if (number && *number > 0.0 && *number < 100.0 && phrase.has({"%", "percent"})) {
    return *number / 100.0;
  }
  return phrase.share().value_or(1.0);
}

std::optional<Want> swap_said(const Phrase& phrase) {
  Want out = want_of(phrase, WantKind::swap);
  out.share = share_said(phrase);
  if (phrase.has({"swap", "replace"})) {
    const std::string rest = phrase.after({"swap", "replace"});
    const Phrase inner = phrase_of(rest);
    out.from = inner.before({"for", "with", "by", "to"});
    out.to = inner.after({"for", "with", "by", "to"});
    out.from = without_share(out.from.empty() ? rest : out.from);
    return out;
  }
  if (phrase.has({"instead"})) {
    out.to = phrase.before({"instead"});
    out.from = phrase_of(phrase.after({"instead"})).after({"of"});
  } else if (phrase.has({"for"})) {
    out.to = phrase.before({"for"});
    out.from = phrase.after({"for"});
    if (share_said(phrase_of(out.to)) < 1.0) {
      // "Half the butter for oil": what there is a share of is there.
      std::swap(out.to, out.from);
    }
  }
  out.from = without_share(out.from);
  out.to = without_share(out.to);
  return out.from.empty() || out.to.empty() ? std::nullopt : std::optional(out);
}

/// "Tangzhong", "a roux of 7 %".
std::optional<Want> paste_said(const Phrase& phrase) {
  const std::string named = without_share(phrase.joined());
  for (const std::string& words : {named, phrase_of(named).before({"of"})}) {
    if (paste_called(words)) {
      Want out = want_of(phrase, WantKind::paste);
      out.to = words;
      out.low = phrase.number().value_or(0.0);
      return out;
    }
  }
  return std::nullopt;
}

/// A food named alone or with a share: "fresh yeast", "30 % wholemeal", "use ghee".
std::optional<Want> food_said(const Phrase& phrase) {
  Want out = want_of(phrase, WantKind::swap);
  out.share = share_said(phrase);
  const std::string rest = phrase.after({"use", "using"});
  out.to = without_share(rest.empty() ? phrase.joined() : rest);
  if (const Phrase of = phrase_of(phrase.after({"of"})); of.words.size() > 1) {
    // "30 % of the flour wholemeal"
    out.from = of.words.front();
    out.to = of.after({out.from});
  }
  constexpr std::size_t k_most_words = 4;
  const std::size_t words = phrase_of(out.to).words.size();
  const bool sign = out.to.find_first_of("=<>%") != std::string::npos;
  const bool food =
      words > 0 && !sign && words <= k_most_words && !phrase.has({"no", "without", "not"});
  return food ? std::optional(out) : std::nullopt;
}

std::optional<Want> time_said(const Phrase& phrase) {
  const std::optional<double> minutes = phrase.minutes();
  if (minutes) {
    Want out = want_of(phrase, WantKind::prove_minutes);
    out.low =
        phrase.has({"about", "around", "in", "exactly"}) && !phrase.has({"most"}) ? *minutes : 0.0;
    out.high = *minutes;
    return out;
  }
  if (phrase.has({"faster", "quicker", "slower", "longer"})) {
    return relative(phrase, WantKind::prove_minutes,
                    phrase.has({"faster", "quicker"}) ? 0.75 : 1.5);
  }
  return std::nullopt;
}

std::vector<Want> one_said(const Phrase& phrase) {
  if (const auto paste = paste_said(phrase)) {
    return {*paste};
  }
  if (const auto feel = feel_said(phrase)) {
    return {*feel};
  }
  // "Half the butter for oil" wants no less fat.
  if (const auto swap = swap_said(phrase); swap && swap->share < 1.0) {
    return {*swap};
  }
  if (const auto time = time_said(phrase)) {
    return {*time};
  }
  if (const auto figure = relative_figure(phrase)) {
    return {*figure};
  }
  if (const auto figure = figure_said(phrase)) {
    return {*figure};
  }
  if (auto gone = absence_said(phrase); !gone.empty()) {
    return gone;
  }
  if (auto yield = yield_said(phrase); !yield.empty()) {
    return yield;
  }
  if (const auto swap = swap_said(phrase)) {
    return {*swap};
  }
  const auto food = food_said(phrase);
  return food ? std::vector<Want>{*food} : std::vector<Want>{};
}

}  // namespace

std::string not_a_want(std::string_view words) {
  return "\"" + std::string(words) +
         "\" is not understood as a want; say for example softer, less sugar, salt at most 2 %, "
         "12 pieces of 80 g, no egg, fits the tin, 30 % wholemeal, or oat milk instead of milk.";
}

SaidWants wants_from_words(std::string_view text) {
  SaidWants out;
  for (const std::string& part : phrases_in(text)) {
    const bool brief_form = part.find_first_of("=<>_") != std::string::npos;
    ParsedWant brief = brief_form ? parse_want(part) : ParsedWant();
    if (brief.want) {
      out.wants.push_back(std::move(*brief.want));
      continue;
    }
    const Phrase phrase = phrase_of(part);
    std::vector<Want> said = one_said(phrase);
    if (said.empty()) {
      out.problem = brief_form ? brief.problem : not_a_want(part);
      return out;
    }
    out.wants.insert(out.wants.end(), said.begin(), said.end());
  }
  if (out.wants.empty()) {
    out.problem = "No want was given; say for example softer, or less sugar.";
  }
  return out;
}

}  // namespace maslin
