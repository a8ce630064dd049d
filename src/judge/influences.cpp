#include "judge/influences.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

#include "camera/code_steps.hpp"
#include "colour/adapt.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

// One standard deviation of each cause. All were set on the simulated scenes of tests/support, then checked on fresh seeds
// (tests/figures.sh); none is a published constant.
constexpr double kGreyMeasured = kChartLevel, kGreyAssumed = 0.15;  // relative luminance of the grey patch
constexpr double kGreyTint = 0.007;                          // relative, per sharpened channel: a grey is never quite neutral
constexpr double kBrightness = 0.003, kBrightnessAlone = 0.02;  // relative, per region; without a card in the photo
constexpr double kDriftOneGrey = 0.0015, kDriftTwoGreys = 0.001, kDriftNoGrey = 0.003;  // relative, per sharpened channel and region
constexpr double kDriftPaper = 0.001;                        // the same where paper has shown the light
constexpr double kPaperTint = 0.02;                          // relative, per sharpened channel: paper in place of a grey
constexpr double kFromD65 = 1.5;                             // how that grows per natural log of red over blue from D65, for which a raw file's matrix was made
constexpr double kVeilOwn = 0.0006;                          // of white
constexpr double kVeilElsewhere = 0.05;                      // relative: another place mirrors another part of the room; judgement
constexpr double kContrast = 0.15, kToe = 0.058, kSaturation = 0.115, kTwistDegrees = 4.6;  // rendered files
constexpr double kMatrixRendered = 0.068, kMatrixLinear = 0.045;  // off-diagonal terms in linear sRGB, rows sum to 1

using Shift = std::function<Vec3(const Vec3&)>;  // of corrected XYZ

struct Maker {
  std::span<const Measured> colours;
  bool card_in_photo;
  std::vector<Influence> made{};

  /// The effect of a small change of XYZ on Lab, per colour.
  Vec3 onLab(std::size_t i, const Vec3& delta_xyz) const { return labByXyz(colours[i].xyz) * delta_xyz; }

  std::vector<Vec3> nothing() const { return std::vector<Vec3>(colours.size() + (card_in_photo ? 0 : 1)); }

  /// A cause that moves one colour only.
  void own(Part part, std::size_t i, const Vec3& delta_xyz, Renewal renewal = Renewal::SetUp) {
    if (delta_xyz == Vec3{}) return;
    Influence influence{part, nothing(), renewal};
    influence.on_lab[i] = onLab(i, delta_xyz);
    made.push_back(std::move(influence));
  }

  /// A cause that moves all colours together, by a finite shift of one standard deviation.
  void shared(Part part, const Shift& shift) {
    Influence influence{part, nothing(), Renewal::Never};
    for (std::size_t i = 0; i < colours.size(); ++i) {
      const Vec3 there = shift(toVec(colours[i].xyz));
      influence.on_lab[i] = toVec(toLab(Xyz<D50>{there[0], there[1], there[2]})) - toVec(toLab(colours[i].xyz));
    }
    made.push_back(std::move(influence));
  }
};

Shift inRgb(std::function<Vec3(Vec3)> change) {
  return [change = std::move(change)](const Vec3& xyz) { return kSrgbToXyzD50 * change(kXyzD50ToSrgb * xyz); };
}

double luminance(const Vec3& rgb) { return dot(kSrgbToXyzD50.row[1], rgb); }

/// The three principal shifts of a covariance: columns of its square root.
std::array<Vec3, 3> principal(const Mat3& covariance) {
  const Eigen3 e = eigenSymmetric(covariance);
  std::array<Vec3, 3> out{};
  for (std::size_t k = 0; k < 3; ++k) {
    const double sd = std::sqrt(std::max(0.0, e.values[k]));
    for (std::size_t r = 0; r < 3; ++r) out[k][r] = sd * e.vectors(r, k);
  }
  return out;
}

