// A sheet over the window's middle, for things that are asked now and then.
#pragma once

#include "desk/theme.hpp"

namespace huewright::desk {

/// Begins it, as wide and high as told at scale 1 but never more than the window; true always. Scrolls when it must. End with endSheet.
void beginSheet(const char* name, float width, float height, const Look& look);
/// Draws nothing more. Gives false when somebody clicked outside.
bool endSheet();

}  // namespace huewright::desk
