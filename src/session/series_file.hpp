// A series file that grows by a reading at a time.
#pragma once

#include <filesystem>
#include <optional>
#include <string>

#include "base/caution.hpp"
#include "session/session.hpp"

namespace huewright {

class SeriesFile {
 public:
  /// A file that is there is read now, so that a mistake in it is known before anything is judged; one that is not begins with the first reading.
  /// Errors: SeriesUnusable.
  static Result<SeriesFile> open(std::filesystem::path path);

  /// Adds what the report tells of its panels (seriesOf) and writes the whole file. What is in the file already, also by hand and since the last time, stays as it
  /// is: the wanted colour, sigma and the ground of the series too, unless it has none. The panels bear their tags' names, or the photo's, the strips of a stepped panel as their piece; a name that
  /// others have gets a number. A reading that is there with the same name and the same numbers is not added twice. In: carrier, volumes to one of tint.
  /// Caution: OtherCard when the photo's card is another than the wanted colour; SeriesFull when there is no room for all of them, and then none is added. Errors: BadChoice as of seriesOf, SeriesUnusable, WriteFailed.
  Result<std::optional<Caution>> add(const JudgeReport& report, double carrier_per_tint);

 private:
  std::filesystem::path path_;
  std::string text_;  ///< as last read or written
};

/// A photo's reading goes into a series only with the mix, the carrier, and coats or steps; where tags are looked for, these may tell it. Errors: BadChoice.
Result<void> fitForSeries(const JudgeRequest& request);

}  // namespace huewright
