// A colour difference between two whites means nothing.
// must fail with: from .*Lab<huewright::D65>
#include "colour/adapt.hpp"
#include "colour/delta_e.hpp"

namespace huewright {

double difference(const Lab<D65>& panel, const Lab<D50>& card) {
#ifdef MUST_FAIL
  return deltaE2000(panel, card);
#else
  return deltaE2000(adapt<D50>(panel), card);
#endif
}

}  // namespace huewright
