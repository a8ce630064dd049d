// Advice in sentences.
#pragma once

#include <string>

#include "mix/advise.hpp"

namespace huewright {

/// What to do next and why, in a few plain sentences on one line. In: everything of the advice but its sentence.
std::string adviceSentence(const Advice& advice);

}  // namespace huewright
