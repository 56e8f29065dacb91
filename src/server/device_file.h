// device_file: the paired devices in a file that only its owner may read.
#pragma once

#include <string>
#include <vector>

#include "server/pairing.h"

namespace maslin {

/// The devices in the file; none when it is not there or not such a file.
std::vector<Device> load_devices(const std::string& file);
/// Replaces the file in one step; false when that failed.
bool save_devices(const std::string& file, const std::vector<Device>& devices);

}  // namespace maslin
