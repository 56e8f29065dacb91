#include "server/http.h"

#include <boost/asio/io_context.hpp>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <csignal>
#include <future>
#include <thread>

#include "server/http_session.h"

namespace maslin {
namespace asio = boost::asio;
using asio::ip::tcp;
using boost::system::error_code;

struct HttpServer::State {
  State(const HttpOptions& options, HttpHandler handler)
      : shared(options, std::move(handler)), acceptor(shared.io), signals(shared.io) {}

  void accept() {
    acceptor.async_accept([this](error_code error, tcp::socket socket) {
      if (shared.stopping || error == asio::error::operation_aborted) {
        return;
      }
      if (error) {
        // Out of descriptors or the like: wait a little, do not spin.
        accept_again.expires_after(std::chrono::milliseconds(50));
        return accept_again.async_wait([this](error_code) { accept(); });
      }
      const auto session = std::make_shared<HttpSession>(std::move(socket), shared);
      const bool full = shared.sessions.size() >= shared.options.connection_limit;
      shared.sessions.insert(session);
      full ? session->refuse_full() : session->await_request();
      accept();
    });
  }

  // On the byte thread.
  void stop() {
    if (std::exchange(shared.stopping, true)) {
      return;
    }
    error_code ignored;
    acceptor.close(ignored);
    accept_again.cancel();
    signals.cancel(ignored);
    for (const auto& session : std::set(shared.sessions)) {
      session->stop();
    }
    stopped.set_value();
  }

  HttpShared shared;
  tcp::acceptor acceptor;
  asio::steady_timer accept_again{shared.io};
  asio::signal_set signals;
  std::promise<void> stopped;
  std::shared_future<void> stopped_future = stopped.get_future().share();
  std::jthread bytes;
  std::uint16_t port = 0;
};

HttpServer::HttpServer(std::unique_ptr<State> state) : state_(std::move(state)) {}

HttpServer::~HttpServer() {
  stop();
  state_->bytes.join();
  state_->shared.handlers.join();
}

std::uint16_t HttpServer::port() const {
  return state_->port;
}

void HttpServer::stop() {
  asio::post(state_->shared.io, [state = state_.get()] { state->stop(); });
}

void HttpServer::wait_for_signal() {
  asio::post(state_->shared.io, [state = state_.get()] {
    error_code ignored;
    state->signals.add(SIGINT, ignored);
    state->signals.add(SIGTERM, ignored);
    state->signals.async_wait([state](error_code error, int) {
      if (!error) {
        state->stop();
      }
    });
  });
  state_->stopped_future.wait();
}

HttpStart start_http(const HttpOptions& options, HttpHandler handler) {
  error_code error;
  const auto address = asio::ip::make_address(options.address, error);
  if (error) {
    return {nullptr, "'" + options.address +
                         "' is not an address to listen on: give one such as 127.0.0.1."};
  }
  auto state = std::make_unique<HttpServer::State>(options, std::move(handler));
  const tcp::endpoint endpoint(address, options.port);
  state->acceptor.open(endpoint.protocol(), error);
  if (!error) {
    state->acceptor.set_option(tcp::acceptor::reuse_address(true), error);
  }
  if (!error) {
    state->acceptor.bind(endpoint, error);
  }
  if (!error) {
    state->acceptor.listen(tcp::acceptor::max_listen_connections, error);
  }
  if (error) {
    return {nullptr, "Cannot listen on " + options.address + " port " +
                         std::to_string(options.port) + " (" + error.message() +
                         "): another program may have it; try --port 0."};
  }
  state->port = state->acceptor.local_endpoint().port();
  state->shared.guard = HttpGuard(state->port, options.host_names);
  if (options.listening) {
    options.listening(state->port);
  }
  state->accept();
  state->bytes = std::jthread([raw = state.get()] { raw->shared.io.run(); });
  return {std::unique_ptr<HttpServer>(new HttpServer(std::move(state))), ""};
}

}  // namespace maslin
