// Rendered photographs on disk, and how they are judged, for the tests of this room.
#pragma once

#include <algorithm>
#include <filesystem>
#include <string>

#include "render/picture_file.hpp"
#include "session/session.hpp"
#include "support/calib.hpp"
#include "temp_dir.hpp"

namespace huewright {

using fixtures::kCalib;

struct Taken {
  std::filesystem::path path;
  render::Rendered picture;
};

inline Taken shoot(const fixtures::TempDir& folder, const std::string& name, const render::SceneSpec& scene, std::uint64_t seed = 1) {
  Taken shot{folder.path() / name, render::render(scene, seed)};
  render::writePicture(shot.path, shot.picture);
  return shot;
}

/// Panel, card, grey and a chart side by side, in even light.
inline render::SceneSpec chartBench(const char* light) {
  render::SceneSpec s;
  s.size = {1200, 900};
  s.shop.lamp.light = light;
  s.shop.camera.exposure = 0.7;
  s.panels[0].paint.share = 0.45;
  s.panels[0].place = {60, 60, 240, 340, 0};
  s.card.place = {340, 60, 240, 340, 0};
  s.greys[0].place = {620, 180, 110, 110, 0};
  s.chart = render::ChartSpec{};
  s.chart->place = {760, 80, 380, 0, 0};
  return s;
}

/// The same paint, a grey of 0.19, and no place: the mat is looked for.
inline JudgeRequest requestFor(const Taken& shot) {
  JudgeRequest r;
  r.photo = shot.path;
  r.grey_y = 0.19;
  r.card_kind = CardKind::Same;
  return r;
}

inline Result<JudgeReport> judged(const JudgeRequest& request) { return Session::open(kCalib)->judge(request); }

inline bool says(const JudgeReport& r, CautionCode code) {
  return std::ranges::any_of(r.cautions, [&](const Caution& c) { return c.code == code; });
}

}  // namespace huewright
