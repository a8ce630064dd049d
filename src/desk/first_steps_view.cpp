#include <array>
#include <imgui.h>

#include "desk/flow.hpp"
#include "desk/sheet.hpp"
#include "desk/views.hpp"

namespace huewright::desk {
namespace {

struct FirstStep {
  const char* title;
  const char* text;
  const char* go;
  Page page;
};

constexpr std::array<FirstStep, 3> kFirstSteps{{
    {"1. How far off is the panel?",
     "A teal is wanted for a touring bicycle. The panel lies on the printed mat beside the wanted colour's card and a grey patch. Open the photo: the mat is found, the light is evened out, and the "
     "verdict stands beside the photo, with how sure it is and what to do.",
     "Open the sample photo", Page::Panel},
    {"2. What to spray next?",
     "Each panel that was judged can be kept with its mix and coats. From a few of them the program works out the next mix in parts that a cup shows, and what to expect of it.",
     "Open the sample series", Page::Mixes},
    {"3. Does the camera tell the truth?",
     "With a photo of a 24-patch colour chart in your own light the program learns your camera: colours come out right, not only differences.",
     "Open the sample chart", Page::Camera},
}};

}  // namespace

void drawFirstSteps(DeskState& desk, Drawing& d) {
  const auto at = static_cast<std::size_t>(desk.first_step - 1);
  const FirstStep& step = kFirstSteps[at < kFirstSteps.size() ? at : 0];
  beginSheet("first steps", 660, 330, d.look);
  wrapped(step.title, d.look.type.large);
  ImGui::Dummy({0, 6 * d.look.scale});
  wrapped(step.text);
  wrapped("The job, the paints and the photos are invented.");
  ImGui::Dummy({0, 10 * d.look.scale});
  const auto putAway = [&] {
    desk.look.been_here = true;
    desk.first_step = 0;
  };
  const int now = desk.first_step;
  if (button(Do::TakeStep, true, false, step.go)) {
    d.out.push_back(act::Demo{now});
    desk.look.page = step.page;
    putAway();
  }
  ImGui::SameLine();
  if (button(Do::StepBefore, now > 1)) --desk.first_step;
  ImGui::SameLine();
  if (button(Do::NextStep, now < static_cast<int>(kFirstSteps.size()))) ++desk.first_step;
  if (button(Do::NotNow)) putAway();
  ImGui::SameLine();
  if (button(Do::OwnPhoto)) {
    putAway();
    askForFile(desk, Asking::Photo, d.out);
  }
  ImGui::Dummy({0, 6 * d.look.scale});
  wrapped("These steps come back with F11; F12 shows all keys.");
  if (!endSheet()) putAway();
}

}  // namespace huewright::desk
