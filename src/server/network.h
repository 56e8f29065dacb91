// network: by which names and addresses this machine can be reached, and random bytes.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace maslin {

/// IPv4 addresses of this machine's interfaces that are up, loopback left out; private ones
/// (RFC 1918) first.
std::vector<std::string> own_addresses();
/// "kitchen", "kitchen.local"; empty when the machine has no usable name.
std::vector<std::string> own_names();

/// From the system's source for secrets; throws std::runtime_error when it has none.
std::string random_bytes(std::size_t count);

}  // namespace maslin
