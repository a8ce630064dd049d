#include "desk/shell.hpp"

#include <GLFW/glfw3.h>
#include <array>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <imgui.h>
#include <set>

#include "desk/keys.hpp"

namespace huewright::desk {
namespace {

static_assert(kKeySpace == GLFW_KEY_SPACE && kKeyEscape == GLFW_KEY_ESCAPE && kKeyDelete == GLFW_KEY_DELETE && kKeyEnd == GLFW_KEY_END && kKeyF1 == GLFW_KEY_F1 && kKeyUp == GLFW_KEY_UP && kKeyPageUp == GLFW_KEY_PAGE_UP);

#ifndef GL_CLAMP_TO_EDGE
#define GL_CLAMP_TO_EDGE 0x812F
#endif

class GlTextures final : public TextureMaker {
 public:
  TextureId make(Size size, std::span<const std::uint8_t> rgba, bool smooth) override {
    GLuint id = 0;
    glGenTextures(1, &id);
    glBindTexture(GL_TEXTURE_2D, id);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, smooth ? GL_LINEAR : GL_NEAREST);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA, size.width, size.height, 0, GL_RGBA, GL_UNSIGNED_BYTE, rgba.data());
    return reinterpret_cast<TextureId>(static_cast<std::uintptr_t>(id));
  }
  void drop(TextureId id) override {
    const auto name = static_cast<GLuint>(reinterpret_cast<std::uintptr_t>(id));
    glDeleteTextures(1, &name);
  }
};

class GlfwShell final : public Shell {
 public:
  explicit GlfwShell(GLFWwindow* window) : window_(window) {
    IMGUI_CHECKVERSION();
    ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    glfwSetWindowUserPointer(window_, this);
    glfwSetDropCallback(window_, [](GLFWwindow* w, int count, const char** paths) {
      auto& shell = *static_cast<GlfwShell*>(glfwGetWindowUserPointer(w));
      for (int i = 0; i < count; ++i) shell.dropped_.emplace_back(paths[i]);
    });
    ImGui_ImplGlfw_InitForOpenGL(window_, true);
    glfwSetKeyCallback(window_, [](GLFWwindow* w, int key, int scancode, int action, int mods) { static_cast<GlfwShell*>(glfwGetWindowUserPointer(w))->key({key, scancode, action, mods}); });
    ImGui_ImplOpenGL3_Init("#version 130");
  }
  ~GlfwShell() override {
    ImGui_ImplOpenGL3_Shutdown();
    ImGui_ImplGlfw_Shutdown();
    ImGui::DestroyContext();
    glfwDestroyWindow(window_);
    glfwTerminate();
  }
  void wait(double seconds) override {
    if (seconds > 0) glfwWaitEventsTimeout(seconds);
    else glfwPollEvents();
  }
  bool closed() const override { return glfwWindowShouldClose(window_) != 0; }
  void hide() override {
    glfwHideWindow(window_);
    glfwPollEvents();
  }
  void beginFrame() override {
    ImGui_ImplOpenGL3_NewFrame();
    ImGui_ImplGlfw_NewFrame();
    ImGui::NewFrame();
  }
  void endFrame(std::uint8_t grey) override {
    ImGui::Render();
    const Size s = size();
    glViewport(0, 0, s.width, s.height);
    const float g = static_cast<float>(grey) / 255.0f;
    glClearColor(g, g, g, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    glfwSwapBuffers(window_);
    fresh_.clear();
    for (const KeyEvent& late : std::exchange(late_, {})) ImGui_ImplGlfw_KeyCallback(window_, late.key, late.scancode, late.action, late.mods);
  }
  void fontsChanged() override { ImGui_ImplOpenGL3_DestroyFontsTexture(), ImGui_ImplOpenGL3_CreateFontsTexture(); }
  float contentScale() const override {
    float x = 1, y = 1;
    glfwGetWindowContentScale(window_, &x, &y);
    return x > 0 ? x : 1;
  }
  Size size() const override {
    Size s;
    glfwGetFramebufferSize(window_, &s.width, &s.height);
    return s;
  }
  Size windowSize() const override {
    Size s;
    glfwGetWindowSize(window_, &s.width, &s.height);
    return s;
  }
  TextureMaker& textures() override { return textures_; }
  std::vector<std::filesystem::path> dropped() override { return std::exchange(dropped_, {}); }

 private:
  struct KeyEvent {
    int key = 0, scancode = 0, action = 0, mods = 0;
  };
  /// A tap shorter than a frame must still be seen as down in one: its end waits until that frame is drawn, and so does what is let go after it, such as Ctrl.
  void key(const KeyEvent& event) {
    if (event.action == GLFW_PRESS) fresh_.insert(event.key);
    if (event.action == GLFW_RELEASE && (fresh_.contains(event.key) || !late_.empty())) late_.push_back(event);
    else ImGui_ImplGlfw_KeyCallback(window_, event.key, event.scancode, event.action, event.mods);
  }

  GLFWwindow* window_;
  std::set<int> fresh_;
  std::vector<KeyEvent> late_;
  GlTextures textures_;
  std::vector<std::filesystem::path> dropped_;
};

std::string glfw_trouble;

}  // namespace

Result<std::unique_ptr<Shell>> Shell::open(const std::string& title, int width, int height) {
  glfwSetErrorCallback([](int, const char* words) { glfw_trouble = words; });
  if (!glfwInit()) return fail(Code::NoWindow, glfw_trouble);
  glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
  glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 0);
  GLFWwindow* window = glfwCreateWindow(width, height, title.c_str(), nullptr, nullptr);
  if (!window) {
    glfwTerminate();
    return fail(Code::NoWindow, glfw_trouble);
  }
  glfwMakeContextCurrent(window);
  glfwSwapInterval(1);
  return std::make_unique<GlfwShell>(window);
}

void Shell::wake() { glfwPostEmptyEvent(); }

}  // namespace huewright::desk
