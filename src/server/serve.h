// serve: the page and the interface on this machine, until interrupted.
#pragma once

#include <cstdint>
#include <string>

#include "server/routes.h"

namespace maslin {

enum class Reach : std::uint8_t { this_machine, network };

struct ServeOptions {
  std::uint16_t port = 0;  // 0: the system picks a free one
  Reach reach = Reach::this_machine;
  std::string device_file;  // where paired devices are kept; empty: only while it runs
};

/// Prints the address on standard output, with `network` also the code and QR code by which
/// a phone joins; then answers until INT or TERM. Exit status 0, or 1 with a sentence on
/// standard error when it cannot listen.
int serve(const ServeOptions& options, ApiHandlers handlers);

}  // namespace maslin
