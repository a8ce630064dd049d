#include "session/report_json.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

namespace huewright {
namespace {

using Json = nlohmann::ordered_json;

Json number(double value) { return std::isfinite(value) ? Json(std::round(value * 1e4) / 1e4 + 0.0) : Json(nullptr); }

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

Json regions(const Regions& r) {
  Json panels = Json::array(), greys = Json::array();
  for (const Quad& q : r.panels) panels.push_back(quad(q));
  for (const Quad& q : r.greys) greys.push_back(quad(q));
  return {{"panel", panels.front()}, {"panels", panels}, {"card", r.card ? quad(*r.card) : Json(nullptr)}, {"greys", greys},
          {"chart", nullptr}};
}

std::string_view profileName(ProfileKind kind) { return kind == ProfileKind::Builtin ? "builtin" : "none"; }

}  // namespace

std::string toJson(const JudgeReport& report, bool explain) {
  const Verdict& first = report.verdicts.front();
  Json json;
  json["format"] = 1;
  json["photo"] = {{"file", report.photo.path.string()}, {"width", report.photo.size.width}, {"height", report.photo.size.height},
                   {"encoding", report.photo.encoding}};
  json["profile"] = {{"kind", profileName(report.reading.profile)},
                     {"loo_de00", report.reading.loo_de00 ? number(*report.reading.loo_de00) : Json(nullptr)}};
  json["regions"] = regions(report.regions);
  json["panel"] = colour(report.reading.panels.front());
  Json card = colour(report.reading.card);
  if (!report.reading.card_in_photo) {
    for (const char* absent : {"lab_sd", "pixels", "clipped", "masked"}) card[absent] = nullptr;
  }
  json["card"] = card;
  json["difference"] = difference(first);
  json["verdict"] = verdict(first);
  Json actions = Json::array();
  for (const Step& step : report.advice.actions) actions.push_back({{"what", step.what}, {"way", wayName(step.way)}, {"sentence", step.sentence}});
  json["advice"] = {{"strong_share", wayName(report.advice.strong_share)}, {"actions", actions}, {"sentence", report.advice.sentence}};
  json["ranking"] = nullptr;
  if (!report.ranking.order.empty()) {
    Json order = Json::array();
    for (const Rank& rank : report.ranking.order) {
      const Verdict& v = report.verdicts[rank.panel];
      Json row = {{"panel", rank.panel}, {"name", std::string(1, static_cast<char>('A' + static_cast<int>(rank.panel)))}};
      row["colour"] = colour(report.reading.panels[rank.panel]);
      row["difference"] = difference(v);
      row["verdict"] = verdict(v);
      row["surely_nearer_than_next"] = rank.surely_nearer;
      order.push_back(row);
    }
    json["ranking"] = {{"order", order}, {"sentence", report.ranking.sentence}};
  }
  json["budget"] = nullptr;
  if (explain) {
    Json budget = Json::object();
    for (std::size_t i = 0; i < kCauseCount; ++i) budget[std::string(causeName(static_cast<Cause>(i)))] = number(first.budget[i]);
    json["budget"] = budget;
  }
  Json cautions = Json::array();
  for (const Caution& c : report.cautions) cautions.push_back({{"code", cautionName(c.code)}, {"sentence", sentence(c)}});
  json["cautions"] = cautions;
  return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace huewright
