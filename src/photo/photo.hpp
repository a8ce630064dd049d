// A photograph as a source of exact linear pixels. Nothing here knows what the picture shows.
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/limits.hpp"
#include "base/problem.hpp"
#include "photo/geometry.hpp"

namespace huewright {

/// How the stored codes are meant. Auto: obey the embedded profile, else sRGB.
enum class Encoding { Auto, Linear, Srgb };

/// What the file says of itself.
struct PhotoFacts {
  std::filesystem::path path;
  std::string format;             ///< "JPEG", "PNG", "TIFF", "HEIF", "AVIF"
  Size size;                      ///< upright, full size, pixels
  int bits = 8;                   ///< stored bits of a channel
  bool tagged = false;            ///< the colour space came from the file (ICC profile, NCLX of HEIF/AVIF, PNG chunks, EXIF)
  std::string encoding;           ///< the colour space in words: "sRGB (assumed)", "linear (as told)", or the profile's own name
  bool linear = false;            ///< stored codes are proportional to light
  bool camera_data = false;       ///< camera make, model or exposure is still there (EXIF)
  std::string software;           ///< EXIF Software, may be empty
  int orientation = 1;            ///< EXIF orientation 1..8, already undone in all coordinates; 1 for HEIF/AVIF, which turn themselves
  std::optional<int> jpeg_quality;///< estimated from the luminance quantisation table, 1..100 (IJG scale); JPEG only
  bool chroma_subsampled = false; ///< colour is stored at less than full resolution
};

/// Linear pixels of one rectangle.
struct Raster {
  Rect rect;               ///< the upright full-size pixels that this holds
  std::vector<float> xyz;  ///< X, Y, Z interleaved, row by row; relative to D50 with white Y = 1; may be slightly negative
  /// One byte a pixel, judged on the stored codes: bits 0..2 = R, G, B at the top of the range, bits 3..5 at the bottom.
  std::vector<std::uint8_t> clip;
};

/// An upright 8-bit sRGB picture, for finding and showing, never for measuring.
struct Preview {
  Size size;                       ///< of this preview
  double scale = 1.0;              ///< preview pixels per full-size pixel, at most 1
  std::vector<std::uint8_t> rgb;   ///< R, G, B interleaved, row by row
};

/// Decodes one kind of file. Internal to the room; Photo is the way in.
class PhotoSource;

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

  /// The picture at a longest side of at most max_side pixels (never enlarged).
  /// Errors: PhotoTruncated, PhotoCorrupt, OutOfMemory.
  Result<Preview> preview(int max_side);

  /// Exact linear pixels of all rectangles in one pass, in the order asked. A JPEG is decoded only down to the lowest row
  /// that is asked for, and scanned on to its end, so that a truncated file is still seen.
  /// Errors: RegionOutside, PhotoTruncated, PhotoCorrupt, OutOfMemory.
  Result<std::vector<Raster>> pixels(std::span<const Rect> rects);

 private:
  explicit Photo(std::unique_ptr<PhotoSource> source);
  std::unique_ptr<PhotoSource> source_;
};

}  // namespace huewright
