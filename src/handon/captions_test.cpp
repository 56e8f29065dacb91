#include "handon/captions.h"

#include <doctest/doctest.h>

#include <string>

using namespace maslin;
using namespace maslin::handon;

namespace {

const Pantry& pantry() {
  static const Pantry all(embedded_pantry_tables());
  return all;
}

Line line(const char* id, const char* text, double grams) {
  Line out;
  out.ingredient_id = id;
  out.name = pantry().find(id)->name;
  out.text = text;
  out.grams = point(grams);
  out.weighed = true;
  return out;
}

Step bake(const char* text, double celsius) {
  Step out;
  out.kind = StepKind::bake;
  out.text = text;
  out.celsius = Range{celsius, celsius};
  return out;
}

Recipe clip() {
  Recipe out;
  out.parts.push_back({PartKind::dough,
                       "dough",
                       {line("strong_white_flour", "four cups of bread flour", 540),
                        line("whole_milk", "one and a half cups of warm milk", 366)},
                       {bake("then it goes in at 350 for forty minutes", 176.7)},
                       point(1.0)});
  out.parts[0].lines[0].found = {Range{4, 4}, "cup", "", ""};
  return out;
}

const char* const k_vtt =
    "WEBVTT\n\n00:00:01.000 --> 00:00:04.000 align:start\nhey everyone <i>welcome</i> back\n\n"
    "00:00:10.000 --> 00:00:13.000\nI have four cups of bread flour\n\n"
    "00:00:20.000 --> 00:00:23.000\nand one and a half cups\nof warm milk\n\n"
    "00:01:40.500 --> 00:01:44.000\nthen it goes in at 350 for forty minutes\n";

}  // namespace

TEST_CASE("cues of WebVTT, SubRip and lists of times are the same") {
  const auto vtt = spoken_cues(k_vtt);
  REQUIRE(vtt.size() == 4);
  CHECK(vtt[0].words == "hey everyone welcome back");
  CHECK(vtt[2].words == "and one and a half cups of warm milk");
  CHECK(vtt[3].start_s == doctest::Approx(100.5));
  const auto srt = spoken_cues(
      "1\r\n00:00:10,000 --> 00:00:13,000\r\nI have four cups\r\n\r\n2\r\n"
      "00:00:20,250 --> 00:00:23,000\r\nof flour\r\n");
  REQUIRE(srt.size() == 2);
  CHECK(srt[1].start_s == doctest::Approx(20.25));
  CHECK(srt[1].words == "of flour");
  const auto list =
      spoken_cues("0:10 four cups of bread flour\n[0:20] warm milk\n1:02:03 the oven\n");
  REQUIRE(list.size() == 3);
  CHECK(list[0].end_s == doctest::Approx(20));
  CHECK(list[1].words == "warm milk");
  CHECK(list[2].start_s == doctest::Approx(3723));
  CHECK(spoken_cues("no times here\nat all").empty());
}

TEST_CASE("each amount and setting is shown when it is spoken of") {
  const ScreenTrack track = screen_track(spoken_cues(k_vtt), clip(), pantry(), CardWords("en-GB"));
  REQUIRE(track.cues.size() == 3);
  CHECK(track.not_found.empty());
  CHECK(track.cues[0].start_s >= 10.0);
  CHECK(track.cues[0].start_s < 13.0);
  CHECK(track.cues[0].lines.at(0).find("540 g = 4 cups") != std::string::npos);
  CHECK(track.cues[1].lines.at(0) == "whole milk: 366 g = 1 1/2 cups");
  CHECK(track.cues[1].start_s >= 20.0);
  CHECK(track.cues[1].start_s < 23.0);
  CHECK(track.cues[2].start_s >= 100.5);
  CHECK(track.cues[2].lines.at(0) == "oven 175 °C = fan 155 °C = 350 °F = gas 4");
}

TEST_CASE("a track speaks the card's language, whatever the clip's") {
  const ScreenTrack track = screen_track(spoken_cues(k_vtt), clip(), pantry(), CardWords("de"));
  REQUIRE(track.cues.size() == 3);
  CHECK(track.cues[0].lines.at(0) == "Weizenmehl backstark: 540 g = 4 Tassen");
  CHECK(track.cues[2].lines.at(0) == "Ofen 175 °C = Umluft 155 °C = 350 °F = Gas 4");
}

TEST_CASE("bare times take the amounts in turn; what is never said is told") {
  const ScreenTrack turns =
      screen_track(spoken_cues("0:05\n0:09\n0:30\n"), clip(), pantry(), CardWords("en-GB"));
  REQUIRE(turns.cues.size() == 3);
  CHECK(turns.cues[2].start_s == doctest::Approx(30));
  CHECK(turns.cues[2].lines.at(0).find("oven") == 0);
  const ScreenTrack none = screen_track(spoken_cues("0:05 hello\n0:09 subscribe\n"), clip(),
                                        pantry(), CardWords("en-GB"));
  CHECK(none.cues.empty());
  CHECK(none.not_found.size() == 3);
}

TEST_CASE("tracks are written without overlap, numbered, and with names for signs") {
  ScreenTrack track;
  track.cues = {{1.0, 2.5, {"a & b <c>"}}, {3661.25, 3662.0, {"two", "lines"}}};
  CHECK(track_to_vtt(track) ==
        "WEBVTT\n\n00:00:01.000 --> 00:00:02.500 line:0 align:center\na &amp; b &lt;c&gt;\n\n"
        "01:01:01.250 --> 01:01:02.000 line:0 align:center\ntwo\nlines\n");
  CHECK(track_to_srt(track) ==
        "1\n00:00:01,000 --> 00:00:02,500\na & b <c>\n\n2\n01:01:01,250 --> 01:01:02,000\ntwo\n"
        "lines\n\n");
}

TEST_CASE("oven settings are the marks and scales of the tables") {
  // data/ovens.tsv: gas 4 is 350 °F, gas 6 is 400 °F; a fan oven is set 20 °C lower.
  CHECK(heat_on_screen(bake("", 180.0), pantry(), CardWords("en-GB")) ==
        "oven 180 °C = fan 160 °C = 355 °F = gas 4");
  CHECK(heat_on_screen(bake("", 204.4), pantry(), CardWords("en-GB")) ==
        "oven 205 °C = fan 185 °C = 400 °F = gas 6");
  CHECK(heat_on_screen(bake("", 300.0), pantry(), CardWords("en-GB")) ==
        "oven 300 °C = fan 280 °C = 570 °F");
  Step warm;
  warm.celsius = Range{43.3, 43.3};
  CHECK(heat_on_screen(warm, pantry(), CardWords("en-GB")) == "43 °C = 110 °F");
}
