// One picture of Motion JPEG, as cameras send and films keep them.
#pragma once

#include <cstdint>
#include <span>

#include "capture/camera_door.hpp"

namespace huewright::frames {

/// Unpacks a picture as R, G, B into the room that is asked for, with libjpeg's slow whole-number transform and smooth colour, as photographs are. Tables that
/// Motion JPEG leaves out are put in by the library. What is missing at its end is grey. One that cannot be read at all, or is wider or higher than 16384
/// pixels, is a frame without pixels. Not through OpenCV, which has libjpeg write to the terminal about every damaged picture.
/// Out: HuewrightGot or HuewrightNoRoom; the steps of its tables.
HuewrightRead unpackJpeg(std::span<const std::uint8_t> bytes, HuewrightRoom room, void* owner, HuewrightSteps& steps);

}  // namespace huewright::frames
