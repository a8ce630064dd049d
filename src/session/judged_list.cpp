#include "session/judged_list.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "capture/sha256.hpp"

namespace huewright {
namespace {

using ListJson = nlohmann::ordered_json;

constexpr std::string_view kListIs = "huewright judged photos";

bool hasJust(const ListJson& json, std::initializer_list<const char*> fields) {
  return json.is_object() && json.size() == fields.size() && std::ranges::all_of(fields, [&](const char* field) { return json.contains(field); });
}

}  // namespace

std::expected<JudgedList, std::string> JudgedList::parse(std::string_view text) {
  const ListJson json = ListJson::parse(text, nullptr, false);
  if (json.is_discarded()) return std::unexpected("it is not JSON");
  if (!hasJust(json, {"format", "what", "photos"}) || json["what"] != kListIs || !json["photos"].is_array()) return std::unexpected("it is no such list");
  if (json["format"] != 1) return std::unexpected("its format is another than 1");
  JudgedList list;
  for (const ListJson& photo : json["photos"]) {
    const bool good = hasJust(photo, {"sha256", "names"}) && photo["sha256"].is_string() && isSha256(photo["sha256"].get<std::string>()) && photo["names"].is_array() &&
                      !photo["names"].empty() && std::ranges::all_of(photo["names"], [](const ListJson& name) { return name.is_string(); });
    if (!good) return std::unexpected("a photo in it lacks its sum or its name");
    if (!list.names_.emplace(photo["sha256"].get<std::string>(), photo["names"].get<std::vector<std::string>>()).second)
      return std::unexpected("a photo stands in it twice");
  }
  return list;
}

std::string JudgedList::text() const {
  std::string out = R"({"format": 1, "what": ")" + std::string(kListIs) + R"(", "photos": [)";
  const char* before = "\n";
  for (const auto& [sum, names] : names_) {
    out += before + ListJson{{"sha256", sum}, {"names", names}}.dump(-1, ' ', false, ListJson::error_handler_t::replace);
    before = ",\n";
  }
  return out + "\n]}\n";
}

const std::vector<std::string>* JudgedList::namesOf(const std::string& sum) const {
  const auto at = names_.find(sum);
  return at == names_.end() ? nullptr : &at->second;
}

bool JudgedList::add(const std::string& sum, const std::string& name) {
  auto& names = names_[sum];
  if (std::ranges::find(names, name) != names.end()) return false;
  names.push_back(name);
  return true;
}

void JudgedList::add(const JudgedList& other) {
  for (const auto& [sum, names] : other.names_)
    for (const std::string& name : names) add(sum, name);
}

}  // namespace huewright
