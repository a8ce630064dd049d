#include "paper/pour_cup.hpp"

#include <algorithm>

namespace huewright {

std::vector<double> labelPlaces(const std::vector<double>& marks, double gap) {
  // Runs of labels that touch: each sits so that its labels are, in the mean, as far above their marks as below.
  struct Run {
    double first = 0;  // place of its lowest label
    std::vector<double> marks;
  };
  const auto settle = [gap](Run& run) {
    double sum = 0;
    for (std::size_t i = 0; i < run.marks.size(); ++i) sum += run.marks[i] - gap * static_cast<double>(i);
    run.first = std::max(gap / 2, sum / static_cast<double>(run.marks.size()));
  };
  std::vector<Run> runs;
  for (const double mark : marks) {
    runs.push_back({0, {mark}});
    settle(runs.back());
    while (runs.size() > 1) {
      Run& below = runs[runs.size() - 2];
      if (below.first + gap * static_cast<double>(below.marks.size()) <= runs.back().first) break;
      below.marks.insert(below.marks.end(), runs.back().marks.begin(), runs.back().marks.end());
      runs.pop_back();
      settle(runs.back());
    }
  }
  std::vector<double> places;
  for (const Run& run : runs)
    for (std::size_t i = 0; i < run.marks.size(); ++i) places.push_back(run.first + gap * static_cast<double>(i));
  return places;
}

}  // namespace huewright
