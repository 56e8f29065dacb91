#include "server/http_message.h"

#include <boost/asio/error.hpp>
#include <boost/beast/http/error.hpp>
#include <utility>

#include "server/http_guard.h"

namespace maslin {
namespace asio = boost::asio;
namespace http = boost::beast::http;

void limit(RequestParser& parser, const HttpOptions& options) {
  parser.header_limit(static_cast<std::uint32_t>(options.header_limit_bytes));
  parser.body_limit(options.body_limit_bytes);
}

HttpHead head_of(const RequestParser& parser, bool from_this_machine) {
  const auto& head = parser.get();
  HttpHead seen;
  seen.method = std::string(head.method_string());
  seen.target = std::string(head.target());
  seen.host = std::string(head[http::field::host]);
  seen.origin = std::string(head[http::field::origin]);
  seen.hosts = head.count(http::field::host);
  seen.chunked = parser.chunked();
  seen.cookies = std::string(head[http::field::cookie]);
  seen.from_this_machine = from_this_machine;
  return seen;
}

HttpRequest request_of(RequestParser::value_type message, bool from_this_machine) {
  HttpRequest request;
  request.method = std::string(message.method_string());
  const std::string target(message.target());
  const std::size_t mark = target.find('?');
  request.path = target.substr(0, mark);
  request.query = mark == std::string::npos ? "" : target.substr(mark + 1);
  request.content_type = std::string(message[http::field::content_type]);
  request.if_none_match = std::string(message[http::field::if_none_match]);
  request.fetch_site = std::string(message["Sec-Fetch-Site"]);
  request.cookies = std::string(message[http::field::cookie]);
  request.from_this_machine = from_this_machine;
  request.body = std::move(message.body());
  return request;
}

std::optional<HttpResponse> unreadable(boost::system::error_code error,
                                       const HttpOptions& options) {
  if (error == http::error::body_limit) {
    return problem_response(
        413, "The text is too long: the limit is " + megabytes(options.body_limit_bytes) + " MB.");
  }
  if (error == http::error::header_limit) {
    return problem_response(431, "The request's headers are too long.");
  }
  if (error == http::error::end_of_stream || error == http::error::partial_message ||
      error.category() == asio::error::get_system_category() || error == asio::error::eof) {
    return std::nullopt;
  }
  return problem_response(400, "This is not a request in HTTP.");
}

}  // namespace maslin
