// On-screen conversions for a clip: each quantity and oven setting in grams, cups, °C, °F, gas mark
// and fan, at the moment it is spoken of.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "handon/card_words.h"
#include "pantry/pantry.h"
#include "recipe/recipe.h"

namespace maslin::handon {

/// What is said from one second to another.
struct SpokenCue {
  double start_s = 0.0;
  double end_s = 0.0;
  std::string words;
};

/// The cues of WebVTT or SRT captions, or of a list with a time before each line ("0:12 three cups
/// of flour", or times alone). At most 20 000; a list's cue lasts until the next begins. Empty when
/// there are no times in it.
std::vector<SpokenCue> spoken_cues(std::string_view captions);

/// What is shown, one conversion a line.
struct ScreenCue {
  double start_s = 0.0;
  double end_s = 0.0;
  std::vector<std::string> lines;
};

struct ScreenTrack {
  std::vector<ScreenCue> cues;         // in order, none over another
  std::vector<std::string> not_found;  // lines and settings of the recipe that no cue speaks of
};

/// The recipe's amounts and settings where the cues speak of them: by the words of each line, else
/// by the ingredient's name. Where the cues hold no words the amounts take them in turn.
/// `words` are those that are shown; the cues are in whatever language the clip is.
ScreenTrack screen_track(const std::vector<SpokenCue>& cues, const Recipe& recipe,
                         const Pantry& pantry, const CardWords& words);

/// "strong white flour: 500 g = 3 3/4 cups"; empty when the line has no weight.
std::string amount_on_screen(const Line& line, const Pantry& pantry, const CardWords& words);
/// "180 °C = fan 160 °C = 355 °F = gas 4": of an oven; of water or dough the first two scales.
std::string heat_on_screen(const Step& step, const Pantry& pantry, const CardWords& words);

/// WebVTT (W3C) and SubRip, UTF-8.
std::string track_to_vtt(const ScreenTrack& track);
std::string track_to_srt(const ScreenTrack& track);

}  // namespace maslin::handon
