// Camera raw files, written by hand. Source of the tags: DNG 1.6 (from memory).
#include <algorithm>
#include <cmath>
#include <fstream>
#include <stdexcept>
#include <string>

#include "render/picture_file.hpp"

namespace huewright::render {
namespace {

// One tag, its value little-endian.
struct Tag {
  unsigned id, type, count;
  std::string value;
};

void put(std::string& out, std::uint32_t value, int bytes) {
  for (int i = 0; i < bytes; ++i) out.push_back(static_cast<char>(value >> (8 * i) & 255));
}

Tag numbers(unsigned id, unsigned type, std::initializer_list<std::uint32_t> values) {
  Tag tag{id, type, static_cast<unsigned>(values.size()), {}};
  for (const std::uint32_t v : values) put(tag.value, v, type == 1 ? 1 : type == 3 ? 2 : 4);
  return tag;
}
Tag shorts(unsigned id, std::initializer_list<std::uint32_t> values) { return numbers(id, 3, values); }
Tag longs(unsigned id, std::initializer_list<std::uint32_t> values) { return numbers(id, 4, values); }

Tag text(unsigned id, std::string value) {
  value.push_back('\0');
  return {id, 2, static_cast<unsigned>(value.size()), value};
}

// Fractions with a sign (type 10) or without (type 5).
Tag fractions(unsigned id, unsigned type, std::initializer_list<Vec3> rows) {
  Tag tag{id, type, 0, {}};
  for (const Vec3& row : rows)
    for (const double v : row) {
      put(tag.value, static_cast<std::uint32_t>(static_cast<std::int32_t>(std::lround(v * 1e6))), 4);
      put(tag.value, 1000000, 4);
      ++tag.count;
    }
  return tag;
}

// A folder of tags that begins at `at`, with the values that do not fit into it behind it.
std::string folder(std::vector<Tag> tags, std::size_t at) {
  std::ranges::sort(tags, {}, &Tag::id);
  std::string out, behind;
  put(out, static_cast<std::uint32_t>(tags.size()), 2);
  const std::size_t data = at + 2 + 12 * tags.size() + 4;
  for (const Tag& tag : tags) {
    put(out, tag.id, 2);
    put(out, tag.type, 2);
    put(out, tag.count, 4);
    if (tag.value.size() <= 4) {
      out += tag.value + std::string(4 - tag.value.size(), '\0');
    } else {
      put(out, static_cast<std::uint32_t>(data + behind.size()), 4);
      behind += tag.value + std::string(tag.value.size() % 2, '\0');
    }
  }
  put(out, 0, 4);
  return out + behind;
}

std::string codesOf(const RawPicture& picture, const DngOptions& options) {
  std::string out;
  out.reserve(picture.sensor.size() / 3 * 2);
  const double range = options.white - options.black;
  std::size_t i = 0;
  for (int y = 0; y < picture.size.height; ++y)
    for (int x = 0; x < picture.size.width; ++x, i += 3) {
      const auto filter = static_cast<std::size_t>(y % 2 + x % 2);   // red, green / green, blue
      const auto light = static_cast<double>(picture.sensor[i + filter]);
      put(out, static_cast<std::uint32_t>(std::clamp(std::lround(options.black + range * light), 0L, 16383L)), 2);
    }
  return out;
}

}  // namespace

void writeDng(const std::filesystem::path& path, const RawPicture& picture, const DngOptions& options) {
  const auto width = static_cast<std::uint32_t>(picture.size.width), height = static_cast<std::uint32_t>(picture.size.height);
  const auto black = static_cast<std::uint32_t>(options.black), white = static_cast<std::uint32_t>(options.white);
  const std::string model = std::string("Camera ") + static_cast<char>(picture.camera.sensitivity - 'a' + 'A');
  const Mat3 matrix = colourMatrix(picture.camera.sensitivity);
  std::string header{"II"};
  put(header, 42, 2);
  put(header, 8, 4);
  const auto all = [&](std::uint32_t exif_at, std::uint32_t data_at) {
    return folder({longs(254, {0}), longs(256, {width}), longs(257, {height}), shorts(258, {16}), shorts(259, {1}), shorts(262, {32803}),
                   text(271, "Simulated"), text(272, model), longs(273, {data_at}), shorts(274, {1}), shorts(277, {1}), longs(278, {height}),
                   longs(279, {2 * width * height}), shorts(284, {1}), shorts(33421, {2, 2}), numbers(33422, 1, {0, 1, 1, 2}), longs(34665, {exif_at}),
                   numbers(50706, 1, {1, 4, 0, 0}), text(50708, "Simulated " + model), numbers(50710, 1, {0, 1, 2}), shorts(50714, {black}),
                   longs(50717, {white}), fractions(50721, 10, {matrix.row[0], matrix.row[1], matrix.row[2]}), fractions(50728, 5, {picture.neutral}),
                   shorts(50778, {21})},   // D65
                  8);
  };
  const std::size_t exif_at = 8 + all(0, 0).size();
  const std::string exif = folder({shorts(34855, {static_cast<std::uint32_t>(std::lround(picture.camera.iso))})}, exif_at);
  const std::size_t data_at = exif_at + exif.size();
  std::ofstream file(path, std::ios::binary | std::ios::trunc);
  file << header << all(static_cast<std::uint32_t>(exif_at), static_cast<std::uint32_t>(data_at)) << exif << codesOf(picture, options);
  if (!file.flush()) throw std::runtime_error("cannot write " + path.string());
}

}  // namespace huewright::render
