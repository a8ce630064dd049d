#include "desk/look_numbers.hpp"

#include <array>
#include <cmath>
#include <optional>

namespace huewright::desk {
namespace {

/// The number of that name, where it is there and within its range.
std::optional<double> numberWithin(const std::map<std::string, double>& numbers, const char* name, double low, double high) {
  const auto at = numbers.find(name);
  if (at == numbers.end() || !std::isfinite(at->second) || at->second < low || at->second > high) return {};
  return at->second;
}

struct CupNumber {
  const char* name;
  std::optional<double> PourViewState::* value;
  double low, high;
};
constexpr std::array kCupNumbers{CupNumber{"cup_loss", &PourViewState::loss, 0, 0.95},          CupNumber{"cup_film", &PourViewState::film_um, 1, 1000},
                                 CupNumber{"cup_rest", &PourViewState::rest_ml, 0, 1000},       CupNumber{"cup_takes", &PourViewState::cup_ml, 1, 100000},
                                 CupNumber{"cup_strong", &PourViewState::strong_density, 0.5, 3}, CupNumber{"cup_weak", &PourViewState::weak_density, 0.5, 3},
                                 CupNumber{"cup_carrier", &PourViewState::carrier_density, 0.5, 3}, CupNumber{"cup_scale", &PourViewState::scale_g, 0.0001, 100}};

}  // namespace

std::map<std::string, double> numbersOf(const DeskLook& look, const PourViewState& cup) {
  std::map<std::string, double> numbers{{"page", static_cast<double>(look.page)},
                                        {"surround", static_cast<double>(look.surround)},
                                        {"text", static_cast<double>(look.text)},
                                        {"width", look.width},
                                        {"height", look.height},
                                        {"swapped", look.swapped},
                                        {"gap", look.gap},
                                        {"been_here", look.been_here},
                                        {"vapour_told", look.vapour_told},
                                        {"cup_area", cup.area_m2},
                                        {"cup_airbrush", cup.airbrush}};
  for (const CupNumber& one : kCupNumbers)
    if (const auto& value = cup.*one.value) numbers[one.name] = *value;
  return numbers;
}

DeskLook lookOf(const std::map<std::string, double>& numbers) {
  DeskLook look;
  const auto whole = [&](const char* name, int low, int high, int otherwise) { return static_cast<int>(numberWithin(numbers, name, low, high).value_or(otherwise)); };
  look.page = static_cast<Page>(whole("page", static_cast<int>(Page::Panel), static_cast<int>(Page::Live), static_cast<int>(Page::Panel)));
  look.surround = static_cast<Surround>(whole("surround", 0, 2, 1));
  look.text = static_cast<float>(numberWithin(numbers, "text", 1, 3).value_or(1));
  look.width = whole("width", 640, 7680, look.width);
  look.height = whole("height", 480, 4320, look.height);
  look.swapped = whole("swapped", 0, 1, 0) == 1;
  look.gap = whole("gap", 0, 1, 0) == 1;
  look.been_here = whole("been_here", 0, 1, 0) == 1;
  look.vapour_told = whole("vapour_told", 0, 1, 0) == 1;
  return look;
}

PourViewState cupOf(const std::map<std::string, double>& numbers) {
  PourViewState cup;
  cup.area_m2 = numberWithin(numbers, "cup_area", 0.0001, 1000).value_or(cup.area_m2);
  cup.airbrush = numberWithin(numbers, "cup_airbrush", 0, 1) == 1.0;
  for (const CupNumber& one : kCupNumbers) cup.*one.value = numberWithin(numbers, one.name, one.low, one.high);
  return cup;
}

}  // namespace huewright::desk
