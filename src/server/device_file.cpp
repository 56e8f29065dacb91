#include "server/device_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>

namespace maslin {
namespace {

using Json = nlohmann::json;

std::string text_at(const Json& entry, const char* key) {
  const auto found = entry.find(key);
  return found != entry.end() && found->is_string() ? found->get<std::string>() : "";
}

std::int64_t number_at(const Json& entry, const char* key) {
  const auto found = entry.find(key);
  return found != entry.end() && found->is_number_integer() ? found->get<std::int64_t>() : 0;
}

}  // namespace

std::vector<Device> load_devices(const std::string& file) {
  std::ifstream stream(file, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(stream), {}};
  const Json document = Json::parse(text, nullptr, false);
  std::vector<Device> out;
  if (!document.is_object() || !document.contains("devices") || !document["devices"].is_array()) {
    return out;
  }
  for (const Json& entry : document["devices"]) {
    if (!entry.is_object()) {
      continue;
    }
    Device device{text_at(entry, "id"), text_at(entry, "name"), text_at(entry, "secret"),
                  number_at(entry, "paired_ms"), number_at(entry, "seen_ms")};
    if (!device.id.empty() && !device.secret.empty()) {
      out.push_back(std::move(device));
    }
  }
  return out;
}

bool save_devices(const std::string& file, const std::vector<Device>& devices) {
  if (file.empty()) {
    return false;
  }
  Json document{{"devices", Json::array()}};
  for (const Device& device : devices) {
    document["devices"].push_back({{"id", device.id},
                                   {"name", device.name},
                                   {"secret", device.secret},
                                   {"paired_ms", device.paired_ms},
                                   {"seen_ms", device.seen_ms}});
  }
  const std::string text = document.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
  std::error_code ignored;
  std::filesystem::create_directories(std::filesystem::path(file).parent_path(), ignored);
  const std::string fresh = file + ".new";
  ::unlink(fresh.c_str());
  const int handle =
      ::open(fresh.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, S_IRUSR | S_IWUSR);
  if (handle < 0) {
    return false;
  }
  const bool written =
      ::write(handle, text.data(), text.size()) == static_cast<ssize_t>(text.size()) &&
      ::fsync(handle) == 0;
  ::close(handle);
  return written && std::rename(fresh.c_str(), file.c_str()) == 0;
}

}  // namespace maslin
