// http: the one place that speaks HTTP. Listens on loopback, reads one request at
// a time from each connection, hands it to a function, and writes the answer.
// Nobody but http.cpp and its http_session and http_message includes Boost.
//
// One thread moves the bytes of all connections, so that a client that dawdles
// holds up nobody; a few others run the handler. Refused before the handler sees
// them: a Host or Origin that is not ours (a page elsewhere that was pointed at
// this machine), bodies and headers over their limit, bodies of unstated length,
// and clients that take too long.
#pragma once

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "server/event_feed.h"

namespace maslin {

/// The parts of a request's head that decide whether it is let in.
struct HttpHead {
  std::string method;
  std::string target;
  std::string host;
  std::string origin;
  std::size_t hosts = 0;          // how many Host headers were sent
  bool chunked = false;           // a body whose length is not stated
  std::string cookies;            // as sent
  bool from_this_machine = true;  // over loopback
};

struct HttpRequest {
  std::string method;        // GET, HEAD, POST as sent
  std::string path;          // as sent, without the query
  std::string query;         // what follows the question mark, still encoded
  std::string content_type;  // as sent
  std::string if_none_match;
  std::string fetch_site;         // Sec-Fetch-Site as sent by browsers
  std::string cookies;            // as sent
  bool from_this_machine = true;  // over loopback
  std::string body;
  /// Set when the client has gone away: the answer is no longer wanted.
  std::stop_token gone;
};

struct HttpResponse {
  int status = 200;
  std::string content_type = "application/json";
  std::string body;
  /// Further headers; the values are ours, never the client's words.
  std::vector<std::pair<std::string, std::string>> headers;
  /// Set: the answer goes on as server-sent events of this feed, heard by `listener` (the id
  /// of a device, "" for this machine), until the client or the feed ends it.
  std::shared_ptr<EventFeed> events;
  std::string listener;
};

using HttpHandler = std::function<HttpResponse(const HttpRequest&)>;

struct HttpOptions {
  std::string address = "127.0.0.1";
  std::uint16_t port = 0;                          // 0: the system picks a free one
  std::vector<std::string> host_names;             // further names we answer to
  std::size_t header_limit_bytes = 16 * 1024;      // over it: 431
  std::size_t body_limit_bytes = 4 * 1024 * 1024;  // over it: 413
  std::size_t connection_limit = 256;              // over it: 503
  std::size_t handler_threads = 2;
  /// Asked of each request's head before its body is read: a refusal, or nothing. Must return
  /// at once. May be empty.
  std::function<std::optional<HttpResponse>(const HttpHead&)> admit;
  /// Told the port once it is known, before the first request; may be empty.
  std::function<void(std::uint16_t)> listening;
  std::chrono::milliseconds event_pause{20'000};    // quiet before a stream says it is there
  std::chrono::milliseconds idle_limit{30'000};     // quiet between requests: closed
  std::chrono::milliseconds request_limit{10'000};  // first byte to last: 408
  std::chrono::milliseconds response_limit{20'000};
};

/// A running server; stops when destroyed.
class HttpServer {
 public:
  ~HttpServer();
  HttpServer(const HttpServer&) = delete;
  HttpServer& operator=(const HttpServer&) = delete;

  /// The port listened on.
  std::uint16_t port() const;
  /// Stops listening, lets running answers end, closes every connection. May be
  /// called from any thread and more than once.
  void stop();
  /// Returns once stopped, by stop() or by the signals INT or TERM.
  void wait_for_signal();

 private:
  struct State;
  explicit HttpServer(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
  friend struct HttpStart start_http(const HttpOptions& options, HttpHandler handler);
};

/// Either a running server, or why there is none in a sentence.
struct HttpStart {
  std::unique_ptr<HttpServer> server;
  std::string problem;
};

HttpStart start_http(const HttpOptions& options, HttpHandler handler);

}  // namespace maslin
