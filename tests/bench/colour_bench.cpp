#include <cstdint>
#include <lcms2.h>
#include <memory>
#include <random>
#include <vector>

#include "bench/pair.hpp"
#include "bench/ratios.hpp"
#include "colour/delta_e.hpp"
#include "colour/rgb.hpp"
#include "photo/colour_path.hpp"

namespace huewright::bench {
namespace {

constexpr int kPairs = 100'000;
constexpr int kPixels = 700 * 700;

struct LabPair {
  Lab<D50> a, b;
};

/// Colours all over the surface gamut, and partners some units away.
std::vector<LabPair> labPairs() {
  std::mt19937 rng(2000);
  std::uniform_real_distribution<double> lightness(5, 95), chromatic(-70, 70), step(-6, 6);
  std::vector<LabPair> pairs(kPairs);
  for (auto& [a, b] : pairs) {
    a = {lightness(rng), chromatic(rng), chromatic(rng)};
    b = {a.L + step(rng), a.a + step(rng), a.b + step(rng)};
  }
  return pairs;
}

}  // namespace

void addColour() {
  const auto pairs = std::make_shared<const std::vector<LabPair>>(labPairs());
  const auto sum = [pairs](auto&& difference) {
    double total = 0;
    for (const auto& [a, b] : *pairs) total += difference(a, b);
    benchmark::DoNotOptimize(total);
    return total > 0;
  };
  const auto lcms = [sum] {
    return sum([](const Lab<D50>& a, const Lab<D50>& b) {
      const cmsCIELab x{a.L, a.a, a.b}, y{b.L, b.a, b.b};
      return cmsCIE2000DeltaE(&x, &y, 1, 1, 1);
    });
  };
  add({"delta-e-2000-vs-lcms2", "1.0", "deltaE2000 against cmsCIE2000DeltaE on 100000 pairs", 40,
       [sum] { return sum([](const Lab<D50>& a, const Lab<D50>& b) { return deltaE2000(a, b); }); }, lcms});
  add({"delta-vector-vs-lcms2", "-", "deltaVector, which gives all twelve derivatives too, against cmsCIE2000DeltaE", 20,
       [sum] { return sum([](const Lab<D50>& a, const Lab<D50>& b) { return length(deltaVector(a, b).u); }); }, lcms});

  std::mt19937 rng(8);
  auto codes = std::make_shared<std::vector<std::uint8_t>>(3 * kPixels);
  for (auto& code : *codes) code = static_cast<std::uint8_t>(rng());
  const CurveTable curve = tabulate(srgbToLinear, 8);
  const auto path = curvesAndMatrix({curve, curve, curve}, rgbToXyzD50(kSrgbPrimaries));
  const auto out = std::make_shared<std::vector<float>>(3 * kPixels);
  const auto profile = std::shared_ptr<void>(cmsCreate_sRGBProfile(), cmsCloseProfile);
  const auto xyz = std::shared_ptr<void>(cmsCreateXYZProfile(), cmsCloseProfile);
  const auto transform = std::shared_ptr<void>(
      cmsCreateTransform(profile.get(), TYPE_RGB_8, xyz.get(), TYPE_XYZ_FLT, INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOCACHE), cmsDeleteTransform);
  add({"srgb-to-xyz-vs-lcms2", "-", "8-bit sRGB of 700 x 700 pixels to XYZ floats, against a float transform of Little CMS", 20,
       [=] {
         path->convert({0, 0, kPixels, Sample::Code8, 3, codes->data()}, 0, kPixels, out->data());
         benchmark::DoNotOptimize(out->data());
         return true;
       },
       [=] {
         cmsDoTransform(transform.get(), codes->data(), out->data(), kPixels);
         benchmark::DoNotOptimize(out->data());
         return true;
       }});
}

}  // namespace huewright::bench
