// Rendered photographs on disk, and how they are judged, for the tests of this room.
#pragma once

#include <algorithm>
#include <filesystem>
#include <string>

#include "render/picture_file.hpp"
#include "session/session.hpp"
#include "temp_dir.hpp"

namespace huewright {

inline const std::filesystem::path kCalib = HUEWRIGHT_SOURCE_DIR "/calib";

struct Taken {
  std::filesystem::path path;
  render::Rendered picture;
};

inline Taken shoot(const fixtures::TempDir& folder, const std::string& name, const render::SceneSpec& scene, std::uint64_t seed = 1) {
  Taken shot{folder.path() / name, render::render(scene, seed)};
  render::writePicture(shot.path, shot.picture);
  return shot;
}

/// The same paint, a grey of 0.19, and no place: the mat is looked for.
inline JudgeRequest requestFor(const Taken& shot) {
  JudgeRequest r;
  r.photo = shot.path;
  r.grey_y = 0.19;
  r.card_kind = CardKind::Same;
  return r;
}

inline bool says(const JudgeReport& r, CautionCode code) {
  return std::ranges::any_of(r.cautions, [&](const Caution& c) { return c.code == code; });
}

}  // namespace huewright
