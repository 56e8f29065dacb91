// Photographs as bytes: what kind of file it is, and the same picture without what the
// camera wrote into it: where and when it was taken, with what, by whom. Nothing is
// decoded, so nothing of the picture itself changes.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace maslin {

enum class PictureKind : std::uint8_t { jpeg, png, webp };
std::string_view picture_kind_name(PictureKind kind);
std::optional<PictureKind> picture_kind_from(std::string_view name);
/// "jpg", "png", "webp".
std::string_view picture_ending(PictureKind kind);

/// The largest picture that is taken, bytes.
inline constexpr std::size_t k_largest_picture = 16U << 20U;

struct CleanPicture {
  PictureKind kind = PictureKind::jpeg;
  std::string bytes;
  std::string problem;  // why it cannot be kept, one sentence; else empty
};

/// The picture without EXIF, XMP, IPTC, comments, text, times, thumbnails and whatever
/// follows its end (a phone hangs a film or a second picture there). Kept: the pixels, the
/// colour profile, the pixel's size, and of a JPEG's EXIF the one number that says which
/// side is up. Refused: larger than k_largest_picture, no JPEG, PNG or WebP, or cut short.
/// Sources: JPEG, ITU-T T.81 annex B; EXIF 2.3 section 4.6; PNG, W3C second edition
/// sections 5 and 11; WebP container, RFC 9649 section 2 (all from memory).
CleanPicture clean_picture(std::string_view bytes);

}  // namespace maslin
