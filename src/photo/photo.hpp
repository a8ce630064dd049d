// A photograph as a source of exact linear pixels. Nothing here knows what the picture shows.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/limits.hpp"
#include "base/problem.hpp"
#include "colour/matrix.hpp"
#include "photo/geometry.hpp"
#include "photo/traces.hpp"

namespace huewright {

/// How the stored codes are meant. Auto: obey the embedded profile, else sRGB. Raw files are linear camera RGB whatever is told.
enum class Encoding { Auto, Linear, Srgb };

/// What the file says of itself.
struct PhotoFacts {
  std::filesystem::path path;
  std::string format;             ///< "JPEG", "PNG", "TIFF", "HEIF", "AVIF", "DNG", "RAW" (the cameras' own kinds), "camera frame"
  Size size;                      ///< upright, full size, pixels
  int bits = 8;                   ///< stored bits of a channel; of raw files those that the code of saturation takes
  bool tagged = false;            ///< the colour space came from the file (ICC profile, NCLX of HEIF/AVIF, PNG chunks, EXIF); raw: there is a builtin
  std::string encoding;           ///< the colour space in words: "sRGB (assumed)", "linear (as told)", "camera RGB", or the profile's own name
  bool linear = false;            ///< stored codes are proportional to light
  bool camera_data = false;       ///< camera make, model or exposure is still there (EXIF)
  std::string software;           ///< EXIF Software, may be empty
  int orientation = 1;            ///< EXIF orientation 1..8, already undone in all coordinates; 1 for HEIF/AVIF, which turn themselves
  std::optional<int> jpeg_quality;///< estimated from the luminance quantisation table, 1..100 (IJG scale); JPEG only
  /// Steps in which a JPEG keeps the mean of a block of 8×8 samples: luma, Cb, Cr, codes of 8 bits. The first entry of each quantisation table over 8.
  std::optional<Vec3> rounding{};
  bool chroma_subsampled = false; ///< colour is stored at less than full resolution

  // Of raw files.
  bool camera_rgb = false;        ///< Raster holds linear camera RGB, not XYZ: a profile must map it
  /// The camera's own matrix, from the file or, without one there, from the raw library's table of cameras. It takes camera RGB
  /// as in Raster, times `balance`, to XYZ (D50), and (1, 1, 1) to exactly the white of D50. It is the camera's D65 matrix with
  /// each channel scaled to make D65 neutral, used for every lamp; no second matrix for another lamp is mixed in.
  std::optional<Mat3> builtin{};
  /// The same matrix before daylight was made neutral: camera RGB as in Raster, not balanced, to XYZ of what the light itself sends, any scale, not
  /// adapted. A neutral surface gives the chromaticity of the light: exactly for D65, nearly for others.
  std::optional<Mat3> native{};
  std::optional<Vec3> balance{};  ///< multipliers of R, G, B, relative to green, that make the camera's white neutral, as shot
  bool balance_doubtful = false;  ///< the balance as shot is missing or none of any lamp; balance is that for daylight, where known
  std::string camera{};           ///< maker and model, may be empty
  std::optional<double> iso{};            ///< sensitivity, ISO 12232
  std::optional<double> exposure_time{};  ///< seconds
};

/// Linear pixels of one rectangle.
struct Raster {
  Rect rect;               ///< the upright full-size pixels that this holds
  /// X, Y, Z interleaved, row by row; relative to D50 with white Y = 1; may be slightly negative. With PhotoFacts::camera_rgb it
  /// holds R, G, B of the camera instead: linear, black subtracted, 1 where the sensor is full, not balanced. All pixels of a
  /// cell of the sensor's filter pattern (2×2, or 3×3 and 6×6 of other patterns) hold the means of the cell's colours.
  std::vector<float> xyz;
  /// One byte a pixel, judged on the stored codes: bits 0..2 = R, G, B at the top of the range, bits 3..5 at the bottom. Raw: any
  /// pixel of the cell at 253/255 of the way to saturation or above; the cell's mean at or below black, or any pixel at code 0.
  std::vector<std::uint8_t> clip;
  std::optional<Vec3> rounding{};  ///< as in PhotoFacts
};

/// An upright 8-bit sRGB picture, for finding and showing, never for measuring. Raw: balanced, and through the builtin matrix.
struct Preview {
  Size size;                       ///< of this preview
  double scale = 1.0;              ///< preview pixels per full-size pixel, at most 1
  std::vector<std::uint8_t> rgb;   ///< R, G, B interleaved, row by row
};

/// Decodes one kind of file. Internal to the room; Photo is the way in.
class PhotoSource;
class FrameStack;
struct StoredRow;

class Photo {
 public:
  /// Opens a picture and reads its header. Nothing is decoded before the size has been checked against the limits.
  /// Errors: File*, Format*, Photo*, ProfileUnusable.
  static Result<Photo> open(const std::filesystem::path& path, const Limits& limits = {}, Encoding encoding = Encoding::Auto);

  /// A picture that is already in memory: linear XYZ (D50) floats, interleaved. For live frames and tests.
  static Photo fromMemory(Size size, std::vector<float> xyz, PhotoFacts facts = {});

  Photo(Photo&&) noexcept;
  Photo& operator=(Photo&&) noexcept;
  ~Photo();

  const PhotoFacts& facts() const;
  Size size() const { return facts().size; }

  /// What shows what became of the picture since it was taken: of the header, of a JPEG's coefficients (about 15 ms at the first call), and of the
  /// codes that preview() or pixels() has decoded until now. Never fails: what cannot be seen leaves no trace.
  const Traces& traces();

  /// The picture at a longest side of at most max_side pixels (never enlarged).
  /// Errors: PhotoTruncated, PhotoCorrupt, OutOfMemory.
  Result<Preview> preview(int max_side);

  /// Exact linear pixels of all rectangles in one pass, in the order asked. A JPEG is decoded only down to the lowest row
  /// that is asked for, and scanned on to its end, so that a truncated file is still seen.
  /// Errors: RegionOutside, PhotoTruncated, PhotoCorrupt, OutOfMemory.
  Result<std::vector<Raster>> pixels(std::span<const Rect> rects);

 private:
  friend class FrameStack;
  explicit Photo(std::unique_ptr<PhotoSource> source);
  /// Decodes, and has a look at the codes the first time.
  Result<void> decode(std::span<const Rect> wanted, int shrink, const std::function<void(const StoredRow&)>& sink);

  std::unique_ptr<PhotoSource> source_;
  bool looked_back_ = false, watched_ = false;
};

}  // namespace huewright
