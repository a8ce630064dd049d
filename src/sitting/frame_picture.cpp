#include "sitting/frame_picture.hpp"

#include <algorithm>

namespace huewright {

PictureRef framePicture(const Frame& frame, int most) {
  const int by = std::max(1, (frame.size.width + most - 1) / most);
  auto out = std::make_shared<Picture>();
  out->size = {frame.size.width / by, std::max(1, frame.size.height / by)};
  out->scale = 1.0 / by;
  const auto width = static_cast<std::size_t>(out->size.width), height = static_cast<std::size_t>(out->size.height), step = static_cast<std::size_t>(by);
  const std::size_t line = 3 * static_cast<std::size_t>(frame.size.width);
  const std::size_t rows = std::min(step, static_cast<std::size_t>(frame.size.height));
  out->rgba.resize(width * height * 4);
  std::uint8_t* to = out->rgba.data();
  for (std::size_t y = 0; y < height; ++y)
    for (std::size_t x = 0; x < width; ++x, to += 4) {
      const std::uint8_t* from = frame.rgb.data() + y * step * line + 3 * x * step;
      if (by == 1) {
        std::copy_n(from, 3, to);
      } else {
        for (std::size_t k = 0; k < 3; ++k) {
          std::size_t sum = 0;
          for (std::size_t v = 0; v < rows; ++v)
            for (std::size_t u = 0; u < step; ++u) sum += from[v * line + 3 * u + k];
          to[k] = static_cast<std::uint8_t>((sum + rows * step / 2) / (rows * step));
        }
      }
      to[3] = 255;
    }
  return out;
}

}  // namespace huewright
