#include "cli/watch_command.hpp"

#include <fmt/format.h>

#include "base/text.hpp"
#include "cli/judge_command.hpp"
#include "cli/talk.hpp"
#include "session/report_json.hpp"
#include "session/report_text.hpp"
#include "session/series.hpp"
#include "session/series_file.hpp"
#include "session/watched_photo.hpp"

namespace huewright {
namespace {

std::string shownName(const std::string& name) { return isPlainUtf8(name) ? name : asPlainUtf8(name); }

/// What is printed of an event, and where.
struct SaidOfEvent {
  std::string out, err;
};

SaidOfEvent saidOf(const WatchEvent& event, const WatchRequest& request) {
  const std::string name = shownName(event.name);
  const std::string care = event.caution ? sentence(*event.caution) + "\n" : std::string();
  switch (event.kind) {
    case WatchEvent::Kind::Judged: return {event.verdict->line, care.empty() ? care : name + ": " + care};
    case WatchEvent::Kind::Unusable: return {problemLine(request.folder / event.name, *event.problem, request.json), {}};
    case WatchEvent::Kind::SamePhoto: return {{}, fmt::format("{}: the same photo as {}; it is not judged again.\n", name, shownName(event.same_as))};
    case WatchEvent::Kind::FolderBack: return {{}, "The folder is back; the watch goes on.\n"};
    case WatchEvent::Kind::FolderAway:
    case WatchEvent::Kind::ListDamaged: break;
  }
  return {{}, care};
}

}  // namespace

Result<WatchRequest> watchRequest(const Arguments& arguments, const Standards& standards) {
  WatchRequest request;
  const std::string* folder = arguments.value("--folder");
  if (folder == nullptr || folder->empty()) return fail(Code::BadChoice, "Say what is to be watched: a folder with --folder DIR, or a camera with --camera 0");
  if (arguments.has("--stills")) return fail(Code::BadChoice, "--stills is for --camera");
  if (!arguments.files.empty()) return fail(Code::BadChoice, "\"" + arguments.files.front() + "\" was given as a photo, but watch judges what comes into the folder. Use huewright judge for it");
  request.folder = *folder;
  const auto told = watchWords(arguments, "photos");
  if (!told) return std::unexpected(told.error());
  static_cast<WatchWords&>(request) = *told;
  Arguments each = arguments;
  each.files = {*folder};  // each photo's own name comes in its place
  auto judge = judgeRequest(each, standards);
  if (!judge) return std::unexpected(judge.error());
  request.series = std::exchange(judge->series, std::nullopt);
  if (request.series)
    if (const auto fit = fitForSeries(*judge); !fit) return std::unexpected(fit.error());
  if (const auto checked = Session::check(*judge); !checked) return std::unexpected(checked.error());
  request.judge = std::move(*judge);
  return request;
}

std::string verdictLine(const std::string& name, const JudgeReport& report) { return shownName(name) + ": " + verdictSentences(report) + "\n"; }

std::string problemLine(const std::filesystem::path& photo, const Problem& problem, bool json) {
  if (json) return problemJson(photo, problem);
  return shownName(photo.filename().string()) + ": " + sentence(problem) + "\n";
}

Outcome watch(const WatchRequest& request, const Session& session, const Outlet& outlet, const std::stop_token& stop, const WatchTimes& times) {
  Outcome outcome;
  Talk talk(outlet, outcome);
  std::optional<SeriesFile> series;
  if (request.series) {
    auto file = SeriesFile::open(*request.series);
    if (!file) return talk.wrong(file.error());
    series = std::move(*file);
  }
  const auto judge = [&](const std::filesystem::path& photo, const std::stop_token& until) -> Result<PhotoVerdict> {
    auto verdict = judgeWatched(session, request.judge, photo, request.explain, series ? &*series : nullptr, until);
    if (verdict) verdict->line = request.json ? toJsonLine(*verdict->report, request.explain) : verdictLine(photo.filename().string(), *verdict->report);
    return verdict;
  };
  auto folder = WatchFolder::open(request.folder, judge, times);
  if (!folder) return talk.wrong(folder.error());
  talk.err(fmt::format("Watching \"{}\". Ctrl-C ends it.\n", shownName(request.folder.string())));
  bool all_there = true;
  for (std::size_t judged = 0; talk.writes() && (!request.count || judged < *request.count);) {
    const auto event = folder->next(stop);
    if (!event) return talk.wrong(event.error());
    if (!*event) break;
    const SaidOfEvent said = saidOf(**event, request);
    talk.err(said.err);
    talk.out(said.out);
    if ((*event)->kind != WatchEvent::Kind::Judged) continue;
    ++judged;
    all_there = all_there && (*event)->verdict->there;
  }
  if (const auto kept = folder->keepList(); !kept) return talk.wrong(kept.error());
  if (!talk.writes()) return talk.unheard();
  if (request.gate && !all_there) outcome.exit = 1;
  return outcome;
}

}  // namespace huewright
