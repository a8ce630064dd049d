#include "session/advise_json.hpp"

#include <array>
#include <cmath>
#include <nlohmann/json.hpp>
#include <string_view>

namespace huewright {
namespace {

using AdviceJson = nlohmann::ordered_json;

AdviceJson plain(double value) { return std::isfinite(value) ? AdviceJson(std::round(value * 1e4) / 1e4 + 0.0) : AdviceJson(nullptr); }

AdviceJson labJson(const Lab<D50>& lab) { return AdviceJson::array({plain(lab.L), plain(lab.a), plain(lab.b)}); }

std::string_view shareWayName(ShareWay way) {
  constexpr std::array<std::string_view, 4> kNames{"increase", "decrease", "keep", "unknown"};
  return kNames[static_cast<std::size_t>(way)];
}

std::string_view stepName(PartStep step) {
  constexpr std::array<std::string_view, 4> kNames{"more", "one-more-then-stop", "stop", "do-not-add"};
  return kNames[static_cast<std::size_t>(step)];
}

AdviceJson cautionsJson(const std::vector<Caution>& cautions) {
  AdviceJson all = AdviceJson::array();
  for (const Caution& caution : cautions) all.push_back({{"code", cautionName(caution.code)}, {"sentence", sentence(caution)}});
  return all;
}

AdviceJson choiceJson(const MixChoice& choice) {
  return {{"strong", choice.parts[0]}, {"weak", choice.parts[1]},        {"coats", plain(choice.coats)}, {"share", plain(choice.share())}, {"lab", labJson(choice.lab)},
          {"de00", plain(choice.de00)}, {"low", plain(choice.low)},       {"high", plain(choice.high)},   {"coats_too_deep", plain(choice.over)}};
}

AdviceJson nextJson(const Advice& advice) {
  if (!advice.next) return nullptr;
  AdviceJson json = choiceJson(advice.next->choice);
  json["share_best"] = plain(advice.next->best.share);
  json["share_low"] = plain(advice.share_low);
  json["share_high"] = plain(advice.share_high);
  return json;
}

AdviceJson learnJson(const std::optional<LearnPlan>& learn) {
  if (!learn) return nullptr;
  AdviceJson panels = AdviceJson::array();
  for (const PlannedPanel& panel : learn->panels) panels.push_back({{"strong", panel.parts[0]}, {"weak", panel.parts[1]}, {"coats", panel.coats}});
  return {{"panels", panels}, {"sd_before", plain(learn->sd_before)}, {"sd_after", plain(learn->sd_after)}, {"sentence", learn->sentence}};
}

AdviceJson partJson(const std::optional<PartAdvice>& part) {
  if (!part) return nullptr;
  return {{"step", stepName(part->step)}, {"missing_coats", plain(part->missing)}, {"de00_now", plain(part->now.de00)}, {"de00_one_more", plain(part->one_more.de00)}};
}

AdviceJson shelfJson(const AdviseReport& report) {
  if (report.shelf_names.empty()) return nullptr;
  AdviceJson all = AdviceJson::array();
  for (const ShelfMix& mix : report.shelf_mixes) {
    AdviceJson tints = AdviceJson::array();
    for (std::size_t i = 0; i < mix.tints.size(); ++i) tints.push_back({{"name", report.shelf_names[mix.tints[i]]}, {"parts", mix.choice.parts[i]}});
    all.push_back({{"tints", tints}, {"coats", plain(mix.choice.coats)}, {"lab", labJson(mix.choice.lab)}, {"de00", plain(mix.choice.de00)}, {"low", plain(mix.choice.low)}, {"high", plain(mix.choice.high)}});
  }
  return all;
}

std::string dumped(const AdviceJson& json) { return json.dump(2, ' ', false, AdviceJson::error_handler_t::replace) + "\n"; }

}  // namespace

std::string adviseJson(const AdviseReport& report) {
  const Advice& advice = report.advice;
  AdviceJson json;
  json["format"] = 1;
  json["next"] = nextJson(advice);
  json["direction"] = advice.next ? shareWayName(advice.next->direction) : "unknown";
  const bool searched = advice.next.has_value();
  json["reachable"] = searched ? AdviceJson(advice.reach.reachable) : AdviceJson(nullptr);
  json["stays"] = searched && !advice.reach.reachable ? AdviceJson(advice.reach.stays) : AdviceJson(nullptr);
  AdviceJson others = AdviceJson::array();
  for (const Alternative& other : advice.alternatives) {
    AdviceJson one = {{"kind", alternativeName(other.kind)}};
    one.update(choiceJson(other.choice));
    one["trade"] = other.trade;
    others.push_back(one);
  }
  json["alternatives"] = others;
  json["learn"] = learnJson(advice.learn);
  json["part"] = partJson(advice.part);
  json["shelf"] = shelfJson(report);
  AdviceJson cleared = AdviceJson::array();
  for (const ClearForecast& forecast : advice.forecasts) cleared.push_back({{"panel", forecast.panel + 1}, {"lab", labJson(forecast.lab)}, {"sd", plain(forecast.sd)}});
  json["cleared"] = cleared;
  json["film"] = {{"sd", plain(advice.fit.film_sd)}, {"floor_de00", plain(advice.film_floor)}};
  json["panels_used"] = advice.panels;
  json["sentence"] = advice.sentence;
  json["cautions"] = cautionsJson(advice.cautions);
  return dumped(json);
}

std::string groundsJson(const GroundsReport& report) {
  AdviceJson json;
  json["format"] = 1;
  json["mix"] = {{"strong", plain(report.strong)}, {"weak", plain(report.weak)}, {"coats", plain(report.coats)}, {"accepted", report.next_parts.empty()}};
  json["grounds"] = AdviceJson::array();
  for (const GroundLook& look : report.looks)
    json["grounds"].push_back({{"name", look.name}, {"ground_lab", labJson(look.ground)}, {"lab", labJson(look.lab)}, {"sd", plain(look.sd)}, {"de00", plain(look.de00)},
                               {"words", look.words}, {"lean", look.lean.empty() ? AdviceJson(nullptr) : AdviceJson(look.lean)}});
  json["cautions"] = cautionsJson(report.cautions);
  return dumped(json);
}

}  // namespace huewright
