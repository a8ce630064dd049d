// Photographs of one real chart, whose colours are published, read as judge reads panels: five angles, a phone, indoor daylight, JPEG. They are not part
// of the project; where they are absent the tests say so and are skipped.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <filesystem>
#include <gtest/gtest.h>

#include "colour/cgats.hpp"
#include "colour/delta_e.hpp"
#include "judge/verdict.hpp"
#include "session/chart.hpp"
#include "support/calib.hpp"

namespace huewright {
namespace {

using fixtures::publishedChart;

const std::filesystem::path kSourceRoot = HUEWRIGHT_SOURCE_DIR, kPhotos = kSourceRoot / "../shared/photos";
constexpr std::size_t kCharts = 5, kPatches = 24, kCardPatch = 20, kGreyPatch = 21;  // neutral 6.5 and 5
constexpr double kNear = 15;  // ΔE00

struct Shown {
  Photo photo;
  ChartReading chart;
  ProfileFit fit;
};

std::vector<Shown>& shown() {
  static std::vector<Shown> all;
  for (std::size_t i = 1; i <= kCharts && all.size() < kCharts; ++i) {
    auto photo = Photo::open(kPhotos / ("chart-0" + std::to_string(i) + ".jpg")).value();
    std::vector<Caution> cautions;
    auto chart = chartIn(photo, {}, ChartUse::Here, {}, publishedChart(), cautions).value().value();
    const std::vector<std::vector<FitPatch>> patches{fitPatches(chart, deviceKind(photo.facts()))};
    auto fit = fitProfile(patches, {deviceKind(photo.facts()), photo.facts().camera}).value();
    all.push_back(Shown{std::move(photo), std::move(chart), std::move(fit)});
  }
  return all;
}

double middle(std::vector<double> values) {
  std::ranges::sort(values);
  return 0.5 * (values[(values.size() - 1) / 2] + values[values.size() / 2]);
}

double wanted(std::size_t a, std::size_t b) { return deltaE2000(publishedChart().patches[a].lab, publishedChart().patches[b].lab); }

CameraProfile profileOf(const Shown& from, bool own) {
  CameraProfile profile = from.fit.profile;
  profile.kind = own ? ProfileKind::Chart : ProfileKind::File;
  return profile;
}

/// Of the grey patch one half is the grey, the other a panel.
Quad half(const Quad& q, bool second) {
  const auto& [a, b, c, d] = q.corners;
  const Point ab{0.5 * (a.x + b.x), 0.5 * (a.y + b.y)}, dc{0.5 * (d.x + c.x), 0.5 * (d.y + c.y)};
  return second ? Quad{{{ab, b, c, dc}}} : Quad{{{a, ab, dc, d}}};
}

Quad placeOf(const Shown& of, std::size_t i) { return i == kGreyPatch ? half(of.chart.samples[i].quad, true) : of.chart.samples[i].quad; }

Reading readingOf(Shown& of, const std::vector<std::size_t>& panels, std::size_t card, const CameraProfile& profile) {
  Regions regions;
  for (const std::size_t i : panels) regions.panels.push_back(placeOf(of, i));
  regions.card = placeOf(of, card);
  regions.greys = {half(of.chart.samples[kGreyPatch].quad, false)};
  Limits limits;
  limits.panels = kPatches;
  const auto scene = arrange(regions, of.photo.size(), limits).value();
  return measure(of.photo, scene, profile, {toXyz(publishedChart().patches[kGreyPatch].lab).Y, {}}).value();
}

/// All patches; the grey's own place is that of its other half.
std::vector<Lab<D50>> read(Shown& of, const CameraProfile& profile) {
  std::vector<std::size_t> panels;
  for (std::size_t i = 0; i < kPatches; ++i)
    if (i != kCardPatch) panels.push_back(i);
  const Reading reading = readingOf(of, panels, kCardPatch, profile);
  std::vector<Lab<D50>> labs(kPatches, reading.card.lab);
  for (std::size_t k = 0; k < panels.size(); ++k) labs[panels[k]] = reading.panels[k].lab;
  return labs;
}

TEST(RealCharts, ThroughTheirOwnProfilePatchesAreAsPublished) {
  if (!std::filesystem::is_directory(kPhotos)) GTEST_SKIP() << "skipped: no ../shared";
  for (const Shown& s : shown()) {
    std::vector<double> off;
    for (const FittedPatch& p : s.fit.patches) off.push_back(p.de00);
    std::printf("%s: median %.2f\n", s.photo.facts().path.filename().c_str(), middle(off));
    EXPECT_LE(middle(off), 2.0) << s.photo.facts().path;
  }
}

/// Through another's profile, brought to the photo by its grey, with nothing else evened out.
TEST(RealCharts, EachOthersProfilesHoldOnceTheGreyIsMatched) {
  if (!std::filesystem::is_directory(kPhotos)) GTEST_SKIP() << "skipped: no ../shared";
  const auto& all = shown();
  std::vector<double> off, apart;
  for (const Shown& to : all)
    for (const Shown& from : all) {
      if (&to == &from) continue;
      const ColourMap& map = *from.fit.profile.map;
      const auto patches = fitPatches(to.chart, deviceKind(to.photo.facts()));
      const Vec3 gain = map.gainFor(patches[kGreyPatch].device, toXyz(publishedChart().patches[kGreyPatch].lab).Y);
      std::vector<Lab<D50>> labs;
      for (const FitPatch& p : patches) labs.push_back(toLab(map.apply(p.device, gain)));
      for (std::size_t i = 0; i < kPatches; ++i) {
        off.push_back(deltaE2000(labs[i], publishedChart().patches[i].lab));
        for (std::size_t j = 0; j < i; ++j)
          if (wanted(i, j) < kNear) apart.push_back(std::abs(deltaE2000(labs[i], labs[j]) - wanted(i, j)));
      }
    }
  std::printf("patches %.2f, near pairs %.2f\n", middle(off), middle(apart));
  EXPECT_LE(middle(off), 3.3);
  EXPECT_LE(middle(apart), 1.5);
}

TEST(RealCharts, ThroughEachOthersProfilesNearPatchesDifferAsPublished) {
  if (!std::filesystem::is_directory(kPhotos)) GTEST_SKIP() << "skipped: no ../shared";
  auto& all = shown();
  std::vector<double> off, apart;
  for (std::size_t to = 0; to < kCharts; ++to)
    for (std::size_t from = 0; from < kCharts; ++from) {
      if (from == to) continue;
      const auto labs = read(all[to], profileOf(all[from], false));
      std::vector<double> off_here, apart_here;
      for (std::size_t i = 0; i < kPatches; ++i) {
        off_here.push_back(deltaE2000(labs[i], publishedChart().patches[i].lab));
        for (std::size_t j = 0; j < i; ++j)
          if (wanted(i, j) < kNear) apart_here.push_back(std::abs(deltaE2000(labs[i], labs[j]) - wanted(i, j)));
      }
      std::printf("photo %zu by %zu: patches %.2f, near pairs %.2f\n", to + 1, from + 1, middle(off_here), middle(apart_here));
      EXPECT_LE(middle(off_here), 5.5) << to << from;
      EXPECT_LE(middle(apart_here), 3.0) << to << from;
      off.insert(off.end(), off_here.begin(), off_here.end());
      apart.insert(apart.end(), apart_here.begin(), apart_here.end());
    }
  std::printf("patches %.2f, near pairs %.2f\n", middle(off), middle(apart));
  EXPECT_LE(middle(off), 3.3);
  EXPECT_LE(middle(apart), 1.5);
}

TEST(RealCharts, IntervalsHoldWhatIsPublished) {
  if (!std::filesystem::is_directory(kPhotos)) GTEST_SKIP() << "skipped: no ../shared";
  const Standards standards = readStandards(kSourceRoot / "calib").value();
  auto& all = shown();
  enum : std::size_t { Own, Others, None };
  std::array<int, 3> within{}, pairs{};
  for (std::size_t to = 0; to < kCharts; ++to)
    for (std::size_t i = 0; i < kPatches; ++i)
      for (std::size_t j = 0; j < i; ++j) {
        if (wanted(i, j) >= kNear) continue;
        const auto count = [&](std::size_t kind, const CameraProfile& profile) {
          const Verdict v = compare(readingOf(all[to], {i}, j, profile), 0, "the panel", standards, {1.0, CardKind::Other});
          ++pairs[kind];
          if (wanted(i, j) >= v.low && wanted(i, j) <= v.high) ++within[kind];
        };
        count(None, {});
        for (std::size_t from = 0; from < kCharts; ++from) count(from == to ? Own : Others, profileOf(all[from], from == to));
      }
  const auto share = [&](std::size_t kind) { return static_cast<double>(within[kind]) / pairs[kind]; };
  std::printf("within the interval: own chart %.3f of %d, another's profile %.3f of %d, none %.3f of %d\n", share(Own), pairs[Own], share(Others), pairs[Others],
              share(None), pairs[None]);
  for (const std::size_t kind : {Own, Others, None}) EXPECT_GE(share(kind), 0.9) << kind;
}

}  // namespace
}  // namespace huewright
