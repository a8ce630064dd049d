#include "scene/tag_cells.hpp"

#include <algorithm>
#include <utility>
#include <vector>

#include "scene/reed_solomon.hpp"

namespace huewright {
namespace {

constexpr std::size_t kTagBytes = 40, kTagChecks = kTagBytes - kTagMessage;
static_assert(8 * kTagBytes + 4 == kTagData * kTagData && 2 * kTagMendable <= kTagChecks);

/// Where bits lie, byte by byte: down and up in pairs of columns, so that a byte is a block of 2 × 4 cells and a smudge spoils few. The four corners hold none.
std::vector<std::pair<std::size_t, std::size_t>> bitPlaces() {
  std::vector<std::pair<std::size_t, std::size_t>> places;  // x, y
  const auto corner = [](std::size_t x, std::size_t y) { return (x == 0 || x == kTagData - 1) && (y == 0 || y == kTagData - 1); };
  for (std::size_t pair = 0; pair < kTagData / 2; ++pair)
    for (std::size_t step = 0; step < kTagData; ++step)
      for (std::size_t side = 0; side < 2; ++side) {
        const std::size_t x = 2 * pair + side, y = pair % 2 == 0 ? step : kTagData - 1 - step;
        if (!corner(x, y)) places.emplace_back(x, y);
      }
  return places;
}

/// Keeps short names from leaving large even areas; any fixed bytes would do.
std::uint8_t maskByte(std::size_t i) { return static_cast<std::uint8_t>((i + 1) * 0x9D ^ (i * i * 0x35 >> 2)); }

TagCells turnedOnce(const TagCells& cells) {  // anticlockwise
  TagCells out{};
  for (std::size_t y = 0; y < kTagData; ++y)
    for (std::size_t x = 0; x < kTagData; ++x) out[kTagData - 1 - x][y] = cells[y][x];
  return out;
}

}  // namespace

Result<TagCells> tagCells(const TagText& text) {
  const auto message = tagMessage(text);
  if (!message) return std::unexpected(message.error());
  std::vector<std::uint8_t> word(message->begin(), message->end());
  const auto checks = checkBytes(*message, kTagChecks);
  word.insert(word.end(), checks.begin(), checks.end());
  TagCells cells{};
  const auto places = bitPlaces();
  for (std::size_t bit = 0; bit < places.size(); ++bit) {
    const auto byte = static_cast<std::uint8_t>(word[bit / 8] ^ maskByte(bit / 8));
    cells[places[bit].second][places[bit].first] = byte >> (7 - bit % 8) & 1;
  }
  return cells;
}

std::array<std::array<bool, kTagAcross>, kTagAcross> withFrames(const TagCells& cells) {
  std::array<std::array<bool, kTagAcross>, kTagAcross> all{};
  for (std::size_t y = 0; y < kTagAcross; ++y)
    for (std::size_t x = 0; x < kTagAcross; ++x) {
      const std::size_t in = std::min({x, y, kTagAcross - 1 - x, kTagAcross - 1 - y});
      all[y][x] = in == 0 || (in > 1 && cells[y - 2][x - 2]);
    }
  return all;
}

std::optional<ReadCells> readCells(const TagCells& seen) {
  TagCells cells = seen;
  const auto places = bitPlaces();
  for (int turns = 0; turns < 4; ++turns, cells = turnedOnce(cells)) {
    std::vector<std::uint8_t> word(kTagBytes);
    for (std::size_t bit = 0; bit < places.size(); ++bit)
      if (cells[places[bit].second][places[bit].first]) word[bit / 8] = static_cast<std::uint8_t>(word[bit / 8] | 0x80U >> bit % 8);
    for (std::size_t i = 0; i < kTagBytes; ++i) word[i] = static_cast<std::uint8_t>(word[i] ^ maskByte(i));
    const auto mended = mendBytes(word, kTagChecks, kTagMendable);
    if (!mended) continue;
    TagMessage message{};
    std::copy_n(word.begin(), kTagMessage, message.begin());
    if (auto text = readTagMessage(message)) return ReadCells{std::move(*text), turns, *mended};
  }
  return {};
}

}  // namespace huewright
