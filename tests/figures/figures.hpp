// What the programs that print figures have in common.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "colour/lab.hpp"
#include "render/scene.hpp"

namespace huewright::figures {

/// Linear between neighbours in order, q from 0 to 1; NaN when there is nothing.
double quantile(std::vector<double> values, double q);

/// How often something held, with a 95 % interval that treats trials of one cluster, such as one camera and light, as alike.
class Coverage {
 public:
  void add(const std::string& cluster, bool covered);
  std::size_t trials() const { return trials_; }
  std::size_t clusters() const { return of_.size(); }
  double share() const;     ///< 0..1
  double half() const;      ///< of the interval, from the variance between clusters

 private:
  std::map<std::string, std::pair<double, double>> of_;   // covered, trials
  double covered_ = 0;
  std::size_t trials_ = 0;
};

/// A picture's file in the folder for temporary ones, gone with this. `ending` includes the dot.
class TemporaryFile {
 public:
  TemporaryFile(std::uint64_t seed, const std::string& tail, const std::string& ending);
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;
  ~TemporaryFile();
  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

/// Calls it with 0 to count − 1, on all processors at once.
void forEach(int count, const std::function<void(int)>& one);

/// A workshop of that seed whose light falls off by 5 % at most, the lamp anywhere round; its camera gives a linear file of either colour space, or a tagged JPEG.
render::Shop mildShop(std::uint64_t seed, bool linear, render::Random& random);

/// A card's paint: any of the grounds and any pair, share 0.15 to 0.6, 2.5 to 5 coats.
render::Paint randomPaint(render::Random& random, std::span<const render::Ground> grounds = render::kGrounds);

/// The same paint at a true distance from it, by its share (in 6 of 10) or by its coats; nothing when that is not to be had.
std::optional<render::Paint> paintAt(render::Random& random, const render::Paint& card, double de00);

}  // namespace huewright::figures
