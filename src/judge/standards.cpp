#include "judge/standards.hpp"

#include <array>
#include <fstream>
#include <nlohmann/json.hpp>

namespace huewright {
namespace {

constexpr std::array<std::string_view, kCardKindCount> kKinds{"same", "similar", "printed", "other", "unknown"};

}  // namespace

std::string_view cardKindName(CardKind kind) { return kKinds[static_cast<std::size_t>(kind)]; }

Result<Standards> readStandards(const std::filesystem::path& calib) {
  const auto path = calib / "standards.json";
  std::error_code error;
  if (!std::filesystem::is_regular_file(path, error)) return fail(Code::DataMissing, path.string());  // a pipe would never end
  std::ifstream file(path);
  if (!file) return fail(Code::DataMissing, path.string());
  const auto json = nlohmann::json::parse(file, nullptr, false);
  try {
    Standards s;
    for (const auto& row : json.at("situations"))
      s.situations.push_back({row.at("word"), row.at("meaning"), row.at("tolerance").get<double>()});
    for (const auto& row : json.at("visibility")) s.visibility.push_back({row.at("from").get<double>(), row.at("words")});
    for (const auto& row : json.at("card_kinds")) s.card_kinds.emplace_back(row.at("word"), row.at("p95").get<double>());
    bool good = !s.situations.empty() && !s.visibility.empty() && s.card_kinds.size() == kKinds.size();
    for (std::size_t i = 0; good && i < kKinds.size(); ++i) good = s.card_kinds[i].first == kKinds[i];
    for (std::size_t i = 1; good && i < s.visibility.size(); ++i) good = s.visibility[i].from > s.visibility[i - 1].from;
    for (std::size_t i = 0; good && i < s.situations.size(); ++i) good = s.situations[i].tolerance > 0;
    for (std::size_t i = 0; good && i < s.card_kinds.size(); ++i) good = s.card_kinds[i].second >= 0;
    if (good) return s;
  } catch (const nlohmann::json::exception&) {
    // falls through to the one answer
  }
  return fail(Code::DataMissing, path.string());
}

double cardKindSd(const Standards& standards, CardKind kind) {
  constexpr double kP95 = 2.795;  // √7.815
  return standards.card_kinds[static_cast<std::size_t>(kind)].second / kP95;
}

const std::string& visibilityWords(const Standards& standards, double de00) {
  const Visibility* found = &standards.visibility.front();
  for (const Visibility& v : standards.visibility)
    if (de00 >= v.from) found = &v;
  return found->words;
}

}  // namespace huewright
