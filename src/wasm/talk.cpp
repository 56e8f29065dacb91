#include "wasm/talk.h"

#include <cstddef>

#include "recipe/json.h"

namespace maslin::wasm {

Talk& talk() {
  static Talk the_talk;
  return the_talk;
}

void answer_problem(const std::string& sentence) {
  talk().answer = json_text({{"problem", sentence}});
}

}  // namespace maslin::wasm

extern "C" {

char* maslin_text(std::size_t bytes) {
  auto& text = maslin::wasm::talk().text;
  text.assign(bytes, '\0');
  return text.data();
}
const char* maslin_answer() {
  return maslin::wasm::talk().answer.data();
}
std::size_t maslin_answer_bytes() {
  return maslin::wasm::talk().answer.size();
}
}
