// What the workers do: each a plain function from a request to what is shown. Safe on any thread.
#pragma once

#include <filesystem>
#include <memory>
#include <stop_token>
#include <vector>

#include "session/session.hpp"
#include "sitting/state.hpp"

namespace huewright {

/// Longest side of a picture in the strip and of the whole photo, pixels.
inline constexpr int kPreviewPixels = 1600;

struct OpenedPhoto {
  std::string facts;
  Size size;
  PictureRef preview;
};
/// Errors: of Photo.
Result<OpenedPhoto> openForShow(const std::filesystem::path& file, const Limits& limits, Encoding encoding);

/// Every pixel. Errors: of Photo.
Result<PictureRef> everyPixel(const std::filesystem::path& file, const Limits& limits, Encoding encoding);

/// Keeps the last photo open, so that the pointer can be followed. Not for several threads at once.
class Pointer {
 public:
  /// In: the verdict's report when the photo is its first, for the corrected colour. Errors: of Photo and probe.
  Result<ProbeShown> look(int id, const std::filesystem::path& file, Point at, const JudgeReport* report, const Limits& limits, Encoding encoding);

 private:
  std::filesystem::path file_;
  Encoding encoding_{};
  std::shared_ptr<Photo> photo_;
};

/// In: the panel, counted from 0. Errors: those of panelMap.
Result<MapShown> mapForShow(const JudgeRequest& request, JudgeReport report, std::size_t panel, std::stop_token stop);

/// Errors: those of regionMarks.
Result<MarksShown> marksForShow(const JudgeRequest& request, const JudgeReport& report, std::stop_token stop);

/// Everything that the Mixes page shows of a series.
SeriesShown seriesForShow(const Series& series, const std::optional<std::filesystem::path>& tints, std::optional<double> part_coats);

/// Health and patches; pictures are put in by openForShow's preview of each file.
Result<CameraShown> cameraForShow(const Session& session, const ProfileRequest& request, std::stop_token stop);

}  // namespace huewright
