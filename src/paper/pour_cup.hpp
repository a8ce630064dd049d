// Where the labels beside a drawn cup go.
#pragma once

#include <vector>

namespace huewright {

/// Places for labels beside marks, all measured upward from the cup's floor: in the marks' order, at least `gap` apart, none below `gap` / 2, and no farther from its
/// mark than the others push it. In: marks, rising; gap > 0.
std::vector<double> labelPlaces(const std::vector<double>& marks, double gap);

}  // namespace huewright
