#include "server/network.h"

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>
#include <sys/random.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <memory>
#include <stdexcept>

namespace maslin {
namespace {

bool is_private(const std::string& address) {
  if (address.starts_with("10.") || address.starts_with("192.168.")) {
    return true;
  }
  // 172.16 to 172.31
  if (!address.starts_with("172.")) {
    return false;
  }
  const int second = std::atoi(address.c_str() + 4);
  return second >= 16 && second <= 31;
}

}  // namespace

std::vector<std::string> own_addresses() {
  ifaddrs* first = nullptr;
  std::vector<std::string> out;
  if (::getifaddrs(&first) != 0) {
    return out;
  }
  const std::unique_ptr<ifaddrs, decltype(&::freeifaddrs)> held(first, &::freeifaddrs);
  for (const ifaddrs* one = first; one != nullptr; one = one->ifa_next) {
    const bool up = (one->ifa_flags & IFF_UP) != 0 && (one->ifa_flags & IFF_LOOPBACK) == 0;
    if (!up || one->ifa_addr == nullptr || one->ifa_addr->sa_family != AF_INET) {
      continue;
    }
    std::array<char, INET_ADDRSTRLEN> text{};
    const auto* address = reinterpret_cast<const sockaddr_in*>(one->ifa_addr);
    if (::inet_ntop(AF_INET, &address->sin_addr, text.data(), text.size()) != nullptr) {
      out.emplace_back(text.data());
    }
  }
  std::stable_partition(out.begin(), out.end(), is_private);
  return out;
}

std::vector<std::string> own_names() {
  std::array<char, 256> text{};
  if (::gethostname(text.data(), text.size() - 1) != 0 || text[0] == '\0') {
    return {};
  }
  const std::string name = text.data();
  return {name, name + ".local"};
}

std::string random_bytes(std::size_t count) {
  std::string out(count, '\0');
  std::size_t filled = 0;
  while (filled < count) {
    const ssize_t got = ::getrandom(out.data() + filled, count - filled, 0);
    if (got <= 0) {
      throw std::runtime_error("the system gives no random bytes");
    }
    filled += static_cast<std::size_t>(got);
  }
  return out;
}

}  // namespace maslin
