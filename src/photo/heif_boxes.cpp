#include "photo/heif_boxes.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <string_view>

namespace huewright {
namespace {

using Bytes = std::span<const std::uint8_t>;

std::uint64_t boxNumber(Bytes b, std::size_t at, std::size_t bytes) {
  std::uint64_t n = 0;
  for (std::size_t i = 0; i < bytes; ++i) n = n << 8 | b[at + i];
  return n;
}

std::string_view word(Bytes b, std::size_t at) { return {reinterpret_cast<const char*>(b.data()) + at, 4}; }

struct Box {
  std::string_view type;
  std::uint64_t size = 0;  // with its header
  std::size_t header = 8;
};

/// The box that begins at a position; nothing when the file ends inside its header.
std::optional<Box> boxAt(Bytes file, std::size_t at) {
  if (file.size() - at < 8) return std::nullopt;
  Box box{word(file, at + 4), boxNumber(file, at, 4), 8};
  if (box.size == 0) box.size = file.size() - at;  // up to the end
  if (box.size == 1) {
    if (file.size() - at < 16) return std::nullopt;
    box.size = boxNumber(file, at + 8, 8);
    box.header = 16;
  }
  return box;
}

template <std::size_t N>
bool hasBrand(Bytes file, const std::array<std::string_view, N>& wanted) {
  if (file.size() < 16 || word(file, 4) != "ftyp") return false;
  const std::size_t end = static_cast<std::size_t>(std::min<std::uint64_t>(boxNumber(file, 0, 4), file.size()));
  for (std::size_t at = 8; at + 4 <= end; at += 4)
    if (at != 12 && std::find(wanted.begin(), wanted.end(), word(file, at)) != wanted.end()) return true;
  return false;
}

}  // namespace

bool isHeif(std::span<const std::uint8_t> file) {
  constexpr std::array<std::string_view, 11> kBrands{"heic", "heix", "heim", "heis", "hevc", "hevx",
                                                     "mif1", "msf1", "mif2", "avif", "avis"};
  return hasBrand(file, kBrands);
}

bool isAvif(std::span<const std::uint8_t> file) {
  constexpr std::array<std::string_view, 2> kBrands{"avif", "avis"};
  return hasBrand(file, kBrands);
}

Result<void> checkBoxes(std::span<const std::uint8_t> file) {
  for (std::size_t at = 0; at < file.size();) {
    const auto box = boxAt(file, at);
    if (!box) return fail(Code::PhotoTruncated);
    const bool readable = std::all_of(box->type.begin(), box->type.end(), [](char c) { return c >= 0x20 && c < 0x7F; });
    if (box->size < box->header || !readable) return fail(Code::PhotoCorrupt);
    if (box->size > file.size() - at) return fail(Code::PhotoTruncated);
    at += static_cast<std::size_t>(box->size);
  }
  return {};
}

bool isMonochrome(std::span<const std::uint8_t> file) {
  bool any = false;
  for (std::size_t at = 0; at < file.size();) {
    const auto box = boxAt(file, at);
    if (!box || box->size < box->header || box->size > file.size() - at) break;
    if (box->type == "meta") {
      const std::size_t end = at + static_cast<std::size_t>(box->size);
      for (std::size_t i = at; i + 4 + 17 <= end; ++i) {
        const bool hevc = word(file, i) == "hvcC", av1 = word(file, i) == "av1C";
        if (!hevc && !av1) continue;
        any = true;
        const bool mono = hevc ? (file[i + 4 + 16] & 0x03) == 0 : (file[i + 4 + 2] & 0x10) != 0;
        if (!mono) return false;
      }
    }
    at += static_cast<std::size_t>(box->size);
  }
  return any;
}

}  // namespace huewright
