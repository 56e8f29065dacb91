// Bytes as they come over a connection, through the same parser, guard and addresses as the
// server's, with the functions of the program behind them, only with few draws. What would
// take seconds a request and reads nothing new of it is left out: notes have a fuzz program
// of their own.
#include <boost/asio/buffer.hpp>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include <unistd.h>

#include "cli/api_handlers.h"
#include "recipe/json.h"
#include "server/http_guard.h"
#include "server/http_message.h"
#include "server/routes.h"

namespace {

using namespace maslin;

constexpr std::uint16_t k_port = 8420;
constexpr std::uint32_t k_draws = 8;

/// In memory where the machine has such a folder; gone with the program.
class ScratchStore {
 public:
  ScratchStore() {
    std::error_code none;
    const std::filesystem::path shared = "/dev/shm";
    folder_ = std::filesystem::is_directory(shared, none) ? shared
                                                          : std::filesystem::temp_directory_path();
    folder_ /= "maslin_fuzz_" + std::to_string(getpid());
    renew();
  }
  ~ScratchStore() { clear(); }
  ScratchStore(const ScratchStore&) = delete;
  ScratchStore& operator=(const ScratchStore&) = delete;
  std::string file() const { return (folder_ / "store.sqlite").string(); }
  void renew() {
    clear();
    std::error_code none;
    std::filesystem::create_directories(folder_, none);
  }

 private:
  void clear() {
    std::error_code none;
    std::filesystem::remove_all(folder_, none);
  }
  std::filesystem::path folder_;
};

template <typename Question>
void with_few_draws(std::function<ApiAnswer(const Question&)>& function) {
  function = [inner = function](Question question) {
    question.draws = k_draws;
    return inner(question);
  };
}

struct Served {
  Served() {
    handlers = api_handlers(tools, store.file());
    with_few_draws(handlers.forecast);
    with_few_draws(handlers.plan);
    with_few_draws(handlers.hand_on);
    with_few_draws(handlers.labels.label);
    with_few_draws(handlers.labels.cost);
    with_few_draws(handlers.compare);
    handlers.adjust = {};
    handlers.picture = {};
    handlers.living.card = {};
    handlers.trials.note = {};
    handlers.trials.show = {};
    handlers.trials.close = {};
    handlers.trials.reopen = {};
    handlers.trials.diagnose = {};
    handlers.trials.next = {};
    handlers.trials.unlearn = {};
    PairingWorld world{[] { return std::int64_t{0}; },
                       [](std::size_t count) { return std::string(count, '7'); },
                       {}};
    handlers.devices.pairing = std::make_shared<Pairing>(std::move(world), std::vector<Device>{});
    handlers.devices.feed = std::make_shared<EventFeed>();
    handler = telling(routes(handlers), handlers.devices.feed, {"/api/v1/trials"});
  }
  Tools tools;
  ScratchStore store;
  ApiHandlers handlers;
  HttpHandler handler;
  HttpGuard guard{k_port, {"kitchen.local"}};
  int requests = 0;
};

void check_answer(const HttpResponse& answer) {
  if (answer.status < 200 || answer.status > 599 || answer.status == 500) {
    std::abort();
  }
  if (answer.content_type == "application/json" && answer.status != 304 &&
      !parse_json(answer.body)) {
    std::abort();
  }
  for (const auto& [name, value] : answer.headers) {
    if ((name + value).find_first_of("\r\n") != std::string::npos) {
      std::abort();
    }
  }
}

/// Answers the first request of `bytes`; how many of them it took, 0 where the connection ends.
std::size_t answer_one(Served& served, std::string_view bytes, bool from_this_machine) {
  const HttpOptions options;
  RequestParser parser;
  limit(parser, options);
  boost::system::error_code error;
  std::size_t taken = 0;
  while (!parser.is_done()) {
    const bool had_head = parser.is_header_done();
    taken += parser.put(boost::asio::buffer(bytes.substr(taken)), error);
    if (error) {
      if (const auto refused = unreadable(error, options)) {
        check_answer(*refused);
      }
      return 0;
    }
    if (!had_head && parser.is_header_done()) {
      const HttpHead head = head_of(parser, from_this_machine);
      auto refused = served.guard.refusal(head);
      if (!refused) {
        refused = admitted(*served.handlers.devices.pairing, head);
      }
      if (refused) {
        check_answer(*refused);
        return 0;
      }
      parser.eager(true);
    } else if (taken == bytes.size() && !parser.is_done()) {
      return 0;
    }
  }
  const bool goes_on = parser.get().keep_alive();
  check_answer(served.handler(request_of(parser.release(), from_this_machine)));
  return goes_on ? taken : 0;
}

}  // namespace

/// The first byte says where the client sits.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static Served served;
  if (size == 0) {
    return 0;
  }
  // A store that only grows would be slower with every input.
  if (++served.requests % 2000 == 0) {
    served.store.renew();
  }
  std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const bool from_this_machine = bytes.front() != 'n';
  bytes.remove_prefix(1);
  while (!bytes.empty()) {
    const std::size_t taken = answer_one(served, bytes, from_this_machine);
    if (taken == 0) {
      break;
    }
    bytes.remove_prefix(taken);
  }
  return 0;
}
