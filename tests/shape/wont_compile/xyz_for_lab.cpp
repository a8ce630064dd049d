// Three numbers are not a colour of any kind: XYZ does not pass for Lab.
// must fail with: from .*Xyz<huewright::D50>
#include "colour/delta_e.hpp"

namespace huewright {

double lightnessDifference(const Xyz<D50>& panel, const Lab<D50>& card) {
#ifdef MUST_FAIL
  return labDifference(panel, card).dL;
#else
  return labDifference(toLab(panel), card).dL;
#endif
}

}  // namespace huewright
