// A verdict on three panels, invented: what the panel page and the page across the room show.
#pragma once

#include "desk_driver.hpp"

namespace huewright::fixtures {

inline void addVerdict(SittingState& state) {
  JudgedShown judged;
  const Swatch teal{{80, 146, 142}, false, "L* 56.0  a* -21.0  b* -5.0"}, deep{{60, 130, 131}, true, "L* 50.0  a* -23.0  b* -6.0"};
  judged.panels = {{"panel A", teal, Band::NotThere, "Not there: lighter", "Panel A is lighter than the card.", "ΔE00 3.1 (2.5 to 3.7), near enough is 1.0", 3.1, 2.5, 3.7, {"More of the strong tint."}, {{"light", "", 0.12}, {"light", "level of the light (simulation)", 0.1}}},
                   {"panel B", teal, Band::There, "There", "Panel B matches the card.", "ΔE00 0.4 (0.1 to 0.8), near enough is 1.0", 0.4, 0.1, 0.8, {"Keep this mix.", "Spray one coat more on a test panel if you want to be sure."}, {{"light", "", 0.12}}},
                   {"panel C", deep, Band::CantSay, "Can't say yet: photograph again", "Can't say whether panel C matches.", "ΔE00 1.1 (0.5 to 1.8), near enough is 1.0", 1.1, 0.5, 1.8, {}, {}}};
  judged.main = 1;
  judged.card = deep;
  judged.ranking = "B is nearest.";
  judged.cautions = {"The lightness of the grey patch was taken as 0.18 without a measurement."};
  judged.trust = "The photo can be trusted fairly: it was saved again by a program.";
  judged.better = {"Use the file as the camera wrote it."};
  state.judged = judged;
}

/// How many pixels' worth of triangles of that very colour were drawn: whether a swatch is on show, and how large.
inline double areaOf(const std::array<std::uint8_t, 3>& rgb) {
  const ImU32 wanted = IM_COL32(rgb[0], rgb[1], rgb[2], 255);
  double area = 0;
  const ImDrawData* data = ImGui::GetDrawData();
  for (int l = 0; l < data->CmdListsCount; ++l) {
    const ImDrawList& list = *data->CmdLists[l];
    for (const ImDrawCmd& command : list.CmdBuffer)
      for (unsigned i = 0; i + 3 <= command.ElemCount; i += 3) {
        std::array<ImDrawVert, 3> v;
        for (unsigned k = 0; k < 3; ++k) v[k] = list.VtxBuffer[static_cast<int>(command.VtxOffset + list.IdxBuffer[static_cast<int>(command.IdxOffset + i + k)])];
        if (v[0].col == wanted && v[1].col == wanted && v[2].col == wanted)
          area += std::abs(static_cast<double>((v[1].pos.x - v[0].pos.x) * (v[2].pos.y - v[0].pos.y) - (v[2].pos.x - v[0].pos.x) * (v[1].pos.y - v[0].pos.y))) / 2;
      }
  }
  return area;
}

}  // namespace huewright::fixtures
