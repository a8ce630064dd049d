// The bands of a verdict in words and in shapes, so that none hangs on colour alone.
#pragma once

#include "desk/theme.hpp"
#include "sitting/state.hpp"

namespace huewright::desk {

/// "There", "Can't say", "Nearly", "Not there".
const char* bandWords(Band band);

/// The band as a shape: a full disc for there, an open ring with a dot for nearly, a broken ring for can't say, a ring beside a square for not there. At the cursor; `size` high and wide.
void drawBand(Band band, float size, const Look& look);

}  // namespace huewright::desk
