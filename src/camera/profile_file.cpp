#include "camera/profile_file.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <set>
#include <utility>

#include "photo/write.hpp"

namespace huewright {
namespace {

using Json = nlohmann::ordered_json;

constexpr int kFormat = 1;
constexpr std::string_view kWhat = "huewright camera profile";
constexpr std::size_t kMostBytes = 1 << 20;
constexpr double kMostNumber = 1e9;  // beyond, products could overflow
constexpr std::size_t kMostShifts = 64, kMostName = 200, kMostKnots = 64;

constexpr std::pair<std::string_view, DeviceKind> kDevices[] = {{"linear-srgb", DeviceKind::LinearSrgb}, {"camera-rgb", DeviceKind::CameraRgb}};
constexpr std::pair<std::string_view, RampCurve::Before> kBefores[] = {
    {"nothing", RampCurve::Before::Nothing}, {"undo-srgb", RampCurve::Before::UndoSrgb}, {"apply-srgb", RampCurve::Before::ApplySrgb}};

template <class Table, class Value>
std::string wordFor(const Table& table, Value value) {
  for (const auto& [word, v] : table)
    if (v == value) return std::string(word);
  return {};
}

Json rows(const XyzByTerm& m) { return Json::array({m[0], m[1], m[2]}); }

/// What stands in the way, thrown only within this file.
struct Refusal {
  std::string sentence;
};
[[noreturn]] void refuseFile(std::string sentence) { throw Refusal{std::move(sentence)}; }

/// One object of the file: fields are taken one after the other, and none may be left.
class Fields {
 public:
  Fields(const Json& json, std::string name) : json_(json), name_(std::move(name)) {
    if (!json.is_object()) refuseFile(name_ + " is not an object");
  }

  const Json& take(const std::string& field) {
    const auto at = json_.find(field);
    if (at == json_.end()) refuseFile("\"" + field + "\" is missing");
    taken_.insert(field);
    return *at;
  }

  void done() const {
    for (const auto& [field, value] : json_.items())
      if (!taken_.contains(field)) refuseFile("\"" + field + "\" does not belong there");
  }

