// sRGB is reached from XYZ under D50, its profile connection space; XYZ under another white must be adapted first.
// must fail with: from .*Xyz<huewright::D65>
#include "colour/rgb.hpp"

namespace huewright {

LinearSrgb shown(const Xyz<D65>& xyz) {
#ifdef MUST_FAIL
  return toLinearSrgb(xyz);
#else
  return toLinearSrgb(adapt<D50>(xyz));
#endif
}

}  // namespace huewright
