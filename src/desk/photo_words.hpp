// Sentences over a photo, in boxes that show on any picture.
#pragma once

#include <string>

#include "desk/photo_place.hpp"
#include "desk/theme.hpp"

namespace huewright::desk {

enum class WordsAt { Top, Middle, Foot };

/// Draws a sentence into the field, wrapped to it, and takes the room that it used at the top or foot away from the field.
void drawSentence(Field& field, const std::string& words, WordsAt at, const Look& look);

}  // namespace huewright::desk
