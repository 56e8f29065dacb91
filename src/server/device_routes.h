// device_routes: the addresses by which other devices join, are listed and removed, and hear
// what changed.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "server/event_feed.h"
#include "server/http.h"
#include "server/pairing.h"

namespace maslin {

struct Route;

/// What the addresses need; `pairing` is empty when the server is for this machine alone.
struct DeviceHandlers {
  std::shared_ptr<Pairing> pairing;
  std::shared_ptr<EventFeed> feed;
  /// Where other devices find this server, "http://192.168.1.20:8420/"; set before it answers.
  std::shared_ptr<std::string> address = std::make_shared<std::string>();
};

std::vector<Route> device_routes(const DeviceHandlers& devices);

/// The address with the code in it, for a QR code: what follows # is never sent over the wire.
std::string joining_address(const std::string& address, const std::string& code);

/// Lets this machine in, others only to the page's files and to joining, or with the secret of
/// a paired device: else 401.
std::optional<HttpResponse> admitted(Pairing& pairing, const HttpHead& head);

/// Tells the feed of each change that `inner` made: POSTs below `changing` that went well.
HttpHandler telling(HttpHandler inner, std::shared_ptr<EventFeed> feed,
                    std::vector<std::string> changing);

}  // namespace maslin
