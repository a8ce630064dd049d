// DNG files written by hand, in memory. Source of the tags: DNG 1.6.
#include <algorithm>
#include <cmath>

#include "support/fixtures.hpp"
#include "support/fixtures_folder.hpp"

namespace huewright::fixtures {
namespace {

class Tags {
 public:
  explicit Tags(bool big) : big_(big) {}

  void text(int tag, const std::string& s) {
    Bytes value(s.begin(), s.end());
    value.push_back(0);
    list.push_back({tag, 2, std::uint32_t(value.size()), value});
  }
  template <class Numbers>
  void bytes(int tag, const Numbers& numbers) {
    list.push_back({tag, 1, std::uint32_t(std::size(numbers)), Bytes(std::begin(numbers), std::end(numbers))});
  }
  template <class Numbers>
  void numbers(int tag, int type, const Numbers& numbers) {
    TiffWriter w(big_);
    for (const auto n : numbers) w.number(std::uint32_t(n), type == 3 ? 2 : 4);
    list.push_back({tag, type, std::uint32_t(std::size(numbers)), w.out});
  }
  void shorts(int tag, std::initializer_list<std::uint32_t> n) { numbers(tag, 3, n); }
  void longs(int tag, std::initializer_list<std::uint32_t> n) { numbers(tag, 4, n); }
  template <class Numbers>
  void fractions(int tag, const Numbers& numbers) {
    TiffWriter w(big_);
    for (const double n : numbers) w.number(std::uint32_t(std::int32_t(std::lround(n * 1e6))), 4), w.number(1000000, 4);
    list.push_back({tag, 10, std::uint32_t(std::size(numbers)), w.out});
  }

  std::vector<TiffEntry> sorted() const {
    auto copy = list;
    std::sort(copy.begin(), copy.end(), [](const TiffEntry& a, const TiffEntry& b) { return a.tag < b.tag; });
    return copy;
  }
  std::vector<TiffEntry> list;

 private:
  bool big_;
};

/// Lossless JPEG of one component, each code told by its left neighbour, all 17 kinds of difference with codes of 5 bits.
/// Source: ITU-T T.81, annex H.
Bytes losslessJpeg(Size size, const std::vector<std::uint16_t>& codes) {
  const auto high = [](int n) { return static_cast<std::uint8_t>(n >> 8); };
  const auto low = [](int n) { return static_cast<std::uint8_t>(n & 255); };
  Bytes out{0xFF, 0xD8, 0xFF, 0xC4, 0, 2 + 17 + 17, 0, 0, 0, 0, 0, 17, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0};
  for (int kind = 0; kind <= 16; ++kind) out.push_back(static_cast<std::uint8_t>(kind));
  const Bytes frame{0xFF, 0xC3, 0, 11, 16, high(size.height), low(size.height), high(size.width), low(size.width), 1, 0, 0x11, 0};
  const Bytes scan{0xFF, 0xDA, 0, 8, 1, 0, 0, 1, 0, 0};
  out.insert(out.end(), frame.begin(), frame.end());
  out.insert(out.end(), scan.begin(), scan.end());
  std::uint64_t kept = 0;
  int count = 0;
  const auto put = [&](unsigned value, int bits) {
    kept = kept << bits | (value & ((1U << bits) - 1U));
    for (count += bits; count >= 8; count -= 8) {
      out.push_back(static_cast<std::uint8_t>(kept >> (count - 8)));
      if (out.back() == 0xFF) out.push_back(0);
    }
  };
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x) {
      const std::size_t at = std::size_t(y) * std::size_t(size.width) + std::size_t(x);
      const int told = x > 0 ? codes[at - 1] : y > 0 ? codes[at - std::size_t(size.width)] : 1 << 15;
      const int difference = codes[at] - told;
      int bits = 0;
      while (std::abs(difference) >> bits != 0) ++bits;
      put(unsigned(bits), 5);
      if (bits > 0) put(unsigned(difference > 0 ? difference : difference + (1 << bits) - 1), bits);
    }
  put(0x7F, 7);
  out.push_back(0xFF);
  out.push_back(0xD9);
  return out;
}

}  // namespace

