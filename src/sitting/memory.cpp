#include "sitting/memory.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

#include "session/series_text.hpp"

namespace huewright {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::array<const char*, 3> kEncodingWords{"auto", "linear", "srgb"};

struct NotAsWritten {};

template <class T>
Json orNull(const std::optional<T>& value) {
  return value ? Json(*value) : Json(nullptr);
}

Json ofPath(const std::optional<std::filesystem::path>& path) { return path ? Json(path->string()) : Json(nullptr); }

Json ofQuad(const Quad& quad) {
  Json out = Json::array();
  for (const Point& p : quad.corners) out.insert(out.end(), {p.x, p.y});
  return out;
}

Json ofQuads(const std::vector<Quad>& quads) {
  Json out = Json::array();
  for (const Quad& q : quads) out.push_back(ofQuad(q));
  return out;
}

Json ofRegions(const Regions& r) {
  return {{"panels", ofQuads(r.panels)}, {"card", r.card ? ofQuad(*r.card) : Json(nullptr)}, {"greys", ofQuads(r.greys)}, {"black", r.black ? ofQuad(*r.black) : Json(nullptr)}};
}

Json ofPhotos(const Plan& plan) {
  Json out = Json::array();
  for (const PlannedPhoto& p : plan.photos)
    out.push_back({{"id", p.id}, {"file", p.file.string()}, {"role", photoRoleName(p.role)}, {"by_hand", p.by_hand ? ofRegions(*p.by_hand) : Json(nullptr)}});
  return out;
}

Json ofChoices(const Choices& c) {
  Json mixes = Json::array();
  for (const Mix& mix : c.mixes) mixes.push_back({mix.strong, mix.weak});
  return {{"mixes", mixes},
          {"coats", orNull(c.coats)},
          {"steps", c.steps},
          {"carrier", orNull(c.carrier)},
          {"stage", c.stage},
          {"card_kind", cardKindName(c.card_kind)},
          {"card_lab", c.card_lab ? Json{c.card_lab->L, c.card_lab->a, c.card_lab->b} : Json(nullptr)},
          {"tolerance", c.tolerance},
          {"grey_y", orNull(c.grey_y)},
          {"kept_grey", c.kept_grey},
          {"encoding", kEncodingWords[static_cast<std::size_t>(c.encoding)]},
          {"use_chart", c.use_chart},
          {"profile", ofPath(c.profile)}};
}

Json ofPaths(const std::vector<std::filesystem::path>& paths) {
  Json out = Json::array();
  for (const auto& p : paths) out.push_back(p.string());
  return out;
}

// Reading: whatever is not as it is written is thrown as NotAsWritten, or by the JSON library.

double numberIn(const Json& j) {
  if (!j.is_number()) throw NotAsWritten{};
  const double v = j.get<double>();
  if (!std::isfinite(v)) throw NotAsWritten{};
  return v;
}

std::optional<double> maybeNumber(const Json& j) { return j.is_null() ? std::nullopt : std::optional(numberIn(j)); }

std::optional<std::filesystem::path> maybePath(const Json& j) {
  if (j.is_null()) return {};
  return std::filesystem::path(j.get<std::string>());
}

Quad quadIn(const Json& j) {
  if (!j.is_array() || j.size() != 8) throw NotAsWritten{};
  Quad q;
  for (std::size_t i = 0; i < 4; ++i) q.corners[i] = {numberIn(j[2 * i]), numberIn(j[2 * i + 1])};
  return q;
}

std::optional<Quad> maybeQuad(const Json& j) { return j.is_null() ? std::nullopt : std::optional(quadIn(j)); }

std::vector<Quad> quadsIn(const Json& j) {
  std::vector<Quad> out;
  for (const Json& q : j) out.push_back(quadIn(q));
  return out;
}

template <std::size_t N>
std::size_t wordIn(const Json& j, const std::array<const char*, N>& words) {
  const auto word = j.get<std::string>();
  for (std::size_t i = 0; i < N; ++i)
    if (word == words[i]) return i;
  throw NotAsWritten{};
}

PhotoRole roleIn(const Json& j) {
  const auto word = j.get<std::string>();
  for (std::size_t i = 0; i < kPhotoRoleCount; ++i)
    if (word == photoRoleName(static_cast<PhotoRole>(i))) return static_cast<PhotoRole>(i);
  throw NotAsWritten{};
}

CardKind kindIn(const Json& j) {
  const auto word = j.get<std::string>();
  for (std::size_t i = 0; i < kCardKindCount; ++i)
    if (word == cardKindName(static_cast<CardKind>(i))) return static_cast<CardKind>(i);
  throw NotAsWritten{};
}

Choices choicesIn(const Json& j) {
  Choices c;
  for (const Json& mix : j.at("mixes")) c.mixes.push_back({numberIn(mix.at(0)), numberIn(mix.at(1))});
  c.coats = maybeNumber(j.at("coats"));
  for (const Json& n : j.at("steps")) c.steps.push_back(numberIn(n));
  c.carrier = maybeNumber(j.at("carrier"));
  c.stage = j.at("stage").get<std::string>();
  c.card_kind = kindIn(j.at("card_kind"));
  if (const Json& lab = j.at("card_lab"); !lab.is_null()) c.card_lab = Lab<D50>{numberIn(lab.at(0)), numberIn(lab.at(1)), numberIn(lab.at(2))};
  c.tolerance = numberIn(j.at("tolerance"));
  c.grey_y = maybeNumber(j.at("grey_y"));
  c.kept_grey = j.at("kept_grey").get<bool>();
  c.encoding = static_cast<Encoding>(wordIn(j.at("encoding"), kEncodingWords));
  c.use_chart = j.at("use_chart").get<bool>();
  c.profile = maybePath(j.at("profile"));
  return c;
}

/// A series that is still being filled in may lack the ground that a file must have.
Series seriesIn(Json j) {
  const bool ground = j.contains("ground");
  if (!ground) j["ground"] = {{"lab", {50, 0, 0}}};
  auto read = readSeries(j.dump());
  if (!read) throw NotAsWritten{};
  if (!ground) read->ground.reset();
  return std::move(*read);
}

Plan planIn(const Json& j) {
  Plan plan;
  for (const Json& p : j.at("photos")) {
    PlannedPhoto photo{p.at("id").get<int>(), p.at("file").get<std::string>(), roleIn(p.at("role")), {}};
    if (const Json& r = p.at("by_hand"); !r.is_null()) photo.by_hand = Regions{quadsIn(r.at("panels")), maybeQuad(r.at("card")), quadsIn(r.at("greys")), maybeQuad(r.at("black"))};
    if (photo.id < 1 || photoOf(plan, photo.id)) throw NotAsWritten{};
    plan.photos.push_back(std::move(photo));
  }
  plan.choices = choicesIn(j.at("choices"));
  if (const Json& series = j.at("series"); !series.is_null()) {
    plan.series = seriesIn(series);
  }
  plan.series_file = j.at("series_file").get<std::string>();
  plan.series_saved = j.at("series_saved").get<bool>();
  plan.tints = maybePath(j.at("tints"));
  plan.part_coats = maybeNumber(j.at("part_coats"));
  for (const Json& p : j.at("chart_photos")) plan.chart_photos.emplace_back(p.get<std::string>());
  plan.chart_encoding = static_cast<Encoding>(wordIn(j.at("chart_encoding"), kEncodingWords));
  return plan;
}

}  // namespace