 private:
  const Json& json_;
  std::string name_;
  std::set<std::string> taken_;
};

double numberField(const Json& j, const std::string& name, double low = -kMostNumber, double high = kMostNumber) {
  if (!j.is_number()) refuseFile("\"" + name + "\" is not a number");
  const double v = j.get<double>();
  if (!std::isfinite(v) || v < low || v > high) refuseFile("\"" + name + "\" is out of range");
  return v;
}

template <std::size_t N>
std::array<double, N> numbers(const Json& j, const std::string& name, double low = -kMostNumber) {
  if (!j.is_array() || j.size() != N) refuseFile("\"" + name + "\" does not hold " + std::to_string(N) + " numbers");
  std::array<double, N> out{};
  for (std::size_t i = 0; i < N; ++i) out[i] = numberField(j[i], name, low);
  return out;
}

template <std::size_t R, std::size_t C>
std::array<std::array<double, C>, R> table(const Json& j, const std::string& name) {
  if (!j.is_array() || j.size() != R) refuseFile("\"" + name + "\" does not hold " + std::to_string(R) + " rows");
  std::array<std::array<double, C>, R> out{};
  for (std::size_t r = 0; r < R; ++r) out[r] = numbers<C>(j[r], name);
  return out;
}

std::string word(const Json& j, const std::string& name) {
  if (!j.is_string()) refuseFile("\"" + name + "\" is not text");
  return j.get<std::string>();
}

template <class Table>
auto choice(const Table& table, const Json& j, const std::string& name) {
  const std::string text = word(j, name);
  for (const auto& [known, value] : table)
    if (known == text) return value;
  refuseFile("\"" + name + "\" holds a word that is not known");
}

/// The whole text as JSON, refused where an object names a field twice.
Json parsed(std::string_view text) {
  std::vector<std::set<std::string>> open;
  const auto watch = [&](int, Json::parse_event_t event, Json& value) {
    if (event == Json::parse_event_t::object_start) open.emplace_back();
    if (event == Json::parse_event_t::object_end && !open.empty()) open.pop_back();
    if (event == Json::parse_event_t::key && !open.empty() && !open.back().insert(value.get<std::string>()).second)
      refuseFile("\"" + value.get<std::string>() + "\" stands there twice");
    return true;
  };
  try {
    return Json::parse(text, watch);
  } catch (const Json::exception&) {
    refuseFile("it is not JSON");
  }
}

RampCurve curveOf(const Json& json) {
  Fields f(json, "\"curve\"");
  RampCurve c;
  c.before = choice(kBefores, f.take("before"), "before");
  c.pivot = numberField(f.take("pivot"), "pivot", 1e-9);
  c.slope = numberField(f.take("slope"), "slope", -100, 100);
  c.bend = numberField(f.take("bend"), "bend", -100, 100);
  c.twist = numberField(f.take("twist"), "twist", -100, 100);
  c.low = numberField(f.take("low"), "low", 1e-9);
  c.high = numberField(f.take("high"), "high", 1e-9, 1e3);
  const Json& knots = f.take("knots");
  if (!knots.is_array() || knots.size() > kMostKnots) refuseFile("\"knots\" is not a short list");
  for (const Json& knot : knots) {
    const auto [t, more, slope] = numbers<3>(knot, "knots");
    c.knots.push_back({t, more, slope});
    if (std::max({std::abs(t), std::abs(more), std::abs(slope)}) > 100) refuseFile("\"knots\" is out of range");
  }
  f.done();
  if (!c.isMonotone()) refuseFile("its tone curve falls");
  return c;
}

CameraProfile profileOf(std::string_view text) {
  const Json json = parsed(text);
  Fields f(json, "it");
  // The version first: another one may have other fields.
  const Json& format = f.take("format");
  if (!format.is_number_integer() || format.get<std::int64_t>() != kFormat) refuseFile("its format is another than " + std::to_string(kFormat));
  if (word(f.take("what"), "what") != kWhat) refuseFile("it holds something else");
  ColourMap m;
  m.device = choice(kDevices, f.take("device"), "device");
  m.camera = word(f.take("camera"), "camera");
  if (m.camera.size() > kMostName) refuseFile("\"camera\" is too long");
  const double loo = numberField(f.take("loo_de00"), "loo_de00", 0, 1000);
  m.curve = curveOf(f.take("curve"));
  m.veil = numbers<3>(f.take("veil"), "veil", 0);
  m.balance = numbers<3>(f.take("balance"), "balance", 1e-9);
  m.matrix.row = table<3, 3>(f.take("matrix"), "matrix");
  m.terms = table<3, kTerms>(f.take("terms"), "terms");
  const Json& unsure = f.take("unsure");
  if (!unsure.is_array() || unsure.size() > kMostShifts) refuseFile("\"unsure\" is not a list of at most " + std::to_string(kMostShifts) + " shifts");
  for (const Json& shift : unsure) m.unsure.push_back(table<3, kTerms>(shift, "unsure"));
  m.misfit = numberField(f.take("misfit"), "misfit", 0, 1000);
  m.misfit_reach = numberField(f.take("misfit_reach"), "misfit_reach", 1e-3);
  m.span = table<kTerms, kTerms>(f.take("span"), "span");
  m.largest_leverage = numberField(f.take("largest_leverage"), "largest_leverage", 1e-12);
  f.done();
  return {ProfileKind::File, loo, std::move(m)};
}

}  // namespace

std::string profileText(const CameraProfile& profile) {
  const ColourMap& m = *profile.map;
  Json unsure = Json::array();
  for (const XyzByTerm& shift : m.unsure) unsure.push_back(rows(shift));
  Json knots = Json::array();
  for (const RampCurve::Knot& k : m.curve.knots) knots.push_back({k.t, k.more, k.slope});
  const Json json{{"format", kFormat},
                  {"what", kWhat},
                  {"device", wordFor(kDevices, m.device)},
                  {"camera", m.camera.substr(0, kMostName)},
                  {"loo_de00", profile.loo_de00.value_or(0)},
                  {"curve",
                   {{"before", wordFor(kBefores, m.curve.before)},
                    {"pivot", m.curve.pivot},
                    {"slope", m.curve.slope},
                    {"bend", m.curve.bend},
                    {"twist", m.curve.twist},
                    {"low", m.curve.low},
                    {"high", m.curve.high},
                    {"knots", knots}}},
                  {"veil", m.veil},
                  {"balance", m.balance},
                  {"matrix", Json::array({m.matrix.row[0], m.matrix.row[1], m.matrix.row[2]})},
                  {"terms", rows(m.terms)},
                  {"unsure", unsure},
                  {"misfit", m.misfit},
                  {"misfit_reach", m.misfit_reach},
                  {"span", m.span},
                  {"largest_leverage", m.largest_leverage}};
  return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::expected<CameraProfile, std::string> parseProfile(std::string_view text) {
  if (text.size() > kMostBytes) return std::unexpected("The camera profile cannot be used: it is larger than 1 MB. Make the profile again.");
  try {
    return profileOf(text);
  } catch (const Refusal& r) {
    return std::unexpected("The camera profile cannot be used: " + r.sentence + ". Make the profile again.");
  }
}

Result<void> writeProfile(const CameraProfile& profile, const std::filesystem::path& path) { return writeWhole(path, profileText(profile)); }

std::expected<CameraProfile, std::string> readProfileFile(const std::filesystem::path& path) {
  std::error_code error;
  const std::string name = "\"" + path.string() + "\"";
  if (!std::filesystem::is_regular_file(path, error))
    return std::unexpected("There is no camera profile " + name + ". Check the name and the folder.");
  std::ifstream file(path, std::ios::binary);
  std::string text(kMostBytes + 1, '\0');
  file.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (file.bad() || !file.is_open()) return std::unexpected("The camera profile " + name + " cannot be opened for reading. Check its permissions.");
  text.resize(static_cast<std::size_t>(file.gcount()));
  return parseProfile(text);
}

}  // namespace huewright
