// Things in a row that goes on in the next line where the width ends, so that every page fits narrow windows and large type.
#pragma once

#include <string>

#include "desk/keys.hpp"

struct ImFont;

namespace huewright::desk {

class Flow {
 public:
  /// Begins a row at the cursor. gap: px between two things; 0: as ImGui's style has it.
  explicit Flow(float gap = 0);
  /// To be called before each thing: puts it beside the last one if that wide (px) a thing fits there.
  void next(float width);
  /// A button of the table, wrapped.
  bool button(Do what, bool enabled = true, bool on = false, const char* word = nullptr);
  /// A line of type, wrapped as a whole; middle of a frame's height. It breaks within itself only if it is wider than the room.
  void words(const char* text);

 private:
  float gap_, right_;                ///< px; right_: of the room, on the screen
  bool first_ = true;
};

/// The text with line ends in place of spaces, so that no line is wider than that many px unless it is a single word. ImGui by itself breaks lines after every point and comma too, and so within a number.
/// font: nothing for the one in use; size: px, 0 for the font's own.
std::string inLines(const std::string& text, float width, ImFont* font = nullptr, float size = 0);
/// px that it takes from top to bottom when drawn so.
float heightInLines(const std::string& text, float width, ImFont* font, float size);

/// Type that breaks at the room's right edge, at spaces. font: nothing for the one in use.
void wrapped(const std::string& text, ImFont* font = nullptr);

/// px that a button with that word takes.
float buttonWidth(const char* word);

}  // namespace huewright::desk
