// Folders of tags, as TIFF, EXIF and DNG have them, for the fixtures.
#pragma once

#include "support/fixtures.hpp"

namespace huewright::fixtures {

/// Puts numbers into a TIFF structure in one byte order.
class TiffWriter {
 public:
  explicit TiffWriter(bool big) : big_(big) {}
  void number(std::uint32_t value, int bytes) {
    for (int i = 0; i < bytes; ++i)
      out.push_back(static_cast<std::uint8_t>(value >> (8 * (big_ ? bytes - 1 - i : i))));
  }
  Bytes out;

 private:
  bool big_;
};

struct TiffEntry {
  int tag, type;
  std::uint32_t count;
  Bytes value;  // already in the file's order
};

/// A folder with its values behind it, beginning at `place`.
inline Bytes tiffFolder(const std::vector<TiffEntry>& entries, std::uint32_t place, bool big) {
  TiffWriter w(big), values(big);
  w.number(std::uint32_t(entries.size()), 2);
  const std::uint32_t behind = place + 2 + 12 * std::uint32_t(entries.size()) + 4;
  for (const TiffEntry& e : entries) {
    w.number(std::uint32_t(e.tag), 2);
    w.number(std::uint32_t(e.type), 2);
    w.number(e.count, 4);
    if (e.value.size() <= 4) {
      Bytes four = e.value;
      four.resize(4);
      w.out.insert(w.out.end(), four.begin(), four.end());
    } else {
      w.number(behind + std::uint32_t(values.out.size()), 4);
      values.out.insert(values.out.end(), e.value.begin(), e.value.end());
      if (values.out.size() % 2 != 0) values.out.push_back(0);
    }
  }
  w.number(0, 4);
  w.out.insert(w.out.end(), values.out.begin(), values.out.end());
  return w.out;
}

}  // namespace huewright::fixtures
