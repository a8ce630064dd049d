// CIELAB keeps the white of the XYZ that it was made from.
// must fail with: from .*Lab<huewright::D65>
#include "colour/adapt.hpp"

namespace huewright {

Lab<D50> lab(const Xyz<D65>& xyz) {
#ifdef MUST_FAIL
  return toLab(xyz);
#else
  return toLab(adapt<D50>(xyz));
#endif
}

}  // namespace huewright
