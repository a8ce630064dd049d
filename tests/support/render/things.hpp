// What a scene's panels, card and chip are to the canvas.
#pragma once

#include "render/canvas.hpp"

namespace huewright::render {

Thing thingAt(const Place& place, const Perspective& perspective);
void giveBody(Thing& thing, const Eye& eye, const Spectrum& body);

Thing panelThing(const PanelSpec& panel, const Eye& eye, const Perspective& perspective, double veil);
Thing cardThing(const CardSpec& card, const Eye& eye, const Perspective& perspective, double veil);
Thing chipThing(const ChipSpec& chip, const Eye& eye, const Perspective& perspective, double veil);

}  // namespace huewright::render
