#include "server/http_session.h"

#include <boost/asio/executor_work_guard.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/write.hpp>
#include <exception>

namespace maslin {
namespace asio = boost::asio;
namespace http = boost::beast::http;
using asio::ip::tcp;
using boost::system::error_code;

namespace {

HttpResponse answer_or_apology(const HttpHandler& handler, const HttpRequest& request) {
  try {
    return handler(request);
  } catch (const std::exception&) {
    return problem_response(500, "The program failed on this request; the server goes on.");
  }
}

}  // namespace

void HttpSession::refuse_full() {
  keep_alive_ = false;
  write(problem_response(503, "Too many connections are open: close a page and try again."));
}

void HttpSession::await_request() {
  phase_ = Phase::idle;
  if (shared_.stopping) {
    return close();
  }
  parser_.emplace();
  limit(*parser_, shared_.options);
  if (buffer_.size() > 0) {
    return read_header();
  }
  arm(shared_.options.idle_limit);
  socket_.async_wait(tcp::socket::wait_read, [self = shared_from_this()](error_code error) {
    if (error || self->closed_) {
      return self->close();
    }
    self->read_header();
  });
}

void HttpSession::stop() {
  keep_alive_ = false;
  if (phase_ == Phase::idle || phase_ == Phase::reading || phase_ == Phase::streaming) {
    close();
  }
}

void HttpSession::read_header() {
  phase_ = Phase::reading;
  arm(shared_.options.request_limit);
  http::async_read_header(socket_, buffer_, *parser_,
                          [self = shared_from_this()](error_code error, std::size_t) {
                            if (!self->readable(error)) {
                              return;
                            }
                            self->check_header();
                          });
}

void HttpSession::check_header() {
  error_code unknown;
  const tcp::endpoint peer = socket_.remote_endpoint(unknown);
  from_this_machine_ = !unknown && peer.address().is_loopback();
  const HttpHead seen = head_of(*parser_, from_this_machine_);
  if (const auto refused = shared_.guard.refusal(seen)) {
    keep_alive_ = false;
    return write(*refused);
  }
  if (shared_.options.admit) {
    if (const auto refused = shared_.options.admit(seen)) {
      keep_alive_ = false;
      return write(*refused);
    }
  }
  if (boost::beast::iequals(parser_->get()[http::field::expect], "100-continue")) {
    return send_continue();
  }
  read_body();
}

void HttpSession::send_continue() {
  static constexpr std::string_view k_go_on = "HTTP/1.1 100 Continue\r\n\r\n";
  asio::async_write(socket_, asio::buffer(k_go_on),
                    [self = shared_from_this()](error_code error, std::size_t) {
                      if (error || self->closed_) {
                        return self->close();
                      }
                      self->read_body();
                    });
}

void HttpSession::read_body() {
  http::async_read(socket_, buffer_, *parser_,
                   [self = shared_from_this()](error_code error, std::size_t) {
                     if (!self->readable(error)) {
                       return;
                     }
                     self->handle();
                   });
}

bool HttpSession::readable(error_code error) {
  if (closed_) {
    return false;
  }
  if (!error) {
    return true;
  }
  keep_alive_ = false;
  if (timed_out_) {
    write(problem_response(408, "The request took too long to arrive."));
  } else if (const auto refused = unreadable(error, shared_.options)) {
    write(*refused);
  } else {
    close();
  }
  return false;
}

void HttpSession::handle() {
  phase_ = Phase::handling;
  timer_.cancel();
  auto message = parser_->release();
  keep_alive_ = message.keep_alive() && !shared_.stopping;
  head_only_ = message.method() == http::verb::head;
  HttpRequest request = request_of(std::move(message), from_this_machine_);
  gone_ = std::stop_source();
  request.gone = gone_.get_token();
  if (buffer_.size() == 0) {
    watch_for_leaving();
  }
  // Keeps the byte thread alive until this answer is written, also while stopping.
  auto work = asio::make_work_guard(shared_.io);
  asio::post(shared_.handlers,
             [self = shared_from_this(), asked = std::move(request), work = std::move(work)] {
               // A request whose client left while it waited its turn costs nothing.
               HttpResponse response;
               if (!asked.gone.stop_requested()) {
                 response = answer_or_apology(self->shared_.handler, asked);
               }
               asio::post(self->shared_.io, [self, answer = std::move(response)]() mutable {
                 self->handled(std::move(answer));
               });
             });
}

void HttpSession::watch_for_leaving() {
  watching_ = true;
  socket_.async_wait(tcp::socket::wait_read, [self = shared_from_this()](error_code error) {
    self->watching_ = false;
    if (self->phase_ == Phase::handling && !error) {
      char byte = 0;
      error_code peeked;
      self->socket_.non_blocking(true, peeked);
      const std::size_t count =
          self->socket_.receive(asio::buffer(&byte, 1), tcp::socket::message_peek, peeked);
      if (count == 0 && peeked != asio::error::would_block) {
        self->gone_.request_stop();
      }
    }
    if (self->answer_) {
      self->write(*std::exchange(self->answer_, std::nullopt));
    }
  });
}

void HttpSession::handled(HttpResponse answer) {
  if (closed_) {
    return;
  }
  if (gone_.stop_requested()) {
    return close();
  }
  if (watching_) {
    // The wait must end before the socket is used again; it then writes.
    answer_ = std::move(answer);
    error_code ignored;
    socket_.cancel(ignored);
    return;
  }
  write(std::move(answer));
}

void HttpSession::write(HttpResponse answer) {
  if (closed_) {
    return;
  }
  if (answer.events && !head_only_) {
    return stream(std::move(answer));
  }
  phase_ = Phase::writing;
  timed_out_ = false;
  arm(shared_.options.response_limit);
  response_ = {};
  response_.version(11);
  response_.result(static_cast<unsigned>(answer.status));
  if (!answer.content_type.empty()) {
    response_.set(http::field::content_type, answer.content_type);
  }
  for (const auto& [name, value] : guard_headers()) {
    response_.set(name, value);
  }
  for (const auto& [name, value] : answer.headers) {
    response_.set(name, value);
  }
  response_.keep_alive(keep_alive_ && !shared_.stopping);
  response_.body() = std::move(answer.body);
  response_.prepare_payload();
  if (head_only_) {
    response_.body().clear();  // the length stays that of the full answer
  }
  const auto written = [self = shared_from_this()](error_code error, std::size_t) {
    self->written(error);
  };
  if (head_only_) {
    head_serializer_.emplace(response_);
    return http::async_write_header(socket_, *head_serializer_, written);
  }
  http::async_write(socket_, response_, written);
}

void HttpSession::written(error_code error) {
  if (error || closed_ || timed_out_) {
    return close();
  }
  if (keep_alive_ && !shared_.stopping) {
    return await_request();
  }
  // Read on for a moment, so that the answer is not lost to a reset when the
  // client is still sending what was refused.
  phase_ = Phase::draining;
  arm(std::chrono::milliseconds(1'000));
  socket_.shutdown(tcp::socket::shutdown_send, error);
  drain();
}

void HttpSession::drain() {
  socket_.async_read_some(asio::buffer(drained_),
                          [self = shared_from_this()](error_code error, std::size_t) {
                            if (error || self->closed_ || self->timed_out_) {
                              return self->close();
                            }
                            self->drain();
                          });
}

void HttpSession::arm(std::chrono::milliseconds limit) {
  timed_out_ = false;
  timer_.expires_after(limit);
  timer_.async_wait([self = shared_from_this()](error_code error) {
    // A timer set anew may have a stale wait under way: look at the time itself.
    if (error || self->closed_ || self->timer_.expiry() > asio::steady_timer::clock_type::now()) {
      return;
    }
    self->timed_out_ = true;
    error_code ignored;
    self->socket_.cancel(ignored);
  });
}

void HttpSession::close() {
  if (closed_) {
    return;
  }
  closed_ = true;
  if (feed_) {
    feed_->leave(listening_);
  }
  gone_.request_stop();
  timer_.cancel();
  error_code ignored;
  socket_.shutdown(tcp::socket::shutdown_both, ignored);
  socket_.close(ignored);
  shared_.sessions.erase(shared_from_this());
}

}  // namespace maslin