Bytes dng(Size size, const std::vector<std::uint16_t>& codes, const DngOptions& options) {
  const bool big = options.big_endian;
  const std::uint32_t samples = options.linear ? 3 : 1;
  const auto width = std::uint32_t(size.width), height = std::uint32_t(size.height);
  const std::uint32_t row = 2 * samples * width;
  const std::uint32_t rows = options.rows_per_strip > 0 ? std::uint32_t(options.rows_per_strip) : height;
  const std::uint32_t between = options.gap ? 6 : 0;

  Tags first(big), sensor(big), exif(big);
  Tags& camera = first;
  first.text(271, options.make);
  first.text(272, options.model);
  first.shorts(274, {std::uint32_t(options.orientation)});
  first.bytes(50706, Bytes{1, 4, 0, 0});
  first.text(50708, options.make + " " + options.model);
  if (options.matrix) {
    camera.fractions(50721, kDngMatrix);
    camera.shorts(50778, {21});  // D65
  }
  if (options.neutral != std::array<double, 3>{}) camera.fractions(50728, options.neutral);
  if (options.exposure) {
    first.longs(34665, {0});
    TiffWriter w(big);
    w.number(1, 4), w.number(125, 4);
    exif.list.push_back({33434, 5, 1, w.out});
    exif.shorts(34855, {200});
  }

  Tags& holder = options.below ? sensor : first;
  holder.longs(254, {0});
  holder.longs(256, {width});
  holder.longs(257, {height});
  holder.numbers(258, 3, std::vector<int>(samples, 16));
  holder.shorts(259, {options.compressed ? 7U : 1U});
  holder.shorts(262, {options.linear ? 34892U : 32803U});
  holder.shorts(277, {samples});
  holder.longs(278, {rows});
  holder.shorts(284, {1});
  if (!options.linear) {
    const std::uint32_t side = options.filters.size() == 4 ? 2 : 6;
    holder.shorts(33421, {side, side});
    holder.bytes(33422, options.filters);
    holder.bytes(50710, Bytes{0, 1, 2});
  }
  if (!options.blacks.empty()) {
    holder.shorts(50713, {2, 2});
    holder.numbers(50714, 3, options.blacks);
  } else {
    holder.numbers(50714, 3, std::vector<int>(samples, options.black));
  }
  if (options.white != 0) holder.numbers(50717, 4, std::vector<int>(samples, options.white));
  if (options.active != std::array<int, 4>{}) holder.numbers(50829, 4, options.active);
  std::vector<std::uint32_t> places, lengths;
  for (std::uint32_t y = 0; y < height; y += rows) {
    places.push_back(0);
    lengths.push_back(std::min(rows, height - y) * row);
  }
  const Bytes packed = options.compressed ? losslessJpeg(size, codes) : Bytes{};
  if (options.compressed) lengths = {std::uint32_t(packed.size())};
  holder.numbers(273, 4, places);
  holder.numbers(279, 4, lengths);
  Bytes small;
  if (options.below) {
    small.assign(3 * 8 * 8, 128);
    first.longs(254, {1});
    first.longs(256, {8});
    first.longs(257, {8});
    first.shorts(258, {8, 8, 8});
    first.shorts(259, {1});
    first.shorts(262, {2});
    first.longs(273, {0});
    first.shorts(277, {3});
    first.longs(278, {8});
    first.longs(279, {192});
    first.longs(330, {0});
  }

  // Twice: the first time with places that are not known yet, to learn how long the folders are.
  std::uint32_t small_at = 0, sensor_at = 0, exif_at = 0, data_at = 0;
  Bytes out;
  for (int round = 0; round < 2; ++round) {
    const auto set = [&](Tags& tags, int tag, const std::vector<std::uint32_t>& values) {
      for (TiffEntry& e : tags.list)
        if (e.tag == tag) {
          TiffWriter w(big);
          for (const std::uint32_t v : values) w.number(v, 4);
          e.value = w.out;
        }
    };
    for (std::size_t i = 0; i < places.size(); ++i)
      places[i] = i == 0 ? data_at : places[i - 1] + lengths[i - 1] + between;
    set(holder, 273, places);
    set(first, 34665, {exif_at});
    if (options.below) set(first, 330, {sensor_at}), set(first, 273, {small_at});
    TiffWriter w(big);
    w.out = big ? Bytes{'M', 'M'} : Bytes{'I', 'I'};
    w.number(42, 2);
    w.number(8, 4);
    const auto add = [&](const Bytes& more) { w.out.insert(w.out.end(), more.begin(), more.end()); };
    add(tiffFolder(first.sorted(), 8, big));
    exif_at = std::uint32_t(w.out.size());
    if (options.exposure) add(tiffFolder(exif.sorted(), exif_at, big));
    sensor_at = std::uint32_t(w.out.size());
    if (options.below) add(tiffFolder(sensor.sorted(), sensor_at, big));
    small_at = std::uint32_t(w.out.size());
    add(small);
    data_at = std::uint32_t(w.out.size());
    add(packed);
    for (std::size_t i = 0, at = 0; i < lengths.size() && !options.compressed; ++i) {
      if (i > 0) w.out.insert(w.out.end(), between, 0);
      for (const std::size_t end = at + lengths[i] / 2; at < end; ++at) w.number(codes.at(at), 2);
    }
    out = w.out;
  }
  return out;
}

}  // namespace huewright::fixtures
