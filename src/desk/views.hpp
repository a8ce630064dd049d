// The views: each draws a part of the state into the current ImGui window and puts what the person did into `out`. No view reads a file, waits or works out a colour.
#pragma once

#include "desk/textures.hpp"
#include "desk/theme.hpp"
#include "desk/view.hpp"

namespace huewright::desk {

struct Drawing {
  const SittingState& state;
  const Look& look;
  Textures& textures;
  Actions& out;
};

/// photo_view.cpp: the photo that is shown, filling what is left of the window: zoom, pan, regions with handles, mat, chart and strips, map with its legend, marks, magnifier.
void drawPhoto(PhotoViewState& view, Drawing& d);
/// photo_strip.cpp: all photos of the sitting in a row, with their roles; and the buttons that add one (which open the browser).
void drawStrip(DeskState& desk, Drawing& d);
/// browser_view.cpp: the file browser as a sheet over the window, while desk.browser.asking says so.
void drawBrowser(DeskState& desk, Drawing& d);
/// Opens it for that, in the folder where the last file was opened.
void askForFile(DeskState& desk, Asking asking, Actions& out);
/// verdict_view.cpp: swatches edge to edge, the verdict, what to do, cautions.
void drawVerdict(DeskState& desk, Drawing& d);
/// room_view.cpp: the verdict across the room: of the camera while it runs, else of the photo that came last into a followed folder, else of the photo that is judged.
void drawRoom(DeskState& desk, Drawing& d);
/// sprayed_view.cpp: how the panel was sprayed and is to be judged.
void drawSprayed(DeskState& desk, Drawing& d);
/// series_view.cpp: readings, plot, the next mix, other grounds.
void drawSeries(DeskState& desk, Drawing& d);
/// pour_view.cpp: how much to pour, and the sheet to print.
void drawPour(DeskState& desk, Drawing& d);
/// camera_view.cpp: charts with their patches, the profile's health.
void drawCamera(DeskState& desk, Drawing& d);
/// live_view.cpp: the camera's picture with its verdict, and photos as they come into a folder.
void drawLive(DeskState& desk, Drawing& d);
/// keys_view.cpp: the list of keys.
void drawKeys(DeskState& desk, Drawing& d);
/// first_steps_view.cpp: three steps with the demo.
void drawFirstSteps(DeskState& desk, Drawing& d);

}  // namespace huewright::desk
