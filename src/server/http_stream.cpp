#include <boost/asio/post.hpp>
#include <boost/asio/write.hpp>
#include <utility>

#include "server/http_session.h"

namespace maslin {
namespace asio = boost::asio;

namespace {

// A client that does not read is let go before it costs memory.
constexpr std::size_t k_most_pending_bytes = 64 * 1024;

std::string head_of_stream(const HttpResponse& answer) {
  std::string out = "HTTP/1.1 200 OK\r\nContent-Type: " + answer.content_type +
                    "\r\nConnection: close\r\nX-Accel-Buffering: no\r\n";
  for (const auto& headers : {guard_headers(), answer.headers}) {
    for (const auto& [name, value] : headers) {
      out.append(name).append(": ").append(value).append("\r\n");
    }
  }
  // Tells the browser how soon to come back, in milliseconds, when the line breaks.
  return out + "\r\nretry: 2000\n\n";
}

}  // namespace

void HttpSession::stream(HttpResponse answer) {
  // Called on the byte thread and told from any: each event is carried over to it.
  const auto listener = [weak = weak_from_this(), io = &shared_.io](const std::string& event) {
    asio::post(*io, [weak, event] {
      if (const auto self = weak.lock()) {
        event.empty() ? self->close() : self->push_event(event);
      }
    });
  };
  const std::uint64_t number = answer.events->join(answer.listener, listener);
  if (number == 0) {
    return write(problem_response(503, "Too many pages listen already: close one."));
  }
  phase_ = Phase::streaming;
  timer_.cancel();
  feed_ = std::move(answer.events);
  listening_ = number;
  keep_alive_ = false;
  push_event(head_of_stream(answer));
  watch_stream();
  await_event();
}

void HttpSession::await_event() {
  timer_.expires_after(shared_.options.event_pause);
  timer_.async_wait([self = shared_from_this()](error_code error) {
    if (!error && !self->closed_) {
      self->push_event(": still here\n\n");
      self->await_event();
    }
  });
}

void HttpSession::push_event(std::string_view event) {
  if (closed_) {
    return;
  }
  pending_events_ += event;
  if (pending_events_.size() > k_most_pending_bytes) {
    return close();
  }
  if (events_on_their_way_.empty()) {
    write_events();
  }
}

void HttpSession::write_events() {
  events_on_their_way_ = std::exchange(pending_events_, "");
  asio::async_write(socket_, asio::buffer(events_on_their_way_),
                    [self = shared_from_this()](error_code error, std::size_t) {
                      self->events_on_their_way_.clear();
                      if (error || self->closed_) {
                        return self->close();
                      }
                      if (!self->pending_events_.empty()) {
                        self->write_events();
                      }
                    });
}

void HttpSession::watch_stream() {
  // A listener has nothing more to say: what it sends is dropped, its end ends the stream.
  socket_.async_read_some(asio::buffer(drained_),
                          [self = shared_from_this()](error_code error, std::size_t) {
                            error || self->closed_ ? self->close() : self->watch_stream();
                          });
}

}  // namespace maslin
