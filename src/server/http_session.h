// http_session: one connection of the server. With http.cpp and http_message the only
// place that includes Boost; nobody but http.cpp includes this.
#pragma once

#include <array>
#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/thread_pool.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/http.hpp>
#include <memory>
#include <optional>
#include <set>

#include "server/http.h"
#include "server/http_guard.h"
#include "server/http_message.h"

namespace maslin {

class HttpSession;

/// What all connections share. Everything but `handlers` is touched by the byte
/// thread alone.
struct HttpShared {
  HttpShared(const HttpOptions& given, HttpHandler answer)
      : options(given), handler(std::move(answer)), handlers(given.handler_threads) {}
  HttpOptions options;
  HttpHandler handler;
  HttpGuard guard;
  boost::asio::io_context io;
  boost::asio::thread_pool handlers;
  std::set<std::shared_ptr<HttpSession>> sessions;
  bool stopping = false;
};

/// Lives as long as one of its operations is under way or it stands in
/// HttpShared::sessions. All functions run on the byte thread.
class HttpSession : public std::enable_shared_from_this<HttpSession> {
 public:
  HttpSession(boost::asio::ip::tcp::socket socket, HttpShared& shared)
      : socket_(std::move(socket)), timer_(shared.io), shared_(shared) {}

  void refuse_full();
  // Waits for the first byte of a request, for as long as an idle connection may live.
  void await_request();
  // Stops at once when idle; an answer under way is finished first.
  void stop();

 private:
  using error_code = boost::system::error_code;
  enum class Phase { idle, reading, handling, writing, streaming, draining };

  void read_header();
  void check_header();
  void send_continue();
  void read_body();
  // False when the read failed, with the fitting refusal already on its way.
  bool readable(error_code error);
  void handle();
  // While the handler runs the client has nothing to say, so a readable socket
  // with nothing to read means that it has closed: a newer edit replaced this one.
  void watch_for_leaving();
  void handled(HttpResponse answer);
  void write(HttpResponse answer);
  // Server-sent events: the head, then each event as it comes, a sign of life when none does,
  // until the client leaves or the feed ends it. In http_stream.cpp.
  void stream(HttpResponse answer);
  void await_event();
  void push_event(std::string_view event);
  void write_events();
  void watch_stream();
  void written(error_code error);
  void drain();
  void arm(std::chrono::milliseconds limit);
  void close();

  boost::asio::ip::tcp::socket socket_;
  boost::asio::steady_timer timer_;
  HttpShared& shared_;
  boost::beast::flat_buffer buffer_;
  std::optional<RequestParser> parser_;
  boost::beast::http::response<boost::beast::http::string_body> response_;
  std::optional<boost::beast::http::response_serializer<boost::beast::http::string_body>>
      head_serializer_;
  std::optional<HttpResponse> answer_;
  std::stop_source gone_;
  std::shared_ptr<EventFeed> feed_;
  std::uint64_t listening_ = 0;
  std::string pending_events_;
  std::string events_on_their_way_;
  bool from_this_machine_ = true;
  std::array<char, 16 * 1024> drained_{};
  Phase phase_ = Phase::idle;
  bool keep_alive_ = false;
  bool head_only_ = false;
  bool timed_out_ = false;
  bool watching_ = false;
  bool closed_ = false;
};

}  // namespace maslin
