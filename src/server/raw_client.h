// For tests: says exact bytes to a server and hears exact bytes back, so that a
// test can misbehave as no HTTP library would.
#pragma once

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <unistd.h>

#include <cstdint>
#include <string>
#include <string_view>

namespace maslin {

class RawClient {
 public:
  explicit RawClient(std::uint16_t port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(port);
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    const timeval limit{10, 0};
    ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &limit, sizeof limit);
    ::connect(socket_, reinterpret_cast<const sockaddr*>(&address), sizeof address);
  }
  ~RawClient() { close(); }
  RawClient(const RawClient&) = delete;
  RawClient& operator=(const RawClient&) = delete;

  void say(std::string_view bytes) const {
    while (!bytes.empty()) {
      const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
      if (sent <= 0) {
        return;
      }
      bytes.remove_prefix(static_cast<std::size_t>(sent));
    }
  }

  /// One response with the body its length announces, or what came before the end.
  std::string hear() const {
    std::string heard;
    std::size_t wanted = std::string::npos;
    while (heard.size() < wanted) {
      char bytes[4096];
      const ssize_t got = ::recv(socket_, bytes, sizeof bytes, 0);
      if (got <= 0) {
        break;
      }
      heard.append(bytes, static_cast<std::size_t>(got));
      const std::size_t end = heard.find("\r\n\r\n");
      const std::size_t length = heard.find("Content-Length: ");
      if (wanted == std::string::npos && end != std::string::npos && length < end) {
        wanted = end + 4 + std::stoul(heard.substr(length + 16));
      }
    }
    return heard;
  }

  /// Whatever comes next; nothing at the end.
  std::string hear_some() const {
    char bytes[4096];
    const ssize_t got = ::recv(socket_, bytes, sizeof bytes, 0);
    return got <= 0 ? "" : std::string(bytes, static_cast<std::size_t>(got));
  }

  void close() {
    if (socket_ >= 0) {
      ::close(socket_);
      socket_ = -1;
    }
  }

 private:
  int socket_;
};

inline int status_of(const std::string& response) {
  return response.starts_with("HTTP/1.1 ") ? std::stoi(response.substr(9, 3)) : 0;
}

inline std::string body_of(const std::string& response) {
  const std::size_t end = response.find("\r\n\r\n");
  return end == std::string::npos ? "" : response.substr(end + 4);
}

}  // namespace maslin
