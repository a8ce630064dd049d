#include "support/fixtures.hpp"

#include <algorithm>
#include <cmath>

#include "support/fixtures_folder.hpp"

namespace huewright::fixtures {

Picture pattern(Size size, int most) {
  Picture picture{size, std::vector<std::uint16_t>(3 * std::size_t(size.width) * std::size_t(size.height))};
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x) {
      const double u = (x + 0.5) / size.width, v = (y + 0.5) / size.height;
      double r = 0.15 + 0.7 * u, g = 0.1 + 0.8 * v, b = 0.5 + 0.4 * std::sin(7 * u + 5 * v);
      if ((x / 13 + y / 9) % 3 == 0) std::swap(r, b);
      if (std::hypot(u - 0.7, v - 0.3) < 0.12) r = 0.95, g = 0.85, b = 0.1;
      if (u < 0.2 && v < 0.2) r = 0.05, g = 0.3, b = 0.6;
      std::uint16_t* to = picture.at(x, y);
      const double rgb[] = {r, g, b};
      for (int c = 0; c < 3; ++c) to[c] = static_cast<std::uint16_t>(std::lround(std::clamp(rgb[c], 0.0, 1.0) * most));
    }
  return picture;
}

Picture flat(Size size, Code3 code) {
  Picture picture{size, std::vector<std::uint16_t>(3 * std::size_t(size.width) * std::size_t(size.height))};
  for (std::size_t i = 0; i < picture.rgb.size(); ++i) picture.rgb[i] = code[i % 3];
  return picture;
}

Picture times(Picture picture, int factor) {
  for (auto& code : picture.rgb) code = static_cast<std::uint16_t>(code * factor);
  return picture;
}

Picture upright(const Picture& stored, int orientation) {
  const int w = stored.size.width, h = stored.size.height;
  Picture shown{orientation >= 5 ? Size{h, w} : Size{w, h}, std::vector<std::uint16_t>(stored.rgb.size())};
  for (int y = 0; y < shown.size.height; ++y)
    for (int x = 0; x < shown.size.width; ++x) {
      // EXIF 2.32, 4.6.4: which stored row and column the shown pixel comes from.
      int sx = x, sy = y;
      switch (orientation) {
        case 2: sx = w - 1 - x; break;                     // row 0 is the top, column 0 the right side
        case 3: sx = w - 1 - x, sy = h - 1 - y; break;     // bottom, right
        case 4: sy = h - 1 - y; break;                     // bottom, left
        case 5: sx = y, sy = x; break;                     // left, top
        case 6: sx = y, sy = h - 1 - x; break;             // right, top
        case 7: sx = w - 1 - y, sy = h - 1 - x; break;     // right, bottom
        case 8: sx = w - 1 - y, sy = x; break;             // left, bottom
        default: break;
      }
      std::copy_n(stored.at(sx, sy), 3, shown.at(x, y));
    }
  return shown;
}

Bytes exif(const Exif& what) {
  const bool big = what.big_endian;
  const auto number = [big](std::uint32_t value, int bytes) {
    TiffWriter w(big);
    w.number(value, bytes);
    return w.out;
  };
  const auto text = [](int tag, const std::string& s) {
    Bytes value(s.begin(), s.end());
    value.push_back(0);
    return TiffEntry{tag, 2, std::uint32_t(value.size()), value};
  };
  constexpr int kShort = 3, kLong = 4, kRational = 5;
  std::vector<TiffEntry> first, camera, inter;
  if (!what.make.empty()) first.push_back(text(0x010F, what.make));
  if (!what.model.empty()) first.push_back(text(0x0110, what.model));
  if (what.orientation != 0) first.push_back({0x0112, kShort, 1, number(std::uint32_t(what.orientation), 2)});
  if (!what.software.empty()) first.push_back(text(0x0131, what.software));
  if (!what.changed.empty()) first.push_back(text(0x0132, what.changed));
  if (what.exposure) {
    Bytes ratio = number(1, 4);
    const Bytes below = number(125, 4);
    ratio.insert(ratio.end(), below.begin(), below.end());
    camera.push_back({0x829A, kRational, 1, ratio});
  }
  if (!what.taken.empty()) camera.push_back(text(0x9003, what.taken));
  if (what.colour_space != 0) camera.push_back({0xA001, kShort, 1, number(std::uint32_t(what.colour_space), 2)});
  if (what.told.width != 0) {
    camera.push_back({0xA002, kLong, 1, number(std::uint32_t(what.told.width), 4)});
    camera.push_back({0xA003, kShort, 1, number(std::uint32_t(what.told.height), 2)});
  }
  if (!what.interoperability.empty()) inter.push_back(text(0x0001, what.interoperability));

  // Places: the header takes 8 bytes; each folder stands behind the one before.
  const std::uint32_t start = 8;
  const bool has_camera = !camera.empty() || !inter.empty();
  if (has_camera) first.push_back({0x8769, kLong, 1, number(0, 4)});
  const std::uint32_t camera_at = start + std::uint32_t(tiffFolder(first, start, big).size());
  if (!inter.empty()) camera.push_back({0xA005, kLong, 1, number(0, 4)});
  const std::uint32_t inter_at = camera_at + std::uint32_t(tiffFolder(camera, camera_at, big).size());
  if (has_camera) first.back().value = number(camera_at, 4);
  if (!inter.empty()) camera.back().value = number(inter_at, 4);

  TiffWriter w(big);
  w.out = big ? Bytes{'M', 'M'} : Bytes{'I', 'I'};
  w.number(42, 2);
  w.number(start, 4);
  const auto add = [&](const Bytes& more) { w.out.insert(w.out.end(), more.begin(), more.end()); };
  add(tiffFolder(first, start, big));
  if (has_camera) add(tiffFolder(camera, camera_at, big));
  if (!inter.empty()) add(tiffFolder(inter, inter_at, big));
  if (what.thumbnail.empty()) return w.out;
  // The second folder of the chain: the first one's last four bytes before its values say where it is.
  const std::uint32_t second_at = std::uint32_t(w.out.size());
  const Bytes link = number(second_at, 4);
  std::copy(link.begin(), link.end(), w.out.begin() + std::ptrdiff_t(start + 2 + 12 * first.size()));
  std::vector<TiffEntry> second{{0x0103, kShort, 1, number(6, 2)}, {0x0201, kLong, 1, number(0, 4)},
                                {0x0202, kLong, 1, number(std::uint32_t(what.thumbnail.size()), 4)}};
  second[1].value = number(second_at + std::uint32_t(tiffFolder(second, second_at, big).size()), 4);
  add(tiffFolder(second, second_at, big));
  add(what.thumbnail);
  return w.out;
}

}  // namespace huewright::fixtures
