#include "server/serve.h"

#include <chrono>
#include <cstdio>
#include <memory>

#include "server/device_file.h"
#include "server/http.h"
#include "server/network.h"
#include "server/qr_code.h"

namespace maslin {
namespace {

std::int64_t now_ms() {
  return std::chrono::duration_cast<std::chrono::milliseconds>(
             std::chrono::system_clock::now().time_since_epoch())
      .count();
}

std::shared_ptr<Pairing> pairing_of(const ServeOptions& options) {
  PairingWorld world{now_ms, random_bytes, {}};
  if (!options.device_file.empty()) {
    world.keep = [file = options.device_file](const std::vector<Device>& devices) {
      if (!save_devices(file, devices)) {
        std::fprintf(stderr,
                     "maslin: %s cannot be written: paired devices are forgotten at the end.\n",
                     file.c_str());
      }
    };
  }
  return std::make_shared<Pairing>(std::move(world), load_devices(options.device_file));
}

void say_how_to_join(const std::string& address, const Pairing& pairing) {
  const auto code = pairing.code();
  if (!code) {
    return;
  }
  std::printf("A phone on this network joins at %s with the code %s\n", address.c_str(),
              code->text.c_str());
  std::printf("(for ten minutes and one device; the page makes another, under Devices)\n\n%s\n",
              qr_for_terminal(qr_rows(joining_address(address, code->text))).c_str());
}

/// Whatever is kept: a change there is told to the other devices.
const std::vector<std::string> k_kept = {"/api/v1/trials", "/api/v1/library", "/api/v1/kitchens"};

}  // namespace

int serve(const ServeOptions& options, ApiHandlers handlers) {
  HttpOptions http;
  http.port = options.port;
  handlers.devices.feed = std::make_shared<EventFeed>();
  const std::vector<std::string> addresses = own_addresses();
  if (options.reach == Reach::network) {
    if (addresses.empty()) {
      std::fprintf(stderr, "maslin: this machine is on no network: leave --lan out.\n");
      return 1;
    }
    http.address = "0.0.0.0";
    http.host_names = addresses;
    const std::vector<std::string> names = own_names();
    http.host_names.insert(http.host_names.end(), names.begin(), names.end());
    handlers.devices.pairing = pairing_of(options);
    http.admit = [pairing = handlers.devices.pairing](const HttpHead& head) {
      return admitted(*pairing, head);
    };
  }
  http.listening = [&](std::uint16_t port) {
    if (handlers.devices.pairing) {
      *handlers.devices.address = "http://" + addresses.front() + ":" + std::to_string(port) + "/";
    }
  };
  const HttpStart start =
      start_http(http, telling(routes(handlers), handlers.devices.feed, k_kept));
  if (!start.server) {
    std::fprintf(stderr, "maslin: %s\n", start.problem.c_str());
    return 1;
  }
  std::printf("The page is at http://127.0.0.1:%u/ (stop with Ctrl-C)\n",
              static_cast<unsigned>(start.server->port()));
  if (handlers.devices.pairing) {
    say_how_to_join(*handlers.devices.address, *handlers.devices.pairing);
  }
  std::fflush(stdout);
  start.server->wait_for_signal();
  return 0;
}

}  // namespace maslin
