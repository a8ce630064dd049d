// The scales of a plot.
#pragma once

#include <string>
#include <vector>

namespace huewright {

/// Values low..high laid out over from..to on the page, mm.
struct PlotAxis {
  double low = 0, high = 1;
  double from = 0, to = 100;
  double at(double value) const { return from + (value - low) / (high - low) * (to - from); }
};

/// The smallest of 1, 2, 5 times a power of ten that divides a span into at most so many steps. In: span > 0, most >= 1.
double tickStep(double span, int most);

/// All multiples of tickStep(high − low, most) within low..high, the ends included where they are multiples. In: low < high.
std::vector<double> ticksWithin(double low, double high, int most);

/// The value rounded up to a multiple of tickStep(value, most), for the end of a scale that starts at 0. In: value > 0.
double scaleEnd(double value, int most);

/// "0", "2.5", "0.05": as few digits as it takes.
std::string tickWords(double value);

}  // namespace huewright
