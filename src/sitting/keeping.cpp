#include "sitting/inside.hpp"

#include <algorithm>

#include "photo/write.hpp"
#include "session/text_file.hpp"
#include "sitting/memory.hpp"

namespace huewright {
namespace {

constexpr std::size_t kMostRecent = 12;

Result<Memory> keptIn(const fs::path& file) {
  const auto text = readTextFile(file, Code::MemoryUnusable);
  return text ? readMemory(*text) : Result<Memory>(std::unexpected(text.error()));
}

}  // namespace

std::string Sitting::Inside::text() const { return memoryText({state.plan, state.recent, window, state.live.source, state.live.stills, state.followed.folder, state.followed.by_tags}); }

void Sitting::Inside::keep() {
  if (memory.file().empty()) return;
  quick.post("memory", "", [file = memory.file(), text = text(), this](const Progress&) -> Finish {
    if (writeWhole(file, text)) return {};
    return [this, file] { say(Problem{Code::WriteFailed, file.string()}); };
  });
}

void Sitting::Inside::sayBeside() {
  const std::string other = "Another window is open, and keeps its work in " + places.memory.filename().string() + ". ";
  if (memory.file().empty()) return say(other + "So many are open that this one's work is not kept from start to start: save the series.", true);
  say(other + "What you do here is kept apart, in " + memory.file().filename().string() + ", and comes back when a second window is open again.", true);
  // It looks as the other one does.
  std::error_code ignored;
  if (fs::exists(memory.file(), ignored)) return;
  if (auto kept = keptIn(places.memory)) state.recent = std::move(kept->recent), window = std::move(kept->window);
}

void Sitting::Inside::recall() {
  std::error_code ignored;
  const fs::path& file = memory.file();
  if (memory.beside()) sayBeside();
  if (file.empty() || !fs::exists(file, ignored)) return;
  auto kept = keptIn(file);
  if (!kept) {
    fs::path aside = file;
    aside += ".unreadable";
    fs::copy_file(file, aside, fs::copy_options::overwrite_existing, ignored);
    say(Problem{Code::MemoryUnusable, aside.string()});
    return;
  }
  state.plan = std::move(kept->plan);
  state.recent = std::move(kept->recent);
  window = std::move(kept->window);
  state.live.source = std::move(kept->camera);
  if (!kept->stills.empty()) state.live.stills = std::move(kept->stills);
  state.followed.folder = std::move(kept->followed);
  state.followed.by_tags = kept->by_tags;
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
