#include "session/report_json.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "session/rounded.hpp"

namespace huewright {
namespace {

using Json = nlohmann::ordered_json;

Json number(double value) { return std::isfinite(value) ? Json(rounded(value)) : Json(nullptr); }

Json triple(const Vec3& v) { return Json::array({number(v[0]), number(v[1]), number(v[2])}); }

Json quad(const Quad& q) {
  Json corners = Json::array();
  for (const Point& p : q.corners) corners.push_back(Json::array({number(p.x), number(p.y)}));
  return corners;
}

Json colour(const ColourReading& r) {
  return {{"lab", triple(toVec(r.lab))}, {"lab_sd", triple(r.lab_sd)}, {"pixels", r.pixels}, {"clipped", number(r.clipped)},
          {"masked", number(r.masked)}};
}

Json difference(const Verdict& v) {
  return {{"de00", number(v.de00)},          {"low", number(v.low)},           {"high", number(v.high)},
          {"dL", number(v.difference.dL)},   {"da", number(v.difference.da)},  {"db", number(v.difference.db)},
          {"dC", number(v.difference.dC)},   {"dH", number(v.difference.dH)}};
}

Json verdict(const Verdict& v) {
  return {{"band", bandName(v.band)}, {"if_same_paint", v.there_if_same_paint}, {"tolerance", number(v.tolerance)}, {"sentence", v.sentence}};
}

Json mixOf(const std::optional<Mix>& mix) {
  return mix ? Json{{"strong", number(mix->strong)}, {"weak", number(mix->weak)}} : Json(nullptr);
}

/// Every panel in the order given; of a stepped panel its strips.
Json panels(const JudgeReport& report) {
  Json all = Json::array();
  for (std::size_t i = 0; i < report.reading.panels.size(); ++i)
    all.push_back({{"name", report.names[i]},
                   {"coats", report.coats[i] ? number(*report.coats[i]) : Json(nullptr)},
                   {"mix", mixOf(report.mixes[i])},
                   {"colour", colour(report.reading.panels[i])},
                   {"difference", difference(report.verdicts[i])},
                   {"verdict", verdict(report.verdicts[i])}});
  return all;
}

Json regions(const Regions& r, std::size_t main, const std::optional<Quad>& chart) {
  Json panels = Json::array(), greys = Json::array();
  for (const Quad& q : r.panels) panels.push_back(quad(q));
  for (const Quad& q : r.greys) greys.push_back(quad(q));
  return {{"panel", panels[main]}, {"panels", panels}, {"card", r.card ? quad(*r.card) : Json(nullptr)}, {"greys", greys},
          {"black", r.black ? quad(*r.black) : Json(nullptr)}, {"chart", chart ? quad(*chart) : Json(nullptr)}};
}

Json trust(const Trust& trust) {
  Json reasons = Json::array();
  for (const TrustReason& r : trust.reasons) reasons.push_back({{"code", trustCodeName(r.code)}, {"sentence", r.sentence}});
  return {{"grade", gradeName(trust.grade)}, {"sentence", trust.sentence}, {"reasons", reasons}, {"better", trust.better}};
}

/// Tags as they were read, used or not.
Json tags(const JudgeReport& report) {
  Json all = Json::array();
  for (const TagReport& tag : report.tags) {
    Json one = {{"name", tag.text.name}, {"panel", tag.panel ? Json(*tag.panel) : Json(nullptr)}, {"mix", nullptr}, {"coats", nullptr}, {"carrier", nullptr}, {"place", quad(tag.place)}};
    if (const auto& parts = tag.text.parts) one["mix"] = {{"strong", number(parts->strong)}, {"weak", number(parts->weak)}};
    if (tag.text.coats) one["coats"] = number(*tag.text.coats);
    if (tag.text.carrier) one["carrier"] = number(*tag.text.carrier);
    all.push_back(one);
  }
  return all;
}

/// A second look: the same things as of the first photo, and what the two say together.
Json view(const std::optional<ViewReport>& view, std::size_t main) {
  if (!view) return nullptr;
  const ViewComparison& c = view->comparison;
  Json cautions = Json::array();
  for (const Caution& caution : view->reading.cautions) cautions.push_back({{"code", cautionName(caution.code)}, {"sentence", sentence(caution)}});
  return {{"file", view->file.string()},
          {"panel", colour(view->reading.panels[main])},
          {"card", colour(view->reading.card)},
          {"difference", difference(view->verdicts[main])},
          {"verdict", verdict(view->verdicts[main])},
          {"change", {{"kind", viewChangeName(c.change)}, {"de00", number(c.measured)}, {"low", number(c.by.low)}, {"high", number(c.by.high)}}},
          {"sentence", view->sentence},
          {"trust", trust(view->trust)},
          {"cautions", cautions}};
}

std::string_view profileName(ProfileKind kind) {
  switch (kind) {
    case ProfileKind::Builtin: return "builtin";
    case ProfileKind::File: return "file";
    case ProfileKind::Chart: return "chart";
    case ProfileKind::None: break;
  }
  return "none";
}

Json reportFields(const JudgeReport& report, bool explain) {
  const Verdict& first = report.verdicts[report.main];
  Json json;
  json["format"] = 1;
  json["photo"] = {{"file", report.photo.path.string()}, {"width", report.photo.size.width}, {"height", report.photo.size.height},
                   {"encoding", report.photo.encoding}};
  json["profile"] = {{"kind", profileName(report.reading.profile)},
                     {"loo_de00", report.reading.loo_de00 ? number(*report.reading.loo_de00) : Json(nullptr)}};
  json["light"] = {{"from", lightFromName(report.reading.light_from)},
                   {"paper_residual", report.reading.paper_residual ? number(*report.reading.paper_residual) : Json(nullptr)},
                   {"veil", report.reading.veil ? number(*report.reading.veil) : Json(nullptr)}};
  json["grey"] = {{"from", greyFromName(report.reading.grey.from)}, {"lab", nullptr}, {"lab_sd", nullptr}};
  if (const auto& kept = report.reading.grey.colour) {
    json["grey"]["lab"] = triple(toVec(kept->lab));
    json["grey"]["lab_sd"] = triple(kept->lab_sd);
  }
  json["regions"] = regions(report.regions, report.main, report.chart);
  json["panel"] = colour(report.reading.panels[report.main]);
  Json card = colour(report.reading.card);
  if (!report.reading.card_in_photo) {
    for (const char* absent : {"lab_sd", "pixels", "clipped", "masked"}) card[absent] = nullptr;
  }
  json["card"] = card;
  json["difference"] = difference(first);
  json["verdict"] = verdict(first);
  Json actions = Json::array();
  for (const Step& step : report.advice.actions) actions.push_back({{"what", step.what}, {"way", wayName(step.way)}, {"sentence", step.sentence}});
  json["advice"] = {{"strong_share", wayName(report.advice.strong_share)}, {"actions", actions}, {"sentence", report.advice.sentence},
                    {"spray_floor", report.advice.spray_floor ? number(*report.advice.spray_floor) : Json(nullptr)}};
  json["panels"] = panels(report);
  json["tags"] = tags(report);
  json["ranking"] = nullptr;
  if (!report.ranking.order.empty()) {
    Json order = Json::array();
    for (const Rank& rank : report.ranking.order) {
      const Verdict& v = report.verdicts[rank.panel];
      Json row = {{"panel", rank.panel}, {"name", report.stepped ? report.names[rank.panel] : std::string(1, static_cast<char>('A' + static_cast<int>(rank.panel)))}};
      row["colour"] = colour(report.reading.panels[rank.panel]);
      row["difference"] = difference(v);
      row["verdict"] = verdict(v);
      row["surely_nearer_than_next"] = rank.surely_nearer;
      order.push_back(row);
    }
    json["ranking"] = {{"order", order}, {"sentence", report.ranking.sentence}};
  }
  json["swapped"] = nullptr;
  if (report.swap)
    json["swapped"] = {{"file", report.swap->file.string()}, {"apart", number(report.swap->apart)}, {"brightness", number(report.swap->brightness)}};
  json["repeats"] = nullptr;
  if (const auto& r = report.repeats)
    json["repeats"] = {{"photos", r->photos}, {"used", r->used}, {"scatter", number(r->scatter)}, {"left_out", r->left_out ? Json(r->left_out->string()) : Json(nullptr)}};
  json["also"] = view(report.also, report.main);
  json["flop"] = view(report.flop, report.main);
  json["budget"] = nullptr;
  if (explain) {
    Json budget = Json::object();
    for (std::size_t i = 0; i < kCauseCount; ++i) budget[std::string(causeName(static_cast<Cause>(i)))] = number(ofCause(first.budget, static_cast<Cause>(i)));
    Json parts = Json::array();
    for (std::size_t i = 0; i < kPartCount; ++i) {
      const auto part = static_cast<Part>(i);
      if (first.budget[i] > 0)
        parts.push_back({{"part", partName(part)}, {"cause", causeName(causeOf(part))}, {"sd", number(first.budget[i])}, {"from", originWords(originOf(part))}});
    }
    budget["parts"] = parts;
    json["budget"] = budget;
  }
  json["trust"] = trust(report.trust);
  Json cautions = Json::array();
  for (const Caution& c : report.cautions) cautions.push_back({{"code", cautionName(c.code)}, {"sentence", sentence(c)}});
  json["cautions"] = cautions;
  return json;
}

Json problemFields(const std::string& photo, const Problem& problem) {
  Json json;
  json["format"] = 1;
  json["photo"] = {{"file", photo}};
  json["problem"] = {{"code", codeName(problem.code)}, {"sentence", sentence(problem)}};
  return json;
}

}  // namespace

std::string toJson(const JudgeReport& report, bool explain) { return reportFields(report, explain).dump(2, ' ', false, Json::error_handler_t::replace) + "\n"; }

std::string toJsonLine(const JudgeReport& report, bool explain) { return reportFields(report, explain).dump(-1, ' ', false, Json::error_handler_t::replace) + "\n"; }

std::string liveJson(const std::string& camera, const LiveVerdict& verdict, double seconds, bool explain) {
  Json json;
  if (verdict.report) json = reportFields(*verdict.report, explain);
  else json = problemFields(camera, verdict.problem.value_or(Problem{Code::Internal, "no verdict and no reason"}));
  const auto number = [](const std::optional<double>& value) { return value ? Json(rounded(*value)) : Json(); };
  json["live"] = {{"state", liveStateName(verdict.state)}, {"seconds", rounded(seconds)}, {"frames", rounded(verdict.frames)}, {"frame_noise", number(verdict.frame_noise)}, {"noise", number(verdict.noise)}};
  return json.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string problemJson(const std::filesystem::path& photo, const Problem& problem) {
  return problemFields(photo.string(), problem).dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace huewright
