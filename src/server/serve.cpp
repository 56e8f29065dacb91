#include "server/serve.h"

#include <cstdio>

#include "server/http.h"

namespace maslin {

int serve(const ServeOptions& options, ApiHandlers handlers) {
  HttpOptions http;
  http.port = options.port;
  const HttpStart start = start_http(http, routes(handlers));
  if (!start.server) {
    std::fprintf(stderr, "maslin: %s\n", start.problem.c_str());
    return 1;
  }
  std::printf("The page is at http://127.0.0.1:%u/ (stop with Ctrl-C)\n",
              static_cast<unsigned>(start.server->port()));
  std::fflush(stdout);
  start.server->wait_for_signal();
  return 0;
}

}  // namespace maslin
