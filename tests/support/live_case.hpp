// A session, and what is asked for of a live camera, for tests of what judges one.
#pragma once

#include "session/session.hpp"

namespace huewright::fixtures {

inline const Session& liveSession() {
  static const Session kSession = Session::open(HUEWRIGHT_SOURCE_DIR "/calib").value();
  return kSession;
}

/// On the mat, whose grey and card are told.
inline JudgeRequest liveRequest() {
  JudgeRequest request;
  request.photo = "camera";
  request.grey_y = 0.19;
  request.card_kind = CardKind::Same;
  return request;
}

}  // namespace huewright::fixtures
