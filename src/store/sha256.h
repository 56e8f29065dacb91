#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace maslin {

/// The SHA-256 digest of the bytes as 64 lower-case hex digits: what names a document or
/// a picture by its content. Source: FIPS 180-4, section 6.2.
std::string sha256_hex(std::string_view bytes);

/// As many first digits of a digest as are enough to name a thing by, if it is the only one.
inline constexpr std::size_t k_fewest_id_digits = 6;

}  // namespace maslin
