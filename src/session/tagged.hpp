// What the tags in a photo tell of its panels, beside what a person told.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/caution.hpp"
#include "scene/scene.hpp"
#include "scene/tag_finder.hpp"
#include "session/session.hpp"

namespace huewright {

/// What is known of one panel.
struct PanelFacts {
  std::optional<Mix> mix;
  std::optional<double> coats, carrier;
  std::string tag;                     ///< its tag's name, or empty
};

struct Filed {
  std::vector<PanelFacts> panels;      ///< one for each of the scene
  std::vector<TagReport> tags;
  std::vector<Caution> cautions;
};

/// Each tag belongs to the panel nearest to its middle; the strips of a stepped panel are one. Of two tags for one panel the nearer is used. What the request tells
/// comes before what a tag tells, and where the two differ it is said. In: a scene with strips in place of a stepped panel; as many mixes as the request may have.
Filed fileTags(const TagSearch& found, const Scene& scene, const JudgeRequest& request);

/// What a series still needs of the panels, as "the mix and the carrier"; empty when it knows all. Bare ground needs nothing.
std::string untold(const std::vector<PanelFacts>& panels);
std::string untold(const JudgeReport& report);

/// Whether every panel but bare ground has a tag that tells its mix and coats (of strips, the mix), and nothing speaks against it: no other tag, no unread one, nothing told otherwise.
bool toldByTags(const JudgeReport& report);

}  // namespace huewright
