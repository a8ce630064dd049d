// From a reading to what is told of it.
#pragma once

#include "judge/standards.hpp"
#include "session/shot.hpp"
#include "session/tagged.hpp"

namespace huewright {

/// A report that holds what a shot shows, and nothing concluded from it.
JudgeReport begunReport(const Shot& shot);

/// Names, verdicts, ranking and advice from the report's reading. In: the scene it was read in; what is known of its panels (fileTags).
void conclude(JudgeReport& report, const Scene& scene, Filed filed, const JudgeRequest& request, const Standards& standards);

}  // namespace huewright
