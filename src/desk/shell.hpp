// The window of the operating system: GLFW with OpenGL 3, ImGui's drawing, the clock of frames.
#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "base/problem.hpp"
#include "desk/textures.hpp"

namespace huewright::desk {

class Shell {
 public:
  /// Opens the window and makes an ImGui context current. Errors: NoWindow.
  static Result<std::unique_ptr<Shell>> open(const std::string& title, int width, int height);
  virtual ~Shell() = default;

  /// Sleeps until something happens, but for at most `seconds`; events are then in ImGui's hands. With 0 it does not wait.
  virtual void wait(double seconds) = 0;
  virtual bool closed() const = 0;
  /// Takes it off the screen: what is still at work may take seconds to end, and must not look like a window that hangs.
  virtual void hide() = 0;
  virtual void beginFrame() = 0;
  /// Draws what ImGui has, on a ground of that grey, and shows it.
  virtual void endFrame(std::uint8_t grey) = 0;
  /// The fonts were made anew.
  virtual void fontsChanged() = 0;
  virtual float contentScale() const = 0;
  /// Of the drawing, pixels; and of the window, screen units.
  virtual Size size() const = 0;
  virtual Size windowSize() const = 0;
  virtual TextureMaker& textures() = 0;
  /// Files that were dropped on the window since the last call.
  virtual std::vector<std::filesystem::path> dropped() = 0;
  /// Ends a wait() early; may be called from any thread.
  static void wake();
};

}  // namespace huewright::desk
