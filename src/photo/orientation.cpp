#include "photo/orientation.hpp"

namespace huewright {

Turn turnUpright(int orientation, Size stored) {
  const int right = stored.width - 1, bottom = stored.height - 1;
  switch (orientation) {
    case 2: return {-1, 0, right, 0, 1, 0};        // mirrored left to right
    case 3: return {-1, 0, right, 0, -1, bottom};  // upside down
    case 4: return {1, 0, 0, 0, -1, bottom};       // mirrored top to bottom
    case 5: return {0, 1, 0, 1, 0, 0};             // mirrored about the main diagonal
    case 6: return {0, -1, bottom, 1, 0, 0};       // needs a quarter turn clockwise
    case 7: return {0, -1, bottom, -1, 0, right};  // mirrored about the other diagonal
    case 8: return {0, 1, 0, -1, 0, right};        // needs a quarter turn anticlockwise
    default: return {};
  }
}

Size uprightSize(int orientation, Size stored) {
  return orientation >= 5 && orientation <= 8 ? Size{stored.height, stored.width} : stored;
}

Rect toStored(const Rect& upright, int orientation, Size stored) {
  // The inverse of a turn by its transpose: the matrix is orthogonal.
  const Turn t = turnUpright(orientation, stored);
  const auto back = [&](int x, int y) {
    const int dx = x - t.x0, dy = y - t.y0;
    return std::array{t.xx * dx + t.yx * dy, t.xy * dx + t.yy * dy};
  };
  const auto a = back(upright.x, upright.y);
  const auto b = back(upright.x + upright.width - 1, upright.y + upright.height - 1);
  const int x = a[0] < b[0] ? a[0] : b[0], y = a[1] < b[1] ? a[1] : b[1];
  return {x, y, (a[0] > b[0] ? a[0] : b[0]) - x + 1, (a[1] > b[1] ? a[1] : b[1]) - y + 1};
}

}  // namespace huewright
