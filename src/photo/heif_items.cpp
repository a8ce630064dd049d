#include "photo/heif_items.hpp"

#include <algorithm>
#include <map>
#include <string_view>
#include <vector>

namespace huewright {
namespace {

using Bytes = std::span<const std::uint8_t>;

constexpr std::uint64_t kMostOften = 4;  // a file that uses its bytes more often than this is made to waste time

/// Reads numbers from front to back; past the end it gives zeros and is no longer good.
class BoxReader {
 public:
  explicit BoxReader(Bytes bytes) : bytes_(bytes) {}
  bool good() const { return good_; }
  std::size_t left() const { return bytes_.size(); }

  std::uint64_t number(std::size_t size) {
    std::uint64_t value = 0;
    for (const std::uint8_t byte : take(size)) value = value << 8 | byte;
    return value;
  }
  std::string_view word() {
    const Bytes four = take(4);
    return {reinterpret_cast<const char*>(four.data()), four.size()};
  }
  Bytes take(std::size_t size) {
    if (size > bytes_.size()) {
      good_ = false;
      bytes_ = {};
      return {};
    }
    const Bytes taken = bytes_.first(size);
    bytes_ = bytes_.subspan(size);
    return taken;
  }

  /// The next box: its type and what is in it.
  std::pair<std::string_view, Bytes> box() {
    const std::size_t whole = bytes_.size();
    std::uint64_t size = number(4);
    const std::string_view type = word();
    std::size_t header = 8;
    if (size == 1) size = number(8), header = 16;
    if (size == 0) size = whole;
    if (size < header) good_ = false;
    return {type, good_ ? take(static_cast<std::size_t>(std::min<std::uint64_t>(size - header, SIZE_MAX))) : Bytes{}};
  }

 private:
  Bytes bytes_;
  bool good_ = true;
};

Bytes findBox(Bytes boxes, std::string_view type) {
  for (BoxReader reader(boxes); reader.left() >= 8 && reader.good();)
    if (const auto [name, inside] = reader.box(); reader.good() && name == type) return inside;
  return {};
}

enum class Coding { Hevc, Av1 };

/// Which items are coded pictures, by iinf.
std::map<std::uint64_t, Coding> codedItems(Bytes iinf) {
  std::map<std::uint64_t, Coding> items;
  BoxReader reader(iinf);
  const std::uint64_t version = reader.number(1);
  reader.take(3);
  reader.number(version == 0 ? 2 : 4);
  while (reader.good() && reader.left() >= 8) {
    const auto [type, inside] = reader.box();
    BoxReader entry(inside);
    const std::uint64_t kind = entry.number(1);
    entry.take(3);
    if (type != "infe" || kind < 2) continue;
    const std::uint64_t id = entry.number(kind == 2 ? 2 : 4);
    entry.take(2);
    const std::string_view coding = entry.word();
    if (coding == "hvc1") items[id] = Coding::Hevc;
    if (coding == "av01") items[id] = Coding::Av1;
  }
  return items;
}

struct Extent {
  std::uint64_t place = 0, length = 0;
};

/// Where the items lie in the file, by iloc; only those that do not lie in other boxes.
std::map<std::uint64_t, std::vector<Extent>> placesOfItems(Bytes iloc) {
  std::map<std::uint64_t, std::vector<Extent>> places;
  BoxReader reader(iloc);
  const std::uint64_t version = reader.number(1);
  reader.take(3);
  if (version > 2) return places;
  const std::uint64_t sizes = reader.number(2);
  const std::size_t place_size = sizes >> 12 & 15, length_size = sizes >> 8 & 15, base_size = sizes >> 4 & 15;
  const std::size_t index_size = version > 0 ? sizes & 15 : 0;
  const std::uint64_t count = reader.number(version < 2 ? 2 : 4);
  for (std::uint64_t i = 0; i < count && reader.good(); ++i) {
    const std::uint64_t id = reader.number(version < 2 ? 2 : 4);
    const std::uint64_t method = version > 0 ? reader.number(2) & 15 : 0;
    const std::uint64_t elsewhere = reader.number(2);
    const std::uint64_t base = reader.number(base_size);
    const std::uint64_t extents = reader.number(2);
    for (std::uint64_t e = 0; e < extents && reader.good(); ++e) {
      reader.take(index_size);
      const std::uint64_t place = base + reader.number(place_size), length = reader.number(length_size);
      if (reader.good() && method == 0 && elsewhere == 0) places[id].push_back({place, length});
    }
  }
  return places;
}

bool zerosInARow(Bytes data, int most) {
  int zeros = 0;
  for (const std::uint8_t byte : data) {
    zeros = byte == 0 ? zeros + 1 : 0;
    if (zeros > most) return true;
  }
  return false;
}

/// Units with their lengths in front, which fill the data; no 00 00 00, 00 00 01, 00 00 02 inside.
bool soundHevc(Bytes data) {
  BoxReader reader(data);
  while (reader.good() && reader.left() > 0) {
    const std::uint64_t length = reader.number(4);
    const Bytes unit = reader.take(static_cast<std::size_t>(length));
    if (unit.size() < 2 || unit.back() == 0) return false;
    for (std::size_t i = 0; i + 2 < unit.size(); ++i)
      if (unit[i] == 0 && unit[i + 1] == 0 && unit[i + 2] < 3) return false;
  }
  return reader.good();
}

/// Whether all HEVC configurations use lengths of four bytes, as good as every writer does.
bool fourByteLengths(Bytes ipco) {
  for (BoxReader reader(ipco); reader.good() && reader.left() >= 8;)
    if (const auto [type, inside] = reader.box(); type == "hvcC" && (inside.size() < 22 || (inside[21] & 3) != 3)) return false;
  return true;
}

}  // namespace

Result<void> checkCodedData(std::span<const std::uint8_t> file) {
  const Bytes meta = findBox(file, "meta");
  if (meta.size() < 4) return {};
  const Bytes boxes = meta.subspan(4);  // behind the version and flags
  const auto coded = codedItems(findBox(boxes, "iinf"));
  const auto places = placesOfItems(findBox(boxes, "iloc"));
  const bool four = fourByteLengths(findBox(findBox(boxes, "iprp"), "ipco"));
  std::uint64_t looked_at = 0;
  for (const auto& [id, coding] : coded) {
    const auto found = places.find(id);
    if (found == places.end()) continue;
    std::vector<std::uint8_t> joined;
    Bytes data;
    for (const Extent& extent : found->second) {
      if (extent.place > file.size()) return fail(Code::PhotoTruncated);
      const std::uint64_t left = file.size() - extent.place;
      const std::uint64_t length = extent.length == 0 ? left : extent.length;  // zero: up to the end
      if (length > left) return fail(Code::PhotoTruncated);
      looked_at += length;
      if (looked_at > kMostOften * file.size()) return fail(Code::PhotoCorrupt);
      data = file.subspan(static_cast<std::size_t>(extent.place), static_cast<std::size_t>(length));
      if (found->second.size() > 1) joined.insert(joined.end(), data.begin(), data.end());
    }
    if (found->second.size() > 1) data = joined;
    const bool sound = coding == Coding::Hevc ? !four || soundHevc(data) : !zerosInARow(data, 31);
    if (!sound) return fail(Code::PhotoCorrupt);
  }
  return {};
}

}  // namespace huewright
