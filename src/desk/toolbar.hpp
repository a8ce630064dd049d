// A row of buttons that wraps, and puts what has no room behind a last one, "More".
#pragma once

#include <span>
#include <vector>

#include "desk/keys.hpp"

namespace huewright::desk {

struct ToolItem {
  Do what{};
  bool enabled = true, on = false;
  const char* word = nullptr;        ///< in place of the table's
};

/// Draws as many of the buttons, in their order, as fit into so many rows of the current window's width; the others stand in a list behind "More". All keys work. Gives what was clicked or pressed.
std::vector<Do> drawToolbar(const char* name, std::span<const ToolItem> items, int rows);

}  // namespace huewright::desk
