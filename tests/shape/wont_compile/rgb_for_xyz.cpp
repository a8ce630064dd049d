// Linear RGB does not pass for XYZ.
// must fail with: from .*LinearSrgb
#include "colour/rgb.hpp"

namespace huewright {

Xyz<D50> seen(const LinearSrgb& rgb) {
#ifdef MUST_FAIL
  return rgb;
#else
  return toXyzD50(rgb);
#endif
}

}  // namespace huewright
