// line_marks: what stands at the beginning of a line and is not of its words: stamps of clips and
// chats, bullets, numbers of cards and pictures.
#pragma once

#include <cstddef>
#include <string_view>

namespace maslin::reading {

bool is_digit(char c);

/// Length of a time stamp at the start ("0:02", "00:01:02.345", "[1:02]"), 0 if none.
std::size_t stamp_length(std::string_view line);

bool is_cue_time(std::string_view line);

bool is_number_line(std::string_view line);

/// Bytes of "á " before a digit: the bullet of a page whose signs were read as letters; 0 if none.
std::size_t letter_bullet_length(std::string_view line);

/// Whether "01 - " with that number stands at the start: the numbering of a printed card.
bool is_padded(std::string_view line, std::size_t number);

bool is_bullet_line(std::string_view line);

/// "3/7 " at the start of a line: the third of seven pictures.
std::size_t picture_length(std::string_view line);

/// Whether it is the picture of that number; "1/4 cup" is no picture.
bool is_picture(std::string_view line, std::size_t number);

/// Length of "[12/03/21, 14:05:11] Mum: " or "12/03/2021, 14:05 - Mum: " at the start of
/// a line of a chat; 0 if it is none.
std::size_t chat_length(std::string_view line);

}  // namespace maslin::reading
