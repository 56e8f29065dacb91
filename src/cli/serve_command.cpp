#include "app/library.h"
#include "cli/api_handlers.h"
#include "cli/commands.h"
#include "server/serve.h"

namespace maslin {

int serve_command(const ServeArguments& arguments, const CommonOptions& options) {
  const Tools tools;
  const std::string store = options.store.empty() ? default_store_file() : options.store;
  ServeOptions serving;
  serving.port = arguments.port;
  serving.reach = arguments.lan ? Reach::network : Reach::this_machine;
  // Beside the store, in a file of its own: the store is shared with programs and copies, the
  // secrets of devices are not.
  serving.device_file = store.empty() ? "" : store + ".devices.json";
  return serve(serving, api_handlers(tools, options.store));
}

}  // namespace maslin
