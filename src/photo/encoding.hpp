// Which colours a file's codes stand for: the file's own word, weighed against what the user says.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "colour/rgb.hpp"
#include "photo/colour_path.hpp"
#include "photo/photo.hpp"

namespace huewright {

/// A colour space that is named, not described by a profile.
struct NamedColour {
  std::string name;
  Primaries primaries = kSrgbPrimaries;
  double power = 0;  ///< light = code^power; 1 is linear; 0 stands for the sRGB curve
};

/// What a file says of its colours. A profile goes before a name; both may be absent.
struct ColourTag {
  std::vector<std::uint8_t> profile;
  bool profile_broken = false;  ///< there is a profile, but it cannot even be taken out of the file
  std::optional<NamedColour> named;
};

NamedColour srgbByName();
NamedColour adobeByName();

/// Colour space of ITU-T H.273 code points, as HEIF, AVIF (NCLX) and PNG (cICP) give them; nothing when both are unspecified.
/// The BT.709, BT.601 and BT.2020 transfer codes are read with the sRGB curve: still cameras write them over sRGB-encoded
/// pictures, and the inverse of the video camera curve would darken the shadows wrongly.
/// Errors: PhotoUnsupported for high-dynamic-range curves (PQ, HLG) and code points that no camera writes.
Result<std::optional<NamedColour>> namedByCodePoints(int primaries, int transfer, const std::string& shown);

/// The way from codes to XYZ. Fills in tagged, encoding and linear of the facts, whose path and bits must be set.
/// Encoding::Srgb overrides whatever the file says. Encoding::Linear straightens the curve and keeps the primaries of a
/// curve-and-matrix profile or of a named space; else the primaries are those of sRGB. Both make a broken profile harmless.
/// Errors: ProfileUnusable.
Result<std::shared_ptr<const ColourPath>> chooseColour(const ColourTag& tag, Encoding encoding, PhotoFacts& facts);

}  // namespace huewright
