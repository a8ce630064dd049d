// What is timed.
#pragma once

#include <filesystem>

namespace huewright::bench {

/// Judging a photo, in this process and as a whole program, against reading it with OpenCV; also one with a chart in the picture.
void addVerdict(const std::filesystem::path& photo, const std::filesystem::path& with_chart);

/// Colour differences and decoding, against Little CMS.
void addColour();

/// The difference of each pixel of a panel from the card, against Little CMS.
void addMap();

/// One advice from ten panels, its drawing, and a shelf of 40 tints: times in milliseconds, for nobody else does the same.
void addAdvice();

}  // namespace huewright::bench
