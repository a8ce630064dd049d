// One kind of picture file behind Photo: it hands out stored rows, and knows nothing of regions or colour.
#pragma once

#include <functional>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "photo/colour_path.hpp"
#include "photo/encoding.hpp"
#include "photo/file_bytes.hpp"
#include "photo/photo.hpp"
#include "photo/traces.hpp"

namespace huewright {

/// Refuses a kind of file that is not read here. The clause says of the file, by the name that is shown, what it is.
inline std::unexpected<Problem> unsupported(const std::string& shown, const std::string& clause) {
  return fail(Code::PhotoUnsupported, "\"" + shown + "\" " + clause);
}

/// Takes each stored row, or piece of a row, as it is decoded. The data lives for the call only.
using RowSink = std::function<void(const StoredRow&)>;

class PhotoSource {
 public:
  virtual ~PhotoSource() = default;

  PhotoFacts facts;   ///< complete once the source is opened
  Size stored;        ///< before turning upright, pixels
  Traces traces;      ///< of the header, once the source is opened
  int turned = 1;     ///< EXIF orientation that is still to be undone
  std::shared_ptr<const ColourPath> colour;
  std::shared_ptr<const ColourPath> preview_colour;  ///< to XYZ for previews, where `colour` does not lead there

  /// Adds to the traces what takes a look at the picture's data, for which nothing is decoded to pixels.
  virtual void lookBack() {}

  /// How much smaller, at most `most` times along each side, rows can be had at a saving: 1, 2, 4 or 8.
  virtual int shrink(double most) const {
    (void)most;
    return 1;
  }

  /// Hands every pixel of the wanted stored rectangles to the sink, each once, and perhaps others around them. With a shrink
  /// above 1, all rows of the shrunken picture are handed over, whatever is wanted.
  /// Errors: PhotoTruncated, PhotoCorrupt, PhotoUnsupported, OutOfMemory; nothing that was handed over counts then.
  virtual Result<void> decode(std::span<const Rect> wanted, int shrink, const RowSink& sink) = 0;
};

/// What every opener is given.
struct OpenRequest {
  std::filesystem::path path;
  Limits limits;
  Encoding encoding = Encoding::Auto;

  std::string shown() const { return path.string(); }
};

using OpenedSource = Result<std::unique_ptr<PhotoSource>>;

/// The openers, one for each kind of file. They take over the bytes. Errors: Photo*, ProfileUnusable.
OpenedSource openJpeg(FileBytes file, const OpenRequest& request);
OpenedSource openPng(FileBytes file, const OpenRequest& request);
OpenedSource openTiff(FileBytes file, const OpenRequest& request);
OpenedSource openHeif(FileBytes file, const OpenRequest& request);
OpenedSource openRaw(FileBytes file, const OpenRequest& request);

}  // namespace huewright
