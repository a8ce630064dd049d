// A Result is not its value: the problem must be looked at first.
// must fail with: from .*(expected|Result)<
#include "photo/geometry.hpp"

namespace huewright {

double area(const std::string& text) {
#ifdef MUST_FAIL
  return signedArea(parseQuad(text));
#else
  const auto quad = parseQuad(text);
  return quad ? signedArea(*quad) : 0;
#endif
}

}  // namespace huewright