void addTexture(Maker& maker) {
  for (std::size_t i = 0; i < maker.colours.size(); ++i) {
    const Measured& m = maker.colours[i];
    for (const Vec3& shift : principal(m.correction * m.patch.of_mean * transpose(m.correction))) maker.own(Part::Texture, i, shift, Renewal::Photo);
  }
}

/// What is not known of a grey that was measured, axis by axis: each makes all colours lighter or tints them.
void addKnownGrey(Maker& maker, const KnownGrey& grey, bool level_only) {
  const Vec3 sharp = kBradford * toVec(toXyz(grey.lab));
  for (std::size_t axis = 0; axis < (level_only ? 1U : 3U); ++axis) {
    Vec3 lab = toVec(grey.lab);
    lab[axis] += grey.lab_sd[axis];
    const Vec3 moved = kBradford * toVec(toXyz(Lab<D50>{lab[0], lab[1], lab[2]}));
    const Mat3 by = inverse(kBradford) * Mat3::diagonal({moved[0] / sharp[0], moved[1] / sharp[1], moved[2] / sharp[2]}) * kBradford;
    maker.shared(Part::GreyKept, [=](const Vec3& xyz) { return by * xyz; });
  }
}

void addGrey(Maker& maker, const Light& light, const Circumstances& at) {
  for (std::size_t g = 0; g < light.greys(); ++g)
    for (const Vec3& shift : principal(light.covariance(g))) {
      Influence influence{Part::GreyNoise, maker.nothing(), Renewal::Photo};
      for (std::size_t i = 0; i < maker.colours.size(); ++i) {
        const double share = light.weights(maker.colours[i].patch.centre)[g];
        influence.on_lab[i] = maker.onLab(i, xyzByLogGain(toVec(maker.colours[i].xyz)) * (share * shift));
      }
      maker.made.push_back(std::move(influence));
    }
  if (at.grey) {
    addKnownGrey(maker, *at.grey, at.tint_by_chart);
    if (!at.tint_by_chart) return;
  } else {
    const double level = light.greys() > 0 && at.grey_measured ? kGreyMeasured : kGreyAssumed;  // papers differ as widely
    maker.shared(Part::GreyValue, [=](const Vec3& xyz) { return (1 + level) * xyz; });
  }
  for (std::size_t k = 0; k < 3; ++k)
    maker.shared(Part::GreyTint, [=, &light](const Vec3& xyz) {
      Vec3 shift{};
      shift[k] = light.paperIsGrey() ? kPaperTint : kGreyTint;
      return xyz + xyzByLogGain(xyz) * shift;
    });
}

void addLight(Maker& maker, const Light& light, const Circumstances& at) {
  const bool one = light.greys() == 1, none = light.greys() == 0;
  const double usual = light.map() ? kDriftPaper : none ? kDriftNoGrey : one ? kDriftOneGrey : kDriftTwoGreys;
  const auto at_or = [](const std::vector<double>& list, std::size_t i, double otherwise) { return i < list.size() ? list[i] : otherwise; };
  for (std::size_t i = 0; i < maker.colours.size(); ++i) {
    const Vec3 xyz = toVec(maker.colours[i].xyz);
    maker.own(Part::LightLevel, i, kBrightness * xyz);
    maker.own(Part::LightAngle, i, at_or(at.slopes_sd, i, maker.card_in_photo ? 0.0 : kBrightnessAlone) * xyz);
    maker.own(Part::LightCourse, i, at_or(at.course_sd, i, 0) * xyz);
    maker.own(Part::LightShade, i, at_or(at.shade_sd, i, 0) * xyz);
    const double drift = std::hypot(usual, i < at.slopes_sd.size() ? at.colour_drift : 0.0);  // on the panels, against the card
    for (std::size_t k = 0; k < 3; ++k) {
      Vec3 shift{};
      shift[k] = drift;
      maker.own(Part::LightColour, i, xyzByLogGain(xyz) * shift);
    }
  }
}

