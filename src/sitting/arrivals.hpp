// Photos that came into a folder that is followed, and what was found out about them.
#pragma once

#include <cstddef>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sitting/judged_shown.hpp"

namespace huewright {

inline constexpr std::size_t kMostArrivals = 50;

struct Arrival {
  int id = 0;                              ///< unique in the sitting, from 1; a photo whose content changed comes again under a new one
  std::filesystem::path file;
  std::string name;                        ///< of the file, fit to be shown
  std::string headline;                    ///< of the nearest panel, a few words; empty with a problem
  std::string sentence;                    ///< all that is said of its panels, or the problem in one sentence
  std::optional<Band> band;                ///< of the nearest panel; nothing with a problem
  bool problem = false;                    ///< the photo cannot be used
  Swatch panel, card;                      ///< of the nearest panel; not with a problem
  bool by_tags = false;                    ///< mix and coats were those of its tags alone
  std::shared_ptr<const JudgeReport> report{};   ///< until it is taken in
};

struct FollowedShown {
  bool running = false;
  std::filesystem::path folder;            ///< followed now or the last time; kept for the next start
  bool by_tags = false;                    ///< photos whose tags tell mix, coats and carrier go into the series by themselves, and mix and coats that were told do not hold for any that comes
  bool came_last = false;                  ///< a photo came after the one that is judged was opened
  std::string trouble;                     ///< that it is away and waited for, or why it is followed no longer
};

}  // namespace huewright
