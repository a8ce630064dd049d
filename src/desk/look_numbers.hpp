// What the window keeps of itself, as the plain numbers that a sitting keeps.
#pragma once

#include <map>
#include <string>

#include "desk/view.hpp"

namespace huewright::desk {

/// How it looks, and what was told of the cup; what was not told of that has no number.
std::map<std::string, double> numbersOf(const DeskLook& look, const PourViewState& cup);

/// Numbers that are missing or make no sense are as in a new window.
DeskLook lookOf(const std::map<std::string, double>& numbers);
PourViewState cupOf(const std::map<std::string, double>& numbers);

}  // namespace huewright::desk