void addVeil(Maker& maker, const Circumstances& at) {
  const Vec3 white = kWhite<D50>;
  const std::size_t card = maker.card_in_photo ? maker.colours.size() - 1 : maker.colours.size();
  maker.shared(Part::VeilShared, [=](const Vec3& xyz) { return xyz + at.veil_sd * white; });
  if (maker.card_in_photo && at.card_gloss == Gloss::No) maker.made.back().on_lab[card] = {};  // a matt card mirrors nothing
  for (std::size_t i = 0; i < maker.colours.size(); ++i) {
    // What was seen to be mirrored may differ from place to place; and nobody said whether the card mirrors at all.
    double own = std::hypot(kVeilOwn, kVeilElsewhere * at.veil);
    if (i == card && at.card_gloss == Gloss::Unsure) own = std::hypot(own, 0.5 * at.veil);
    maker.own(Part::VeilPlace, i, own * white);
  }
}

/// Where the camera has brightened and darkened parts of the picture by itself.
void addTone(Maker& maker, const Circumstances& at) {
  if (at.tone_spread <= 0) return;
  for (std::size_t i = 0; i < maker.colours.size(); ++i) maker.own(Part::ToneLocal, i, at.tone_spread * toVec(maker.colours[i].xyz));
}

void addRendering(Maker& maker, const Circumstances& at) {
  if (at.linear) return;
  const double pivot = at.pivot_y;
  const auto tone = [pivot](double contrast, double toe) {
    return inRgb([=](Vec3 rgb) {
      for (double& v : rgb) {
        if (v <= 0) continue;
        const double stops = std::log(v / pivot);
        v *= std::exp(contrast * stops + toe * stops * std::abs(stops));
      }
      return rgb;
    });
  };
  maker.shared(Part::ToneCurve, tone(kContrast, 0));
  maker.shared(Part::ToneCurve, tone(0, kToe));
  maker.shared(Part::ToneColour, inRgb([=](Vec3 rgb) {
                 const double y = luminance(rgb);
                 for (double& v : rgb) v = y + (1 + kSaturation) * (v - y);
                 return rgb;
               }));
  const double angle = kTwistDegrees * std::numbers::pi / 180;
  maker.shared(Part::ToneColour, [=](const Vec3& xyz) {
    const Lab<D50> lab = toLab(Xyz<D50>{xyz[0], xyz[1], xyz[2]});
    const Lab<D50> turned{lab.L, std::cos(angle) * lab.a - std::sin(angle) * lab.b, std::sin(angle) * lab.a + std::cos(angle) * lab.b};
    return toVec(toXyz(turned));
  });
}

/// A JPEG keeps the mean of each block of 8×8 pixels in steps. Where noise or texture moves the means from block to block by a good part of a step, the
/// rounding averages out over a region; where not, all blocks round the same way. Standard deviation over all phases of the error that is left of a mean with a
/// normal spread s: the Fourier series of the sawtooth of rounding, each harmonic damped by the spread, (step ÷ π)² ÷ 2 · Σ exp(−(2πk s ÷ step)²) ÷ k²;
/// without a spread that is step² ÷ 12. Source: Widrow and Kollár, Quantization Noise (2008), chapter 4 (from memory).
double roundingLeft(double step, double spread) {
  constexpr double kUniform = 1 / 12.0;
  const double turns = 2 * std::numbers::pi * spread / step;
  if (turns < 0.02) return step * std::sqrt(kUniform);  // the series converges slowly there
  double sum = 0;
  for (int k = 1; k * turns < 6; ++k) sum += std::exp(-k * turns * k * turns) / (k * k);
  return step / std::numbers::pi * std::sqrt(0.5 * sum);
}

