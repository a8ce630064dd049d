// Requests for photos in sample-images/, with the places that its README.md tells.
#pragma once

#include "session/session.hpp"
#include "support/calib.hpp"

namespace huewright {

inline JudgeRequest sampleJob(const char* file, const Rect& panel, const Rect& card, const Rect& grey) {
  JudgeRequest r;
  r.photo = std::filesystem::path(HUEWRIGHT_SOURCE_DIR) / "sample-images" / file;
  r.regions = {{toQuad(panel)}, toQuad(card), {toQuad(grey)}};
  r.grey_y = 0.19;
  r.card_kind = CardKind::Same;
  return r;
}

/// A strip lamp is mirrored over more than a third of the panel.
inline JudgeRequest glareJob() { return sampleJob("glare.jpg", {143, 112, 320, 395}, {578, 126, 231, 229}, {614, 453, 156, 89}); }
/// Two channels are at the top of their range, on panel and card.
inline JudgeRequest clippedJob() { return sampleJob("clipped.jpg", {143, 111, 321, 398}, {580, 127, 226, 227}, {614, 454, 157, 87}); }
/// A chart lies beside them.
inline JudgeRequest chartJob() { return sampleJob("with-chart.jpg", {78, 115, 265, 378}, {425, 130, 194, 193}, {451, 438, 138, 75}); }
/// Three panels, two greys and a black chip on the mat.
inline JudgeRequest matJob() {
  JudgeRequest r;
  r.photo = HUEWRIGHT_SOURCE_DIR "/sample-images/on-the-mat.jpg";
  r.grey_y = 0.19;
  r.card_kind = CardKind::Same;
  return r;
}

inline JudgeReport sampleReport(const JudgeRequest& request) {
  auto report = Session::open(fixtures::kCalib)->judge(request);
  if (!report) throw std::runtime_error(sentence(report.error()));
  return std::move(*report);
}

}  // namespace huewright
