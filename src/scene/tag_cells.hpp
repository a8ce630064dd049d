// The pattern of a printed tag: a black frame, a white one inside it, and 18 × 18 cells that hold what the tag tells.
#pragma once

#include <array>
#include <optional>

#include "scene/tag_text.hpp"

namespace huewright {

// No tag can be taken for a mat's marker: a marker has a black border one sixth of its side wide, of which the middle half is looked at and may be
// white at 15 % of its places. A tag is white on over half of just that width (cell 2 of cells 0.9 to 2.8), all the way round. A marker in turn lacks the white frame
// by which a tag is known, and the check bytes.

inline constexpr std::size_t kTagData = 18;                  ///< cells along a side
inline constexpr std::size_t kTagAcross = kTagData + 4;      ///< with both frames, one cell each
inline constexpr std::size_t kTagMendable = 6;               ///< bytes of 40, of 8 neighbouring cells each

/// Rows from the top; true is black.
using TagCells = std::array<std::array<bool, kTagData>, kTagData>;

/// The cells inside the frames. Errors: those of checkTag.
Result<TagCells> tagCells(const TagText& text);

/// The whole tag with its frames.
std::array<std::array<bool, kTagAcross>, kTagAcross> withFrames(const TagCells& cells);

struct ReadCells {
  TagText text;
  int turns = 0;             ///< quarters, clockwise, by which the pattern was turned
  std::size_t mended = 0;    ///< bytes that were wrong
};

/// Reads cells as seen, in any of the four turns. Up to kTagMendable wrong bytes are mended; of all patterns, fewer than one in 10^12 is taken for a tag by chance.
std::optional<ReadCells> readCells(const TagCells& seen);

}  // namespace huewright
