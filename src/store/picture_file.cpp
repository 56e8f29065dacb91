#include "store/picture_file.h"

#include <algorithm>
#include <array>

namespace maslin {
namespace {

constexpr std::array<std::string_view, 3> k_names{"jpeg", "png", "webp"};
constexpr std::array<std::string_view, 3> k_endings{"jpg", "png", "webp"};
constexpr std::string_view k_png_signature = "\x89PNG\r\n\x1a\n";

unsigned byte_at(std::string_view bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}

enum class Order : std::uint8_t { big, little };
/// `width` bytes as a number; the caller has checked that they are there.
std::size_t number_at(std::string_view bytes, std::size_t at, std::size_t width, Order order) {
  std::size_t value = 0;
  for (std::size_t i = 0; i < width; ++i) {
    value = value << 8U | byte_at(bytes, at + (order == Order::big ? i : width - 1 - i));
  }
  return value;
}

std::string number_bytes(std::size_t value, std::size_t width, Order order) {
  std::string out;
  for (std::size_t i = 0; i < width; ++i) {
    const std::size_t shift = 8 * (order == Order::big ? width - 1 - i : i);
    out += static_cast<char>(value >> shift & 0xffU);
  }
  return out;
}

bool starts_with(std::string_view text, std::string_view start) {
  return text.substr(0, start.size()) == start;
}

std::optional<PictureKind> kind_of(std::string_view bytes) {
  if (starts_with(bytes, "\xff\xd8\xff")) {
    return PictureKind::jpeg;
  }
  if (starts_with(bytes, k_png_signature)) {
    return PictureKind::png;
  }
  if (starts_with(bytes, "RIFF") && bytes.size() >= 12 && bytes.substr(8, 4) == "WEBP") {
    return PictureKind::webp;
  }
  return std::nullopt;
}

// JPEG ------------------------------------------------------------------------------

/// Which side is up, 1 to 8, from the body of an EXIF segment; 1 when it does not say.
/// The body is "Exif\0\0", then a TIFF header and its first directory, in which entry
/// 0x0112 of type SHORT is the orientation.
std::size_t orientation_of(std::string_view exif) {
  constexpr std::size_t k_header = 6;
  constexpr std::size_t k_entry = 12;
  const std::string_view tiff = exif.substr(std::min(exif.size(), k_header));
  if (tiff.size() < 8) {
    return 1;
  }
  const Order order = starts_with(tiff, "II") ? Order::little : Order::big;
  const std::size_t directory = number_at(tiff, 4, 4, order);
  if (directory > tiff.size() || tiff.size() - directory < 2) {
    return 1;
  }
  const std::size_t entries = number_at(tiff, directory, 2, order);
  for (std::size_t i = 0; i < entries; ++i) {
    const std::size_t at = directory + 2 + i * k_entry;
    if (at + k_entry > tiff.size()) {
      break;
    }
    if (number_at(tiff, at, 2, order) == 0x0112) {
      const std::size_t value = number_at(tiff, at + 8, 2, order);
      return value >= 1 && value <= 8 ? value : 1;
    }
  }
  return 1;
}

/// An EXIF segment that says nothing but which side is up.
std::string orientation_segment(std::size_t orientation) {
  std::string body("Exif\0\0MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01", 24);
  body += number_bytes(orientation, 2, Order::big);
  body.append(6, '\0');
  return "\xff\xe1" + number_bytes(body.size() + 2, 2, Order::big) + body;
}

/// Markers without a segment, which have no place between segments: restarts, a second start.
bool stands_alone(unsigned marker) {
  return marker <= 0x01 || (marker >= 0xd0 && marker <= 0xd8);
}

/// Whether a segment with this marker and body belongs to the picture itself: frames, tables
/// and scans do; of what programs added, what says how colours are coded.
bool belongs_to_jpeg(unsigned marker, std::string_view body) {
  switch (marker) {
    case 0xe0:
      return starts_with(body, std::string_view("JFIF\0", 5));
    case 0xe2:
      return starts_with(body, std::string_view("ICC_PROFILE\0", 12));
    case 0xee:
      return starts_with(body, "Adobe");
    default:
      return (marker >= 0xc0 && marker <= 0xcf) || (marker >= 0xda && marker <= 0xdf);
  }
}

/// The end of the coded pixels that begin at `from`: the next marker that is no restart.
std::size_t end_of_scan(std::string_view bytes, std::size_t from) {
  std::size_t at = from;
  while (at + 1 < bytes.size()) {
    const unsigned next = byte_at(bytes, at + 1);
    if (byte_at(bytes, at) == 0xff && next != 0x00 && next != 0xff &&
        !(next >= 0xd0 && next <= 0xd7)) {
      return at;
    }
    ++at;
  }
  return bytes.size();
}

/// A JFIF header may carry a thumbnail after its first 18 bytes, whose size ends them.
std::string without_thumbnail(std::string_view header) {
  constexpr std::size_t k_plain = 18;
  std::string out(header.substr(0, k_plain));
  if (header.size() > k_plain) {
    out.replace(2, 2, number_bytes(k_plain - 2, 2, Order::big));
    out.replace(k_plain - 2, 2, 2, '\0');
  }
  return out;
}

std::optional<std::string> clean_jpeg(std::string_view bytes) {
  constexpr unsigned k_jfif = 0xe0;
  constexpr unsigned k_scan = 0xda;
  constexpr unsigned k_end = 0xd9;
  std::string segments;
  std::size_t orientation = 1;
  bool pixels = false;
  std::size_t at = 2;
  while (at + 4 <= bytes.size() || (at + 2 <= bytes.size() && byte_at(bytes, at + 1) == k_end)) {
    const unsigned marker = byte_at(bytes, at + 1);
    if (byte_at(bytes, at) != 0xff || stands_alone(marker)) {
      return std::nullopt;
    }
    if (marker == 0xff) {  // a fill byte
      ++at;
      continue;
    }
    if (marker == k_end) {
      std::string out = "\xff\xd8";
      out += orientation == 1 ? "" : orientation_segment(orientation);
      out += segments + "\xff\xd9";
      return pixels ? std::optional(out) : std::nullopt;
    }
    const std::size_t length = number_at(bytes, at + 2, 2, Order::big);
    if (length < 2 || at + 2 + length > bytes.size()) {
      return std::nullopt;
    }
    const std::string_view body = bytes.substr(at + 4, length - 2);
    std::size_t end = at + 2 + length;
    if (marker == 0xe1 && starts_with(body, "Exif")) {
      orientation = orientation_of(body);
    }
    if (marker == k_scan) {
      end = end_of_scan(bytes, end);
      pixels = true;
    }
    if (belongs_to_jpeg(marker, body)) {
      segments += marker == k_jfif ? without_thumbnail(bytes.substr(at, end - at))
                                   : bytes.substr(at, end - at);
    }
    at = end;
  }
  return std::nullopt;
}

// PNG -------------------------------------------------------------------------------

bool belongs_to_png(std::string_view type) {
  constexpr std::array<std::string_view, 12> k_kept{"IHDR", "PLTE", "IDAT", "IEND", "tRNS", "gAMA",
                                                    "cHRM", "sRGB", "iCCP", "sBIT", "bKGD", "pHYs"};
  return std::find(k_kept.begin(), k_kept.end(), type) != k_kept.end();
}

std::optional<std::string> clean_png(std::string_view bytes) {
  std::string out(k_png_signature);
  std::size_t at = k_png_signature.size();
  bool pixels = false;
  while (at + 12 <= bytes.size()) {
    const std::size_t length = number_at(bytes, at, 4, Order::big);
    const std::string_view type = bytes.substr(at + 4, 4);
    if (length > bytes.size() - at - 12 || (out.size() == 8 && type != "IHDR")) {
      return std::nullopt;
    }
    pixels = pixels || type == "IDAT";
    if (belongs_to_png(type)) {
      out += bytes.substr(at, length + 12);
    }
    if (type == "IEND") {
      return pixels ? std::optional(out) : std::nullopt;
    }
    at += length + 12;
  }
  return std::nullopt;
}

// WebP ------------------------------------------------------------------------------

/// The chunks of `bytes` that belong to the picture; nothing when one is cut short.
std::optional<std::string> clean_chunks(std::string_view bytes, std::string_view parent) {
  constexpr std::size_t k_frame_header = 16;
  constexpr unsigned k_exif_and_xmp = 0x0c;
  constexpr std::array<std::string_view, 7> k_kept{"VP8 ", "VP8L", "VP8X", "ALPH",
                                                   "ANIM", "ANMF", "ICCP"};
  std::string out;
  while (bytes.size() >= 8) {
    const std::string_view type = bytes.substr(0, 4);
    const std::size_t length = number_at(bytes, 4, 4, Order::little);
    if (length > bytes.size() - 8) {
      return std::nullopt;
    }
    std::string body(bytes.substr(8, length));
    bytes.remove_prefix(std::min(bytes.size(), 8 + length + length % 2));
    if (std::find(k_kept.begin(), k_kept.end(), type) == k_kept.end()) {
      continue;
    }
    if (type == "VP8X" && !body.empty()) {
      body[0] = static_cast<char>(byte_at(body, 0) & ~k_exif_and_xmp);
    }
    if (type == "ANMF") {
      const std::string_view frame = body;
      if (parent == "ANMF" || frame.size() < k_frame_header) {
        return std::nullopt;
      }
      const auto inside = clean_chunks(frame.substr(k_frame_header), "ANMF");
      if (!inside) {
        return std::nullopt;
      }
      body = std::string(frame.substr(0, k_frame_header)) + *inside;
    }
    out += std::string(type) + number_bytes(body.size(), 4, Order::little) + body;
    out += body.size() % 2 == 1 ? std::string(1, '\0') : "";
  }
  return out;
}

std::optional<std::string> clean_webp(std::string_view bytes) {
  const std::size_t size = number_at(bytes, 4, 4, Order::little);
  if (size < 4 || size > bytes.size() - 8) {
    return std::nullopt;
  }
  const auto chunks = clean_chunks(bytes.substr(12, size - 4), "");
  const bool pixels = chunks && (chunks->find("VP8 ") != std::string::npos ||
                                 chunks->find("VP8L") != std::string::npos);
  if (!pixels) {
    return std::nullopt;
  }
  return "RIFF" + number_bytes(chunks->size() + 4, 4, Order::little) + "WEBP" + *chunks;
}

}  // namespace

std::string_view picture_kind_name(PictureKind kind) {
  return k_names[static_cast<std::size_t>(kind)];
}
std::string_view picture_ending(PictureKind kind) {
  return k_endings[static_cast<std::size_t>(kind)];
}
std::optional<PictureKind> picture_kind_from(std::string_view name) {
  const auto at = std::find(k_names.begin(), k_names.end(), name);
  return at == k_names.end() ? std::nullopt
                             : std::optional(static_cast<PictureKind>(at - k_names.begin()));
}

CleanPicture clean_picture(std::string_view bytes) {
  if (bytes.size() > k_largest_picture) {
    return {{}, "", "is larger than 16 MB; save it smaller."};
  }
  const std::optional<PictureKind> kind = kind_of(bytes);
  if (!kind) {
    return {{}, "", "is no JPEG, PNG or WebP picture; save it as one of these."};
  }
  std::optional<std::string> clean = *kind == PictureKind::jpeg  ? clean_jpeg(bytes)
                                     : *kind == PictureKind::png ? clean_png(bytes)
                                                                 : clean_webp(bytes);
  if (!clean) {
    return {*kind, "", "is cut short or damaged; take or save it again."};
  }
  return {*kind, std::move(*clean), ""};
}

}  // namespace maslin
