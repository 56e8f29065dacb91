// How a module and its caller pass text: UTF-8 written into the block that
// `maslin_text(bytes)` gives, a function called, and the answer read at `maslin_answer()`
// for `maslin_answer_bytes()` bytes. Every answer is a JSON document; a fault is
// {"problem": sentence}.
#pragma once

#include <string>

namespace maslin::wasm {

/// A WebAssembly module has one caller and no threads: this is what they pass.
struct Talk {
  std::string text;
  std::string answer;
};
Talk& talk();

void answer_problem(const std::string& sentence);

}  // namespace maslin::wasm
