#include "sitting/camera_list.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace huewright {

std::vector<std::string> camerasIn(const std::filesystem::path& devices) {
  constexpr std::string_view kBegins = "video";
  constexpr std::size_t kMostDigits = 3;
  std::vector<int> numbers;
  std::vector<std::string> others;
  std::error_code error;
  for (std::filesystem::directory_iterator it(devices, error); !error && it != std::filesystem::directory_iterator(); it.increment(error)) {
    const std::string name = it->path().filename().string();
    if (!name.starts_with(kBegins)) continue;
    const std::string rest = name.substr(kBegins.size());
    if (!rest.empty() && rest.size() <= kMostDigits && std::ranges::all_of(rest, isDigit)) numbers.push_back(std::stoi(rest));
    else others.push_back(it->path().string());
  }
  std::ranges::sort(numbers);
  std::ranges::sort(others);
  std::vector<std::string> out;
  for (const int number : numbers) out.push_back(std::to_string(number));
  out.insert(out.end(), others.begin(), others.end());
  return out;
}

}  // namespace huewright
