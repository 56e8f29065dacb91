// Digests, moments and pictures: what the store does to bytes.
#include <doctest/doctest.h>
#include <rapidcheck.h>

#include "quantity/instant.h"
#include "store/picture_file.h"
#include "store/scratch_folder.h"
#include "store/sha256.h"

using namespace maslin;

namespace {

std::string bun(const std::string& ending) {
  return bytes_of(MASLIN_SOURCE_DIR "/tests/store/pictures/bun." + ending);
}

std::string big(std::size_t value, std::size_t width) {
  std::string out;
  for (std::size_t i = width; i > 0; --i) {
    out += static_cast<char>(value >> (8 * (i - 1)) & 0xffU);
  }
  return out;
}
std::string little(std::size_t value) {
  const std::string reversed = big(value, 4);
  return {reversed.rbegin(), reversed.rend()};
}

std::string segment(char marker, const std::string& body) {
  return std::string("\xff") + marker + big(body.size() + 2, 2) + body;
}
std::string chunk(const std::string& type, const std::string& body) {
  return big(body.size(), 4) + type + body + "\x12\x34\x56\x78";
}
std::string riff_chunk(const std::string& type, const std::string& body) {
  return type + little(body.size()) + body + (body.size() % 2 == 1 ? std::string(1, '\0') : "");
}

/// A phone's EXIF: which side is up, and a pointer to where it was taken.
std::string exif_of(int orientation) {
  return std::string("Exif\0\0II\x2a\0\x08\0\0\0\x02\0", 16) +
         std::string("\x12\x01\x03\0\x01\0\0\0", 8) + static_cast<char>(orientation) +
         std::string(3, '\0') + std::string("\x25\x88\x04\0\x01\0\0\0\x26\0\0\0", 12) +
         std::string(4, '\0') + "GPS 51.4700 N 0.4543 W";
}

std::string with_inserted(std::string bytes, std::size_t at, const std::string& more) {
  return bytes.insert(at, more);
}

}  // namespace

