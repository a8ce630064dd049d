#include "mix/known_tints.hpp"

#include <fmt/format.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "mix/prediction.hpp"

namespace huewright {
namespace {

using TintJson = nlohmann::ordered_json;
using TintSquare = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

struct TintMistake {
  std::string sentence;
};

double finiteIn(const TintJson& json, const std::string& what, double low, double high) {
  if (!json.is_number()) throw TintMistake{what + " is not a number"};
  const double v = json.get<double>();
  if (!(v >= low && v <= high)) throw TintMistake{what + " is outside what a tint can have"};
  return v;
}

Vec3 threeIn(const TintJson& json, const std::string& what, double low, double high) {
  if (!json.is_array() || json.size() != 3) throw TintMistake{what + " is not three numbers"};
  return {finiteIn(json[0], what, low, high), finiteIn(json[1], what, low, high), finiteIn(json[2], what, low, high)};
}

std::vector<double> squareIn(const TintJson& rows, std::size_t size, const std::string& what) {
  const std::string not_square = fmt::format("{} is not {} rows of {} numbers", what, size, size);
  if (!rows.is_array() || rows.size() != size) throw TintMistake{not_square};
  std::vector<double> square;
  for (const TintJson& row : rows) {
    if (!row.is_array() || row.size() != size) throw TintMistake{not_square};
    for (const TintJson& value : row) square.push_back(finiteIn(value, what, -1e6, 1e6));
  }
  return square;
}

KnownTint tintIn(const TintJson& json) {
  if (!json.is_object() || !json.contains("name") || !json["name"].is_string()) throw TintMistake{"a tint in it has no name"};
  KnownTint tint;
  tint.name = json["name"].get<std::string>();
  const std::string of = " of \"" + tint.name + "\"";
  for (const char* field : {"k", "beta", "covariance"})
    if (!json.contains(field)) throw TintMistake{std::string(field) + of + " is missing"};
  tint.fitted.mean.k = threeIn(json["k"], "k" + of, 1e-6, 1e4);
  tint.fitted.mean.beta = threeIn(json["beta"], "beta" + of, 0, 100);
  tint.fitted.covariance = squareIn(json["covariance"], kTintUnknowns, "the covariance" + of);
  const TintSquare covariance = Eigen::Map<const TintSquare>(tint.fitted.covariance.data(), kTintUnknowns, kTintUnknowns);
  if ((covariance - covariance.transpose()).cwiseAbs().maxCoeff() > 1e-6 || Eigen::SelfAdjointEigenSolver<TintSquare>(covariance).eigenvalues().minCoeff() < 0)
    throw TintMistake{"the covariance" + of + " is none: it must be symmetric and without negative variances"};
  return tint;
}

/// The 6 × 6 block of two tints in a covariance of several.
TintSquare blockOf(const std::vector<double>& covariance, std::size_t a, std::size_t b) {
  constexpr auto kOne = static_cast<Eigen::Index>(kTintUnknowns);
  const auto size = static_cast<Eigen::Index>(std::lround(std::sqrt(static_cast<double>(covariance.size()))));
  return Eigen::Map<const TintSquare>(covariance.data(), size, size).block(kOne * static_cast<Eigen::Index>(a), kOne * static_cast<Eigen::Index>(b), kOne, kOne);
}

/// In: the file's tints, read already, and the groups before this one.
TintsTogether togetherIn(const TintJson& json, const TintFile& file) {
  if (!json.is_object() || !json.contains("tints") || !json["tints"].is_array() || json["tints"].size() < 2) throw TintMistake{"a group of \"together\" does not name two tints or more"};
  TintsTogether group;
  std::string what = "the covariance together of";
  for (const TintJson& one : json["tints"]) {
    if (!one.is_string()) throw TintMistake{"a group of \"together\" does not name its tints in quotes"};
    const std::string name = one.get<std::string>();
    if (std::ranges::find(file.tints, name, &KnownTint::name) == file.tints.end()) throw TintMistake{"\"together\" names \"" + name + "\", which is none of its tints"};
    const auto holdsName = [&](const TintsTogether& other) { return std::ranges::find(other.names, name) != other.names.end(); };
    if (holdsName(group) || std::ranges::any_of(file.together, holdsName)) throw TintMistake{"\"together\" names \"" + name + "\" twice"};
    what += (group.names.empty() ? " \"" : ", \"") + name + "\"";
    group.names.push_back(name);
  }
  if (!json.contains("covariance")) throw TintMistake{what + " is missing"};
  group.covariance = squareIn(json["covariance"], kTintUnknowns * group.names.size(), what);
  const auto size = static_cast<Eigen::Index>(kTintUnknowns * group.names.size());
  const TintSquare covariance = Eigen::Map<const TintSquare>(group.covariance.data(), size, size);
  if ((covariance - covariance.transpose()).cwiseAbs().maxCoeff() > 1e-6) throw TintMistake{what + " is not symmetric"};
  const std::string not_positive = what + " is not positive definite: no errors can go together like that";
  if (!(covariance.diagonal().minCoeff() > 0)) throw TintMistake{not_positive};
  // Judged without regard to the unknowns' units.
  const Eigen::VectorXd scale = covariance.diagonal().cwiseSqrt().cwiseInverse();
  if (!(Eigen::SelfAdjointEigenSolver<TintSquare>(scale.asDiagonal() * covariance * scale.asDiagonal()).eigenvalues().minCoeff() > 1e-12)) throw TintMistake{not_positive};
  for (std::size_t t = 0; t < group.names.size(); ++t) {
    const TintSquare own = blockOf(std::ranges::find(file.tints, group.names[t], &KnownTint::name)->fitted.covariance, 0, 0);
    const Eigen::VectorXd sd = own.diagonal().cwiseSqrt();
    if (((blockOf(group.covariance, t, t) - own).array().abs() > 1e-6 * (sd * sd.transpose()).array() + 1e-12).any())
      throw TintMistake{what + " does not agree with the covariance of \"" + group.names[t] + "\" alone"};
  }
  return group;
}

double nineDigits(double v) {
  if (v == 0 || !std::isfinite(v)) return 0;
  const double scale = std::pow(10.0, 8 - std::floor(std::log10(std::abs(v))));
  return std::round(v * scale) / scale;
}

TintJson threeOut(const Vec3& v) { return TintJson::array({nineDigits(v[0]), nineDigits(v[1]), nineDigits(v[2])}); }

TintJson squareOut(const std::vector<double>& square, std::size_t size) {
  TintJson rows = TintJson::array();
  for (std::size_t r = 0; r < size; ++r) {
    TintJson row = TintJson::array();
    for (std::size_t c = 0; c < size; ++c) row.push_back(nineDigits(square[r * size + c]));
    rows.push_back(row);
  }
  return rows;
}

}  // namespace

Result<TintFile> readTintFile(std::string_view bytes) {
  try {
    const TintJson json = TintJson::parse(bytes);
    if (!json.is_object() || !json.contains("tints") || !json["tints"].is_array()) throw TintMistake{"it has no list of tints"};
    if (!json.contains("format") || json["format"] != 1) throw TintMistake{"its format is not 1"};
    TintFile file;
    for (const TintJson& one : json["tints"]) {
      file.tints.push_back(tintIn(one));
      const auto same = std::ranges::count(file.tints, file.tints.back().name, &KnownTint::name);
      if (same > 1) throw TintMistake{"two tints in it are called \"" + file.tints.back().name + "\""};
    }
    if (json.contains("together")) {
      if (!json["together"].is_array()) throw TintMistake{"\"together\" is not a list of groups of tints"};
      for (const TintJson& one : json["together"]) file.together.push_back(togetherIn(one, file));
    }
    if (json.contains("film_sd")) file.film_sd = finiteIn(json["film_sd"], "film_sd", 0.001, 1);
    if (json.contains("ground") && !json["ground"].is_null()) {
      const Vec3 lab = threeIn(json["ground"], "the ground", -200, 200);
      file.ground = Lab<D50>{lab[0], lab[1], lab[2]};
    }
    if (json.contains("film_weight")) file.film_weight = finiteIn(json["film_weight"], "film_weight", 0, 1e5);
    return file;
  } catch (const TintMistake& m) {
    return fail(Code::TintFileUnusable, m.sentence);
  } catch (const TintJson::exception&) {
    return fail(Code::TintFileUnusable, "it is not JSON");
  }
}

std::string tintFileJson(const TintFile& file) {
  TintJson json;
  json["format"] = 1;
  json["film_sd"] = nineDigits(file.film_sd);
  json["film_weight"] = nineDigits(file.film_weight);
  json["ground"] = file.ground ? threeOut(toVec(*file.ground)) : TintJson(nullptr);
  json["tints"] = TintJson::array();
  for (const KnownTint& tint : file.tints)
    json["tints"].push_back({{"name", tint.name}, {"k", threeOut(tint.fitted.mean.k)}, {"beta", threeOut(tint.fitted.mean.beta)},
                             {"covariance", squareOut(tint.fitted.covariance, kTintUnknowns)}});
  for (const TintsTogether& group : file.together)
    json["together"].push_back({{"tints", group.names}, {"covariance", squareOut(group.covariance, kTintUnknowns * group.names.size())}});
  return json.dump(2, ' ', false, TintJson::error_handler_t::replace) + "\n";
}

TintFile tintFileOf(const TintFit& fit, const std::vector<std::string>& names, const std::optional<Lab<D50>>& ground) {
  TintFile file;
  file.ground = ground;
  file.film_sd = fit.film_sd;
  file.film_weight = 10 + static_cast<double>(fit.pieces >= kFilmLearns ? fit.pieces : 0);
  const std::size_t own = kTintUnknowns * fit.tints.size();
  for (std::size_t t = 0; t < fit.tints.size(); ++t) {
    KnownTint tint{names[t], {fit.tints[t], {}}};
    for (std::size_t a = 0; a < kTintUnknowns; ++a)
      for (std::size_t b = 0; b < kTintUnknowns; ++b) tint.fitted.covariance.push_back(fit.covariance[(kTintUnknowns * t + a) * own + kTintUnknowns * t + b]);
    file.tints.push_back(std::move(tint));
  }
  if (fit.tints.size() > 1) file.together.push_back({names, fit.covariance});
  return file;
}

TintPrior priorOf(const KnownTint& tint, double strange) {
  TintPrior prior = tint.fitted;
  for (std::size_t i = 0; i < kTintUnknowns; ++i) prior.covariance[i * kTintUnknowns + i] += kSeenAgain * kSeenAgain;
  for (std::size_t a = 0; a < 3; ++a)
    for (std::size_t b = 0; b < 3; ++b) prior.covariance[a * kTintUnknowns + b] += strange * strange * kOtherGround * kOtherGround;
  return prior;
}

std::vector<double> jointPrior(const TintFile& file, std::span<const std::size_t> tints, double strange) {
  constexpr auto kOne = static_cast<Eigen::Index>(kTintUnknowns);
  const auto size = kOne * static_cast<Eigen::Index>(tints.size());
  TintSquare joint = TintSquare::Zero(size, size);
  const auto placeIn = [](const TintsTogether& group, const std::string& name) { return static_cast<std::size_t>(std::ranges::find(group.names, name) - group.names.begin()); };
  for (std::size_t a = 0; a < tints.size(); ++a)
    for (std::size_t b = 0; b < tints.size(); ++b) {
      auto block = joint.block(kOne * static_cast<Eigen::Index>(a), kOne * static_cast<Eigen::Index>(b), kOne, kOne);
      if (a == b) {
        block = blockOf(priorOf(file.tints[tints[a]], strange).covariance, 0, 0);
        continue;
      }
      block.topLeftCorner(3, 3).setConstant(strange * strange * kOtherGround * kOtherGround);
      for (const TintsTogether& group : file.together) {
        const std::size_t at = placeIn(group, file.tints[tints[a]].name), by = placeIn(group, file.tints[tints[b]].name);
        if (at < group.names.size() && by < group.names.size() && at != by) block += blockOf(group.covariance, at, by);
      }
    }
  return {joint.data(), joint.data() + joint.size()};
}

double strangeGround(const TintFile& file, const Lab<D50>& ground) { return file.ground ? strangeBetween(*file.ground, ground) : 0; }

}  // namespace huewright
