#include "mix/known_tints.hpp"

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

KnownTint tintIn(const TintJson& json) {
  if (!json.is_object() || !json.contains("name") || !json["name"].is_string()) throw TintMistake{"a tint in it has no name"};
  KnownTint tint;
  tint.name = json["name"].get<std::string>();
  const std::string of = " of \"" + tint.name + "\"";
  for (const char* field : {"k", "beta", "covariance"})
    if (!json.contains(field)) throw TintMistake{std::string(field) + of + " is missing"};
  tint.fitted.mean.k = threeIn(json["k"], "k" + of, 1e-6, 1e4);
  tint.fitted.mean.beta = threeIn(json["beta"], "beta" + of, 0, 100);
  const TintJson& rows = json["covariance"];
  if (!rows.is_array() || rows.size() != kTintUnknowns) throw TintMistake{"the covariance" + of + " is not 6 rows of 6 numbers"};
  for (const TintJson& row : rows) {
    if (!row.is_array() || row.size() != kTintUnknowns) throw TintMistake{"the covariance" + of + " is not 6 rows of 6 numbers"};
    for (const TintJson& value : row) tint.fitted.covariance.push_back(finiteIn(value, "the covariance" + of, -1e6, 1e6));
  }
  const TintSquare covariance = Eigen::Map<const TintSquare>(tint.fitted.covariance.data(), kTintUnknowns, kTintUnknowns);
  if ((covariance - covariance.transpose()).cwiseAbs().maxCoeff() > 1e-6 || Eigen::SelfAdjointEigenSolver<TintSquare>(covariance).eigenvalues().minCoeff() < 0)
    throw TintMistake{"the covariance" + of + " is none: it must be symmetric and without negative variances"};
  return tint;
}

double nineDigits(double v) {
  if (v == 0 || !std::isfinite(v)) return 0;
  const double scale = std::pow(10.0, 8 - std::floor(std::log10(std::abs(v))));
  return std::round(v * scale) / scale;
}

TintJson threeOut(const Vec3& v) { return TintJson::array({nineDigits(v[0]), nineDigits(v[1]), nineDigits(v[2])}); }

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
  for (const KnownTint& tint : file.tints) {
    TintJson rows = TintJson::array();
    for (std::size_t r = 0; r < kTintUnknowns; ++r) {
      TintJson row = TintJson::array();
      for (std::size_t c = 0; c < kTintUnknowns; ++c) row.push_back(nineDigits(tint.fitted.covariance[r * kTintUnknowns + c]));
      rows.push_back(row);
    }
    json["tints"].push_back({{"name", tint.name}, {"k", threeOut(tint.fitted.mean.k)}, {"beta", threeOut(tint.fitted.mean.beta)}, {"covariance", rows}});
  }
  return json.dump(2, ' ', false, TintJson::error_handler_t::replace) + "\n";
}

TintFile tintFileOf(const TintFit& fit, const std::vector<std::string>& names, std::size_t panels, const std::optional<Lab<D50>>& ground) {
  TintFile file;
  file.ground = ground;
  file.film_sd = fit.film_sd;
  file.film_weight = 10 + static_cast<double>(panels >= kFilmLearns ? panels : 0);
  const std::size_t own = kTintUnknowns * fit.tints.size();
  for (std::size_t t = 0; t < fit.tints.size(); ++t) {
    KnownTint tint{names[t], {fit.tints[t], {}}};
    for (std::size_t a = 0; a < kTintUnknowns; ++a)
      for (std::size_t b = 0; b < kTintUnknowns; ++b) tint.fitted.covariance.push_back(fit.covariance[(kTintUnknowns * t + a) * own + kTintUnknowns * t + b]);
    file.tints.push_back(std::move(tint));
  }
  return file;
}

TintPrior priorOf(const KnownTint& tint, double strange) {
  TintPrior prior = tint.fitted;
  for (std::size_t i = 0; i < kTintUnknowns; ++i) prior.covariance[i * kTintUnknowns + i] += kSeenAgain * kSeenAgain;
  for (std::size_t a = 0; a < 3; ++a)
    for (std::size_t b = 0; b < 3; ++b) prior.covariance[a * kTintUnknowns + b] += strange * strange * kOtherGround * kOtherGround;
  return prior;
}

double strangeGround(const TintFile& file, const Lab<D50>& ground) { return file.ground ? strangeBetween(*file.ground, ground) : 0; }

}  // namespace huewright