TEST_CASE("digests are those of FIPS 180-4") {
  // NIST, examples with intermediate values for FIPS 180-4, SHA-256 (one block, two blocks)
  // and the million letters a; the empty text as coreutils' sha256sum gives it.
  CHECK(sha256_hex("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  CHECK(sha256_hex("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  CHECK(sha256_hex(std::string(1000000, 'a')) ==
        "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
  CHECK(sha256_hex("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST_CASE("digests change with any byte, at every length around a block") {
  for (std::size_t size = 1; size < 200; ++size) {
    std::string bytes(size, 'x');
    const std::string before = sha256_hex(bytes);
    bytes[size / 2] = 'y';
    CHECK(sha256_hex(bytes) != before);
  }
}

TEST_CASE("moments are written and read in ISO 8601") {
  // GNU date: date -u -d @1777644187 is 2026-05-01T14:03:07Z.
  CHECK(instant_text(1777644187123) == "2026-05-01T14:03:07.123Z");
  CHECK(instant_text(0) == "1970-01-01T00:00:00.000Z");
  CHECK(instant_text(-1) == "1969-12-31T23:59:59.999Z");
  CHECK(instant_from("2026-05-01T14:03:07.123Z")->ms == 1777644187123);
  CHECK(instant_from("2026-05-01T15:03:07.1+01:00")->ms == 1777644187100);
  CHECK(instant_from("2026-05-01 14:03")->ms == 1777644180000);
  CHECK_FALSE(instant_from("2026-05-01 14:03")->zoned);
  CHECK(instant_from("2024-02-29T00:00Z").has_value());
  for (const char* wrong : {"", "2026-05-01", "14:03", "2026-02-29T10:00Z", "2026-13-01T10:00Z",
                            "2026-05-01T24:00Z", "2026-05-01T10:00Zed", "2026-5-1T10:00Z"}) {
    CAPTURE(wrong);
    CHECK_FALSE(instant_from(wrong).has_value());
  }
}

TEST_CASE("any moment comes back from its text") {
  CHECK(rc::check([] {
    const auto ms = *rc::gen::inRange<std::int64_t>(-62135596800000, 253402300800000);
    const auto back = instant_from(instant_text(ms));
    RC_ASSERT(back && back->zoned && back->ms == ms);
  }));
}

TEST_CASE("a picture without anything to hide stays as it is") {
  for (const char* ending : {"jpg", "png", "webp"}) {
    CAPTURE(ending);
    const CleanPicture clean = clean_picture(bun(ending));
    CHECK(clean.problem == "");
    CHECK(clean.bytes == bun(ending));
    CHECK(picture_ending(clean.kind) == ending);
  }
}

TEST_CASE("a photograph loses its place, time, camera, comment and hidden film, not its pixels") {
  const std::string pixels = bun("jpg");
  const std::string dirty =
      with_inserted(pixels, 2,
                    segment('\xe1', exif_of(1)) +
                        segment('\xe1', std::string("http://ns.adobe.com/xap/1.0/\0GPS", 32)) +
                        segment('\xe2', std::string("MPF\0GPS", 7)) +
                        segment('\xed', "Photoshop 3.0 GPS") + segment('\xfe', "taken by GPS")) +
      "\xff\xd8\xff\xe1 second picture GPS";
  REQUIRE(dirty.find("GPS") != std::string::npos);
  CHECK(clean_picture(dirty).bytes == pixels);
}

TEST_CASE("a turned photograph stays turned") {
  const std::string pixels = bun("jpg");
  for (int side = 2; side <= 8; ++side) {
    const CleanPicture clean =
        clean_picture(with_inserted(pixels, 2, segment('\xe1', exif_of(side))));
    CHECK(clean.bytes.find("GPS") == std::string::npos);
    CHECK(clean.bytes.size() == pixels.size() + 36);
    // Cleaned once more it says the same, so the one number is still understood.
    CHECK(clean_picture(clean.bytes).bytes == clean.bytes);
    CHECK(clean.bytes[2 + 4 + 25] == static_cast<char>(side));
  }
}

TEST_CASE("a JFIF thumbnail is left out") {
  const std::string pixels = bun("jpg");
  // The header of 16 bytes after the start gives way to one with a 1 x 1 thumbnail.
  const std::string dirty = pixels.substr(0, 2) +
                            segment('\xe0', std::string("JFIF\0\1\1\0\0\1\0\1\1\1rgb", 17)) +
                            pixels.substr(20);
  CHECK(clean_picture(dirty).bytes == pixels);
}

TEST_CASE("a PNG loses its texts, times and EXIF") {
  const std::string pixels = bun("png");
  const std::string dirty =
      with_inserted(pixels, 33,
                    chunk("tEXt", std::string("Comment\0GPS", 11)) + chunk("eXIf", "II GPS") +
                        chunk("tIME", std::string(7, '\1')) + chunk("iTXt", "XML GPS")) +
      "GPS after the end";
  CHECK(clean_picture(dirty).bytes == pixels);
}

TEST_CASE("a WebP loses its EXIF and XMP") {
  std::string dirty = bun("webp");
  dirty += riff_chunk("EXIF", "II GPS!") + riff_chunk("XMP ", "<GPS/>") + riff_chunk("GPSx", "y");
  dirty[20] = static_cast<char>(dirty[20] | 0x0c);  // says that there are EXIF and XMP
  dirty.replace(4, 4, little(dirty.size() - 8));
  CHECK(clean_picture(dirty).bytes == bun("webp"));
}

TEST_CASE("what is no picture, cut short or too large is refused with a sentence") {
  CHECK(clean_picture("").problem.find("no JPEG") != std::string::npos);
  CHECK(clean_picture("GIF89a").problem.find("no JPEG") != std::string::npos);
  CHECK(clean_picture("<svg onload=alert(1)>").problem.find("no JPEG") != std::string::npos);
  CHECK(clean_picture(std::string(k_largest_picture + 1, 'x')).problem.find("16 MB") !=
        std::string::npos);
  for (const char* ending : {"jpg", "png", "webp"}) {
    const std::string whole = bun(ending);
    for (std::size_t size = 0; size < whole.size(); ++size) {
      CAPTURE(ending);
      CAPTURE(size);
      CHECK(clean_picture(whole.substr(0, size)).problem != "");
    }
  }
}

TEST_CASE("bytes that claim to be a picture never harm") {
  CHECK(rc::check([] {
    std::string bytes = bun(*rc::gen::element<std::string>("jpg", "png", "webp"));
    const int changes = *rc::gen::inRange(1, 8);
    for (int i = 0; i < changes; ++i) {
      bytes[*rc::gen::inRange<std::size_t>(0, bytes.size())] = *rc::gen::arbitrary<char>();
    }
    const CleanPicture clean = clean_picture(bytes);
    RC_ASSERT(clean.problem.empty() != clean.bytes.empty());
    if (clean.problem.empty()) {
      RC_ASSERT(clean_picture(clean.bytes).bytes == clean.bytes);
    }
  }));
}
