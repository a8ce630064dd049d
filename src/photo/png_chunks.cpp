#include "photo/png_chunks.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string_view>
#include <zlib.h>

namespace huewright {
namespace {

constexpr std::size_t kSignature = 8;

std::uint32_t bigEndian32(std::span<const std::uint8_t> b, std::size_t at) {
  return static_cast<std::uint32_t>(b[at]) << 24 | static_cast<std::uint32_t>(b[at + 1]) << 16 |
         static_cast<std::uint32_t>(b[at + 2]) << 8 | b[at + 3];
}

/// The profile of an iCCP chunk; empty when it cannot be unpacked or is larger than allowed.
std::vector<std::uint8_t> unpackProfile(std::span<const std::uint8_t> chunk, std::size_t most) {
  const auto name_end = std::find(chunk.begin(), chunk.end(), std::uint8_t{0});
  if (chunk.end() - name_end < 3 || name_end[1] != 0) return {};
  const auto packed = chunk.subspan(static_cast<std::size_t>(name_end - chunk.begin()) + 2);
  std::vector<std::uint8_t> profile;
  z_stream stream{};
  if (inflateInit(&stream) != Z_OK) return {};
  stream.next_in = const_cast<Bytef*>(packed.data());
  stream.avail_in = static_cast<uInt>(packed.size());
  int state = Z_OK;
  while (state == Z_OK && profile.size() <= most) {
    std::uint8_t part[16384];
    stream.next_out = part;
    stream.avail_out = sizeof part;
    state = inflate(&stream, Z_NO_FLUSH);
    profile.insert(profile.end(), part, stream.next_out);
  }
  inflateEnd(&stream);
  if (state != Z_STREAM_END || profile.size() > most) return {};
  return profile;
}

/// gAMA and cHRM together.
struct Hints {
  std::optional<double> gamma;  ///< of the file: code = light^gamma
  std::optional<Primaries> primaries;
};

std::optional<Primaries> readPrimaries(std::span<const std::uint8_t> chunk) {
  if (chunk.size() != 32) return std::nullopt;
  const auto at = [&](std::size_t i) { return Chromaticity{bigEndian32(chunk, 8 * i) / 1e5, bigEndian32(chunk, 8 * i + 4) / 1e5}; };
  const Primaries p{at(1), at(2), at(3), at(0)};
  for (const Chromaticity& c : {p.white, p.red, p.green, p.blue})
    if (!(c.y > 1e-4 && c.y < 1 && c.x >= 0 && c.x < 1)) return std::nullopt;
  const Vec3 r = toXyzAtUnitY(p.red), g = toXyzAtUnitY(p.green), b = toXyzAtUnitY(p.blue);
  if (std::abs(determinant(Mat3{{r, g, b}})) < 1e-3) return std::nullopt;
  return p;
}

bool areSrgb(const Primaries& p) {
  const auto near = [](Chromaticity a, Chromaticity b) { return std::abs(a.x - b.x) < 1e-3 && std::abs(a.y - b.y) < 1e-3; };
  return near(p.red, kSrgbPrimaries.red) && near(p.green, kSrgbPrimaries.green) && near(p.blue, kSrgbPrimaries.blue) &&
         near(p.white, kSrgbPrimaries.white);
}

std::optional<NamedColour> namedByHints(const Hints& hints) {
  if (!hints.gamma && !hints.primaries) return std::nullopt;
  NamedColour named = srgbByName();
  const bool srgb = !hints.primaries || areSrgb(*hints.primaries);
  // 0.45455 with the sRGB primaries is what the standard has writers put beside sRGB for readers that know no sRGB chunk.
  if (hints.primaries && srgb && hints.gamma && std::abs(*hints.gamma - 0.45455) < 1e-4) return named;
  if (hints.gamma) {
    named.power = 1.0 / *hints.gamma;
    named.name = std::abs(named.power - 1.0) < 1e-3 ? "linear" : "power curve";
  }
  if (!srgb) {
    named.primaries = *hints.primaries;
    named.name = hints.gamma ? named.name + " with its own primaries" : "sRGB curve with its own primaries";
  }
  return named;
}

/// What the chunks add up to.
struct ChunkWalk {
  PngHeader header;
  Hints hints;
  bool srgb = false, picture = false;
  std::optional<NamedColour> by_code_points;
};

Result<void> takeChunk(ChunkWalk& walk, std::string_view type, std::span<const std::uint8_t> data, const Limits& limits,
                       const std::string& shown) {
  PngHeader& header = walk.header;
  if (type == "PLTE") {
    if (data.empty() || data.size() % 3 != 0) return fail(Code::PhotoCorrupt, shown);
    header.grey_palette = true;
    for (std::size_t i = 0; i < data.size(); i += 3)
      header.grey_palette = header.grey_palette && data[i] == data[i + 1] && data[i] == data[i + 2];
  } else if (type == "iCCP") {
    header.tag.profile = unpackProfile(data, limits.profile_bytes);
    header.tag.profile_broken = header.tag.profile.empty();
  } else if (type == "sRGB") {
    walk.srgb = true;
  } else if (type == "gAMA" && data.size() == 4 && bigEndian32(data, 0) > 0) {
    walk.hints.gamma = bigEndian32(data, 0) / 1e5;
  } else if (type == "cHRM") {
    walk.hints.primaries = readPrimaries(data);
  } else if (type == "cICP" && data.size() == 4) {
    auto named = namedByCodePoints(data[0], data[1], shown);
    if (!named) return std::unexpected(named.error());
    walk.by_code_points = *named;
  } else if (type == "eXIf") {
    header.exif.assign(data.begin(), data.end());
  } else if (type == "tEXt") {
    constexpr std::string_view kKey{"Software\0", 9};
    const std::string_view text(reinterpret_cast<const char*>(data.data()), data.size());
    if (text.starts_with(kKey))
      std::copy_if(text.begin() + kKey.size(), text.end(), std::back_inserter(header.software),
                   [](char c) { return c >= 0x20 && c < 0x7F; });
    if (const auto still = readStillText(text)) header.still = still;
  }
  return {};
}

constexpr std::string_view kStepsWords = ", JPEG steps", kHalvedWords = ", halved colour";
constexpr double kMostJpegStep = 32;  // 255 over 8

}  // namespace

std::string stillText(const FrameRounding& rounding) {
  std::string text(kStillSource);
  if (!rounding.steps) return text;
  text += kStepsWords;
  for (const double step : *rounding.steps) {
    std::array<char, 32> digits{};
    const auto written = std::to_chars(digits.data(), digits.data() + digits.size(), std::clamp(step, 0.0, kMostJpegStep), std::chars_format::fixed, 4);
    text += ' ' + std::string(digits.data(), written.ptr);
  }
  if (rounding.chroma_subsampled) text += kHalvedWords;
  return text;
}

std::optional<FrameRounding> readStillText(std::string_view text) {
  if (!text.starts_with(kStillSource)) return {};
  text.remove_prefix(kStillSource.size());
  FrameRounding rounding;
  if (text.empty()) return rounding;
  if (!text.starts_with(kStepsWords)) return {};
  text.remove_prefix(kStepsWords.size());
  Vec3 steps{};
  for (double& step : steps) {
    if (!text.starts_with(' ')) return {};
    const auto [end, error] = std::from_chars(text.data() + 1, text.data() + text.size(), step, std::chars_format::fixed);
    if (error != std::errc{} || !(step > 0 && step <= kMostJpegStep)) return {};
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
  }
  rounding.steps = steps;
  rounding.chroma_subsampled = text == kHalvedWords;
  if (!rounding.chroma_subsampled && !text.empty()) return {};
  return rounding;
}

Result<PngHeader> readPngChunks(std::span<const std::uint8_t> png, const Limits& limits, const std::string& shown) {
  ChunkWalk walk;
  bool ended = false;
  for (std::size_t at = kSignature; !ended;) {
    if (png.size() - at < 12) return fail(Code::PhotoTruncated, shown);
    const std::size_t length = bigEndian32(png, at);
    const std::string_view type(reinterpret_cast<const char*>(png.data()) + at + 4, 4);
    const bool letters = std::all_of(type.begin(), type.end(), [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); });
    if (length > 0x7FFFFFFF || !letters) return fail(Code::PhotoCorrupt, shown);
    if (at == kSignature && (type != "IHDR" || length != 13)) return fail(Code::PhotoCorrupt, shown);
    if (png.size() - at - 12 < length) return fail(Code::PhotoTruncated, shown);
    const auto data = png.subspan(at + 8, length);
    if (type == "IDAT") {
      walk.picture = true;
    } else {
      const auto sum = crc32_z(0, png.data() + at + 4, length + 4);
      if (sum != bigEndian32(png, at + 8 + length)) return fail(Code::PhotoCorrupt, shown);
      if (at == kSignature) {
        walk.header.width = bigEndian32(data, 0);
        walk.header.height = bigEndian32(data, 4);
        walk.header.bits = data[8];
        walk.header.colour_type = data[9];
      } else if (auto taken = takeChunk(walk, type, data, limits, shown); !taken) {
        return std::unexpected(taken.error());
      }
      ended = type == "IEND";
    }
    at += 12 + length;
  }
  if (!walk.picture) return fail(Code::PhotoEmpty, shown);

  ColourTag& tag = walk.header.tag;
  if (walk.by_code_points) {
    tag = {{}, false, walk.by_code_points};
  } else if (tag.profile.empty() && !tag.profile_broken) {
    tag.named = walk.srgb ? std::optional(srgbByName()) : namedByHints(walk.hints);
  }
  return std::move(walk.header);
}

}  // namespace huewright
