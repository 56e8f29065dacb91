// serve: the page and the interface on this machine, until interrupted.
#pragma once

#include <cstdint>
#include <string>

#include "server/routes.h"

namespace maslin {

struct ServeOptions {
  std::uint16_t port = 0;  // 0: the system picks a free one
};

/// Prints the address on standard output, then answers until INT or TERM. Exit
/// status 0, or 1 with a sentence on standard error when it cannot listen.
int serve(const ServeOptions& options, ApiHandlers handlers);

}  // namespace maslin
