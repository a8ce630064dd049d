// Words with a sign before them, told by its shape.
#pragma once

#include "desk/theme.hpp"

namespace huewright::desk {

/// A caution: a triangle with a stroke in it, and the sentence, wrapped.
void cautionLine(const char* sentence, const Look& look);

/// One of several: a short stroke, and the words, wrapped.
void itemLine(const char* words, const Look& look);

/// A heading, wrapped, with a line below it across the room.
void heading(const char* words, const Look& look);

}  // namespace huewright::desk