void addRounding(Maker& maker, const Circumstances& at) {
  if (!at.rounding) return;
  const Mat3 to_ycc = inverse(kRgbFromYcc);
  for (std::size_t i = 0; i < maker.colours.size(); ++i) {
    const Measured& m = maker.colours[i];
    const Vec3 by_code = lightPerCode(kXyzD50ToSrgb * toVec(m.patch.mean));
    const Mat3 to_codes = to_ycc * Mat3::diagonal({1 / by_code[0], 1 / by_code[1], 1 / by_code[2]}) * kXyzD50ToSrgb;
    const Mat3 of_mean = to_codes * m.patch.of_mean * transpose(to_codes);
    const double kept = static_cast<double>(m.patch.pixels) * (1 - m.patch.masked);
    for (std::size_t k = 0; k < 3; ++k) {
      const double block = k > 0 && at.subsampled ? 256 : 64;  // pixels
      const double spread = std::sqrt(std::max(0.0, of_mean(k, k)) * std::max(1.0, kept / block));
      Vec3 ycc{};
      ycc[k] = roundingLeft((*at.rounding)[k], spread);
      const Vec3 codes = kRgbFromYcc * ycc;
      maker.own(Part::Rounding, i, m.correction * (kSrgbToXyzD50 * Vec3{codes[0] * by_code[0], codes[1] * by_code[1], codes[2] * by_code[2]}), Renewal::Photo);
    }
  }
}

/// A clipped channel hides how far the colour goes on: the lost part is taken as up to a tenth of the channel at the top, and as a
/// little below black at the bottom (a colour outside the file's gamut).
void addClipping(Maker& maker) {
  constexpr double kTop = 0.10, kBottom = 0.012, kUnseen = 0.005;
  for (std::size_t i = 0; i < maker.colours.size(); ++i) {
    const Measured& m = maker.colours[i];
    const Vec3 xyz = toVec(m.xyz), rgb = kXyzD50ToSrgb * xyz;
    if (m.patch.clipped_top > kUnseen) {
      Vec3 shift{};
      const auto k = static_cast<std::size_t>(std::ranges::max_element(rgb) - rgb.begin());
      shift[k] = std::min(1.0, 2 * m.patch.clipped_top) * kTop * rgb[k];
      maker.own(Part::Clipping, i, kSrgbToXyzD50 * shift);
    }
    if (m.patch.clipped_bottom > kUnseen) {
      Vec3 shift{};
      const auto k = static_cast<std::size_t>(std::ranges::min_element(rgb) - rgb.begin());
      shift[k] = std::min(1.0, 2 * m.patch.clipped_bottom) * kBottom;
      maker.own(Part::Clipping, i, kSrgbToXyzD50 * shift);
    }
  }
}

void addCamera(Maker& maker, const Circumstances& at) {
  const double size = (at.linear ? kMatrixLinear : kMatrixRendered) * (1 + kFromD65 * std::abs(at.from_d65));
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c)
      if (r != c)
        maker.shared(Part::Matrix, inRgb([=](Vec3 rgb) {
                       rgb[r] += size * (rgb[c] - rgb[r]);
                       return rgb;
                     }));
}

/// What a chart's profile leaves unknown, in the same order for every colour.
void addProfile(Maker& maker, const Circumstances& at) {
  std::vector<std::vector<Vec3>> shifts;
  for (const Vec3& device : at.devices) shifts.push_back(at.map->shifts(device, at.gain));
  for (std::size_t s = 0; !shifts.empty() && s < shifts.front().size(); ++s) {
    Influence influence{s < at.map->unsure.size() ? Part::ProfileFit : Part::ProfileMisfit, maker.nothing(), Renewal::Never};
    for (std::size_t i = 0; i < maker.colours.size(); ++i) influence.on_lab[i] = shifts[i][s];
    maker.made.push_back(std::move(influence));
  }
}

}  // namespace

std::vector<Influence> influences(std::span<const Measured> colours, bool card_in_photo, const Light& light, const Circumstances& at) {
  Maker maker{colours, card_in_photo};
  addTexture(maker);
  addGrey(maker, light, at);
  addLight(maker, light, at);
  addVeil(maker, at);
  addTone(maker, at);
  if (at.map) {
    addProfile(maker, at);
  } else {
    addRendering(maker, at);
    addCamera(maker, at);
  }
  addRounding(maker, at);
  addClipping(maker);
  return std::move(maker.made);
}

}  // namespace huewright
