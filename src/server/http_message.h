// http_message: from the bytes of a request to what the handler is given. Knows no socket, so
// that any bytes can be tried on it. Included by http_session and tests alone.
#pragma once

#include <boost/beast/http/message.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/string_body.hpp>
#include <optional>

#include "server/http.h"

namespace maslin {

using RequestParser = boost::beast::http::request_parser<boost::beast::http::string_body>;

/// Sets the limits of head and body in bytes.
void limit(RequestParser& parser, const HttpOptions& options);

/// What the guard looks at, once the head has been read.
HttpHead head_of(const RequestParser& parser, bool from_this_machine);

/// The whole request, without `gone`.
HttpRequest request_of(RequestParser::value_type message, bool from_this_machine);

/// The answer to bytes that could not be read: 413, 431 or 400; nothing when the client is
/// gone or its machine failed, and there is nobody to answer.
std::optional<HttpResponse> unreadable(boost::system::error_code error, const HttpOptions& options);

}  // namespace maslin
