#include "sitting/inside.hpp"

#include <algorithm>

#include "photo/write.hpp"
#include "session/text_file.hpp"
#include "sitting/memory.hpp"

namespace huewright {
namespace {

constexpr std::size_t kMostRecent = 12;

}  // namespace

std::string Sitting::Inside::text() const { return memoryText({state.plan, state.recent, window}); }

void Sitting::Inside::keep() {
  if (places.memory.empty()) return;
  quick.post("memory", "", [file = places.memory, text = text(), this](const Progress&) -> Finish {
    if (writeWhole(file, text)) return {};
    return [this, file] { say(Problem{Code::WriteFailed, file.string()}); };
  });
}

void Sitting::Inside::recall() {
  std::error_code ignored;
  if (places.memory.empty() || !fs::exists(places.memory, ignored)) return;
  const auto text = readTextFile(places.memory, Code::MemoryUnusable);
  auto memory = text ? readMemory(*text) : Result<Memory>(std::unexpected(text.error()));
  if (!memory) {
    fs::path aside = places.memory;
    aside += ".unreadable";
    fs::copy_file(places.memory, aside, fs::copy_options::overwrite_existing, ignored);
    say(Problem{Code::MemoryUnusable, aside.string()});
    return;
  }
  state.plan = std::move(memory->plan);
  state.recent = std::move(memory->recent);
  window = std::move(memory->window);
  for (const PlannedPhoto& photo : state.plan.photos) next_id = std::max(next_id, photo.id + 1);
  if (const PlannedPhoto* first = firstPhoto(state.plan)) state.shown = first->id;
}

void Sitting::Inside::lately(const fs::path& file) {
  std::error_code ignored;
  const fs::path whole = fs::absolute(file, ignored);
  std::erase(state.recent, whole);
  state.recent.insert(state.recent.begin(), whole);
  if (state.recent.size() > kMostRecent) state.recent.resize(kMostRecent);
}

}  // namespace huewright