std::string memoryText(const Memory& memory) {
  const Plan& plan = memory.plan;
  Json out{{"format", 1},
           {"photos", ofPhotos(plan)},
           {"choices", ofChoices(plan.choices)},
           {"series", plan.series ? Json::parse(seriesText(*plan.series)) : Json(nullptr)},
           {"series_file", plan.series_file.string()},
           {"series_saved", plan.series_saved},
           {"tints", ofPath(plan.tints)},
           {"part_coats", orNull(plan.part_coats)},
           {"chart_photos", ofPaths(plan.chart_photos)},
           {"chart_encoding", kEncodingWords[static_cast<std::size_t>(plan.chart_encoding)]},
           {"recent", ofPaths(memory.recent)},
           {"window", Json::object()},
           {"camera", memory.camera},
           {"stills", memory.stills.string()},
           {"followed", memory.followed.string()},
           {"by_tags", memory.by_tags}};
  for (const auto& [name, value] : memory.window) out["window"][name] = value;
  // A file's name need not be UTF-8; what is not is written as a replacement character, and will not be found again.
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

Result<Memory> readMemory(std::string_view text) try {
  const Json j = Json::parse(text);
  if (j.at("format") != 1) return fail(Code::MemoryUnusable);
  Memory memory;
  memory.plan = planIn(j);
  for (const Json& p : j.at("recent")) memory.recent.emplace_back(p.get<std::string>());
  for (const auto& [name, value] : j.at("window").items()) memory.window[name] = numberIn(value);
  // Written since there are cameras and folders to watch.
  memory.camera = j.value("camera", std::string());
  memory.stills = j.value("stills", std::string());
  memory.followed = j.value("followed", std::string());
  memory.by_tags = j.value("by_tags", false);
  return memory;
} catch (const Json::exception&) {
  return fail(Code::MemoryUnusable);
} catch (const NotAsWritten&) {
  return fail(Code::MemoryUnusable);
}

std::string judgeKey(const Plan& plan) { return ofPhotos(plan).dump(-1, ' ', false, Json::error_handler_t::replace) + choicesKey(plan); }

std::string choicesKey(const Plan& plan) {
  Json choices = ofChoices(plan.choices);
  choices.erase("stage");  // of the series alone
  return choices.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string seriesKey(const Plan& plan) {
  if (!plan.series) return {};
  return seriesText(*plan.series) + ofPath(plan.tints).dump(-1, ' ', false, Json::error_handler_t::replace) + orNull(plan.part_coats).dump();
}

std::string cameraKey(const Plan& plan) {
  return ofPaths(plan.chart_photos).dump(-1, ' ', false, Json::error_handler_t::replace) + kEncodingWords[static_cast<std::size_t>(plan.chart_encoding)];
}

}  // namespace huewright
