// Picture files made for tests, in memory. Nothing here shares code with the room that reads them.
// All functions throw std::runtime_error when a library fails.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "photo/geometry.hpp"
#include "support/temp_dir.hpp"

namespace huewright::fixtures {

using Bytes = std::vector<std::uint8_t>;
using Code3 = std::array<std::uint16_t, 3>;

/// R, G, B codes, interleaved; 0..255 or 0..65535 (or fewer bits), as the function that takes it says.
struct Picture {
  Size size;
  std::vector<std::uint16_t> rgb;

  std::uint16_t* at(int x, int y) { return rgb.data() + 3 * (std::size_t(y) * std::size_t(size.width) + std::size_t(x)); }
  const std::uint16_t* at(int x, int y) const { return rgb.data() + 3 * (std::size_t(y) * std::size_t(size.width) + std::size_t(x)); }
};

/// Colourful, smooth with sharp edges in it, and different in every corner. `most` is the highest code.
Picture pattern(Size size, int most = 255);

/// One colour all over.
Picture flat(Size size, Code3 code);

/// A picture with every code multiplied, such as 257 for 8 to 16 bits.
Picture times(Picture picture, int factor);

/// What a viewer must show of a stored picture with an EXIF orientation, written down pixel by pixel.
Picture upright(const Picture& stored, int orientation);

// --- EXIF -----------------------------------------------------------------------------------------------------------------
struct Exif {
  int orientation = 0;            ///< 0: no such tag
  std::string make = {}, model = {}, software = {};
  int colour_space = 0;           ///< 0: no such tag
  std::string interoperability = {};   ///< such as "R98", "R03"
  bool exposure = false;
  bool big_endian = false;
  std::string taken = {}, changed = {};  ///< DateTimeOriginal, DateTime
  Size told = {};                 ///< PixelXDimension, PixelYDimension; zeros: no such tags
  Bytes thumbnail = {};           ///< a JPEG
};
/// The TIFF structure of EXIF data, from its byte-order mark on.
Bytes exif(const Exif& what);

// --- ICC profiles ---------------------------------------------------------------------------------------------------------
Bytes srgbProfile();
Bytes displayP3Profile();
Bytes adobeRgbProfile();
Bytes proPhotoProfile();
Bytes linearSrgbProfile();
/// Red codes mean green light, green codes blue light, blue codes red light; curve and primaries of sRGB.
Bytes swapProfile();
/// A2B0 only (mAB, Lab): r = R², g = G^1.5, b = B; L* = 20r + 70g + 10b, a* = 60(r − g), b* = 50(g − b).
Bytes tableProfile();
std::array<double, 3> tableProfileLab(double red, double green, double blue);
/// XYZ of R, G, B (0..1) by the colour engine's own float transform, scaled axis by axis so that the profile's white is D50
/// (0.3457, 0.3585). Accuracy: that of float.
std::array<double, 3> engineXyz(const Bytes& profile, double red, double green, double blue);
/// Bytes that are no profile.
Bytes brokenProfile();
/// A profile whose device space is CMYK.
Bytes cmykProfile();

// --- JPEG -----------------------------------------------------------------------------------------------------------------
struct JpegOptions {
  int quality = 92;
  int h = 2, v = 2;          ///< sampling factors of luminance; 1, 1 is 4:4:4
  bool progressive = false;
  bool separate_scans = false;  ///< one sequential scan for each channel
  bool arithmetic = false;
  int restart = 0;           ///< blocks between restart markers
  Bytes profile = {}, exif = {};
};
Bytes jpeg(const Picture& picture, const JpegOptions& options = {});
Bytes greyJpeg(Size size);
Bytes cmykJpeg(Size size);
/// R, G, B codes by a plain decode of the whole picture, as stored.
Picture decodeJpeg(const Bytes& jpeg);

// --- PNG ------------------------------------------------------------------------------------------------------------------
struct PngOptions {
  int bits = 8;
  bool alpha = false, interlaced = false, grey = false;
  bool palette = false;      ///< the picture's first 256 colours; all others become the nearest-to-first
  bool srgb = false;
  std::optional<double> gamma = {};             ///< as in gAMA: 1/2.2 for an exponent of 2.2
  std::optional<std::array<double, 8>> primaries = {};  ///< white, red, green, blue x and y
  std::optional<std::array<std::uint8_t, 4>> code_points = {};  ///< cICP
  Bytes profile = {}, exif = {};
};
Bytes png(const Picture& picture, const PngOptions& options = {});

// --- TIFF -----------------------------------------------------------------------------------------------------------------
struct TiffOptions {
  int bits = 8;
  int tile = 0;              ///< side of a tile, pixels; 0 for strips
  int rows_per_strip = 16;
  int compression = 1;       ///< 1 none, 5 LZW, 8 deflate, 32773 PackBits, 7 JPEG
  bool predictor = false;
  bool separate = false, alpha = false, big_endian = false, big_tiff = false, floating = false;
  int photometric = 2;       ///< 2 RGB, 5 CMYK, 8 CIELAB, 1 grey, 32803 colour filter array, 34892 linear raw
  int orientation = 1;
  std::string make = {}, software = {};
  Bytes profile = {};
};
Bytes tiff(const Picture& picture, const TiffOptions& options = {});

// --- HEIF and AVIF --------------------------------------------------------------------------------------------------------
struct HeifOptions {
  bool avif = false;
  int bits = 8;              ///< HEIC: 8 or 10; AVIF: 8
  int quality = 95;
  bool lossless = false;     ///< exact for HEIC; for AVIF just full chroma
  bool grey = false;
  int orientation = 1;       ///< by the file's own boxes (irot, imir)
  std::optional<std::array<int, 3>> code_points = {};  ///< NCLX: primaries, transfer, matrix
  Bytes profile = {}, exif = {};
};
Bytes heif(const Picture& picture, const HeifOptions& options = {});

// --- DNG ------------------------------------------------------------------------------------------------------------------
struct DngOptions {
  int orientation = 1;
  bool big_endian = false;
  bool linear = false;       ///< three codes a pixel, no filters
  std::vector<std::uint8_t> filters = {0, 1, 1, 2};  ///< of 2×2 or 6×6 pixels, row by row: 0 red, 1 green, 2 blue
  int black = 512, white = 15871;  ///< white 0: no such tag
  std::vector<std::uint16_t> blacks = {};  ///< of 2×2 pixels, in place of black
  bool matrix = true;        ///< ColorMatrix1, for D65
  std::array<double, 3> neutral = {0.5, 1, 0.65};  ///< AsShotNeutral; all 0: no such tag
  std::array<int, 4> active = {};  ///< top, left, bottom, right of the visible part; all 0: everything
  int rows_per_strip = 0;    ///< 0: one strip
  bool gap = false;          ///< some bytes between the strips
  bool compressed = false;   ///< lossless JPEG, one strip; one code a pixel only
  bool below = false;        ///< the sensor's folder stands below a small picture's
  std::string make = "Simulated", model = "Camera";
  bool exposure = false;     ///< EXIF: 1/125 s, ISO 200
};
/// XYZ to camera RGB for D65, as in the fixture's ColorMatrix1.
inline constexpr std::array<double, 9> kDngMatrix{0.65, -0.12, -0.09, -0.38, 1.16, 0.25, -0.04, 0.15, 0.55};
/// A DNG of 16-bit codes: one a pixel, or three when linear. At least 24 pixels wide and high.
Bytes dng(Size size, const std::vector<std::uint16_t>& codes, const DngOptions& options = {});

}  // namespace huewright::fixtures
