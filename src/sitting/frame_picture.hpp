// A frame of a camera as a picture to show.
#pragma once

#include "capture/frame.hpp"
#include "sitting/picture.hpp"

namespace huewright {

/// At full size, or where it is wider than `most` pixels made smaller by a whole number, each pixel the mean of those that it stands for; what is left over at the right and at the foot is cut off.
/// In: a frame with pixels; most at least 1.
PictureRef framePicture(const Frame& frame, int most = 1920);

}  // namespace huewright
