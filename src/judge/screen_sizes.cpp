#include "judge/screen_sizes.hpp"

#include <algorithm>
#include <array>

namespace huewright {
namespace {

// From memory: the shorter side, the longer one. Sizes of 4 : 3 that photos are often resized to are left out.
constexpr std::array<Size, 50> kScreens{{
    // Telephones
    {640, 1136}, {720, 1280}, {720, 1520}, {720, 1560}, {720, 1600}, {750, 1334}, {828, 1792}, {1080, 1920}, {1080, 2160}, {1080, 2220}, {1080, 2244},
    {1080, 2280}, {1080, 2310}, {1080, 2340}, {1080, 2376}, {1080, 2400}, {1080, 2408}, {1080, 2412}, {1125, 2436}, {1170, 2532}, {1179, 2556},
    {1206, 2622}, {1242, 2208}, {1242, 2688}, {1284, 2778}, {1290, 2796}, {1320, 2868}, {1440, 2560}, {1440, 2960}, {1440, 3040}, {1440, 3088},
    {1440, 3120}, {1440, 3200},
    // Tablets
    {1200, 1920}, {1600, 2560}, {1620, 2160}, {1640, 2360}, {1668, 2224}, {1668, 2388}, {2048, 2732},
    // Computers
    {768, 1366}, {800, 1280}, {900, 1440}, {900, 1600}, {1050, 1680}, {1800, 2880}, {1964, 3024}, {2160, 3840}, {2234, 3456}, {2880, 5120},
}};

}  // namespace

bool isScreenSize(Size size) {
  const Size sorted{std::min(size.width, size.height), std::max(size.width, size.height)};
  return std::ranges::find(kScreens, sorted) != kScreens.end();
}

}  // namespace huewright
