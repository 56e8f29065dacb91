#include "server/device_routes.h"

#include <algorithm>

#include "server/asked.h"
#include "server/http_guard.h"
#include "server/qr_code.h"

namespace maslin {
namespace {

using Json = nlohmann::json;

constexpr std::string_view k_cookie = "maslin_device=";
constexpr std::string_view k_api = "/api/";

HttpResponse json_response(const Json& document) {
  HttpResponse out;
  out.body = document.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
  out.headers.emplace_back("Cache-Control", "no-store");
  return out;
}

/// The secret among the cookies of a request; empty when it has none.
std::string secret_in(std::string_view cookies) {
  while (!cookies.empty()) {
    const std::string_view one = cookies.substr(0, cookies.find(';'));
    cookies.remove_prefix(std::min(cookies.size(), one.size() + 1));
    const std::size_t start = one.find_first_not_of(' ');
    if (start != std::string_view::npos && one.substr(start).starts_with(k_cookie)) {
      return std::string(one.substr(start + k_cookie.size()));
    }
  }
  return {};
}

HttpResponse only_here() {
  return problem_response(403, "Devices are looked after on the computer that runs maslin.");
}

HttpResponse answer_pair(const DeviceHandlers& devices, const HttpRequest& request) {
  Asked asked = asked_with(request, {"code", "name"});
  if (asked.refused) {
    return *asked.refused;
  }
  const std::string code = text_of(asked, "code");
  const std::string name = text_of(asked, "name");
  if (asked.refused) {
    return *asked.refused;
  }
  if (!devices.pairing) {
    return problem_response(501, "This maslin serves its own machine alone: start it with --lan.");
  }
  const Pairing::Joined joined = devices.pairing->join(code, name);
  switch (joined.outcome) {
    case Pairing::Outcome::wrong_code:
      return problem_response(403, "That is not the code: read it off the computer again.");
    case Pairing::Outcome::no_code:
      return problem_response(
          403, "That code was used or is too old: make a new one on the computer, under Devices.");
    case Pairing::Outcome::too_many_tries:
      return problem_response(
          429, "Too many wrong codes: make a new one on the computer, under Devices.");
    case Pairing::Outcome::too_many_devices:
      return problem_response(403, "Too many devices are paired: remove one on the computer.");
    case Pairing::Outcome::paired:
      break;
  }
  HttpResponse out = json_response({{"device", joined.device.id}, {"name", joined.device.name}});
  out.headers.emplace_back("Set-Cookie",
                           std::string(k_cookie) + joined.device.secret +
                               "; Path=/; Max-Age=31536000; HttpOnly; SameSite=Strict");
  if (devices.feed) {
    devices.feed->tell("devices", "{}");
  }
  return out;
}

HttpResponse answer_devices(const DeviceHandlers& devices, const HttpRequest& request) {
  if (!request.from_this_machine) {
    return only_here();
  }
  Json out{{"lan", devices.pairing != nullptr}, {"devices", Json::array()}};
  if (!devices.pairing) {
    return json_response(out);
  }
  out["address"] = *devices.address;
  if (const auto code = devices.pairing->code()) {
    out["code"] = code->text;
    out["code_seconds"] = code->left.count() / 1000;
    out["qr"] = qr_rows(joining_address(*devices.address, code->text));
  }
  for (const Device& device : devices.pairing->devices()) {
    out["devices"].push_back({{"id", device.id},
                              {"name", device.name},
                              {"paired_ms", device.paired_ms},
                              {"seen_ms", device.seen_ms}});
  }
  return json_response(out);
}

HttpResponse answer_new_code(const DeviceHandlers& devices, const HttpRequest& request) {
  if (!request.from_this_machine) {
    return only_here();
  }
  if (!devices.pairing) {
    return problem_response(501, "This maslin serves its own machine alone: start it with --lan.");
  }
  devices.pairing->renew_code();
  return answer_devices(devices, request);
}

HttpResponse answer_remove(const DeviceHandlers& devices, const HttpRequest& request,
                           const std::string& id) {
  if (!request.from_this_machine) {
    return only_here();
  }
  if (!devices.pairing || !devices.pairing->remove(id)) {
    return problem_response(404, "No device has that name any more.");
  }
  if (devices.feed) {
    devices.feed->stop_device(id);
  }
  return answer_devices(devices, request);
}

HttpResponse answer_events(const DeviceHandlers& devices, const HttpRequest& request) {
  if (!devices.feed) {
    return not_here();
  }
  HttpResponse out;
  out.content_type = "text/event-stream";
  out.headers.emplace_back("Cache-Control", "no-store");
  out.events = devices.feed;
  if (devices.pairing && !request.from_this_machine) {
    const auto device = devices.pairing->device_with(secret_in(request.cookies));
    out.listener = device ? device->id : "";
  }
  return out;
}

}  // namespace

std::vector<Route> device_routes(const DeviceHandlers& devices) {
  const auto plain = [devices](HttpResponse (*answer)(const DeviceHandlers&, const HttpRequest&)) {
    return [devices, answer](const HttpRequest& request, const std::string&) {
      return answer(devices, request);
    };
  };
  return {{"POST", "pair", plain(answer_pair)},
          {"GET", "devices", plain(answer_devices)},
          {"POST", "devices/code", plain(answer_new_code)},
          {"POST", "devices/{id}/remove",
           [devices](const HttpRequest& request, const std::string& id) {
             return answer_remove(devices, request, id);
           }},
          {"GET", "events", plain(answer_events)}};
}

std::string joining_address(const std::string& address, const std::string& code) {
  return address + "#pair=" + code;
}

std::optional<HttpResponse> admitted(Pairing& pairing, const HttpHead& head) {
  const std::string_view target = head.target;
  const std::string_view path = target.substr(0, target.find('?'));
  const bool open = !path.starts_with(k_api) || path == "/api/v1/pair";
  if (head.from_this_machine || open || pairing.device_with(secret_in(head.cookies))) {
    return std::nullopt;
  }
  return problem_response(401, "This device is not paired: type the code that the computer shows.");
}

HttpHandler telling(HttpHandler inner, std::shared_ptr<EventFeed> feed,
                    std::vector<std::string> changing) {
  return [inner = std::move(inner), feed = std::move(feed),
          changing = std::move(changing)](const HttpRequest& request) {
    HttpResponse response = inner(request);
    const bool changes =
        request.method == "POST" && response.status == 200 &&
        std::any_of(changing.begin(), changing.end(),
                    [&](const std::string& start) { return request.path.starts_with(start); });
    if (changes) {
      feed->tell("changed", "{\"what\":" + json_quoted(request.path) + "}");
    }
    return response;
  };
}

}  // namespace maslin
