#include "cli/watch_camera.hpp"

#include <cmath>
#include <fmt/format.h>
#include <utility>

#include "base/text.hpp"
#include "capture/hold_words.hpp"
#include "cli/judge_command.hpp"
#include "cli/talk.hpp"
#include "session/report_json.hpp"
#include "session/report_text.hpp"
#include "session/watch_folder.hpp"

namespace huewright {
namespace {

/// What the feed has to tell, for people. Nothing of what tells itself by the verdict.
std::string newsLine(const FeedNews& news) {
  if (news.caution) return sentence(*news.caution) + "\n";
  switch (news.kind) {
    case FeedNews::Kind::Back: return "The camera is back; the watch goes on.\n";
    case FeedNews::Kind::Held: return holdWords(news.holds) + ".\n";
    case FeedNews::Kind::OtherSize: return fmt::format("The camera's pictures are {} by {} pixels now.\n", news.size.width, news.size.height);
    case FeedNews::Kind::Away:
    case FeedNews::Kind::Empty:
    case FeedNews::Kind::Frozen:
    case FeedNews::Kind::Half:
    case FeedNews::Kind::End: break;
  }
  return {};
}

/// As much of a line as fits, whole characters of UTF-8.
std::string fitted(std::string line, std::size_t columns) {
  std::size_t at = 0, shown = 0;
  for (; at < line.size(); ++at)
    if ((static_cast<unsigned char>(line[at]) & 0xC0U) != 0x80U && ++shown > columns) break;
  line.resize(at);
  return line;
}

/// Writes lines over each other on a terminal, or below each other where they differ.
class LiveLines {
 public:
  LiveLines(Talk& talk, std::size_t columns) : talk_(talk), columns_(columns) {}

  void verdict(const std::string& line) {
    if (columns_ > 0) talk_.out("\r\x1b[K" + fitted(line, columns_ - 1)), over_ = true;  // ECMA-48, erase in line
    else if (line != last_) talk_.out(line + "\n");
    last_ = line;
  }
  void people(const std::string& line) {
    if (line.empty()) return;
    end();
    talk_.err(line);
  }
  /// A line that is written over stays as it is.
  void end() {
    if (std::exchange(over_, false)) talk_.out("\n");
  }

 private:
  Talk& talk_;
  std::size_t columns_;
  std::string last_;
  bool over_ = false;
};

}  // namespace

Result<WatchCameraRequest> watchCameraRequest(const Arguments& arguments, const Standards& standards) {
  WatchCameraRequest request;
  const std::string* camera = arguments.value("--camera");
  if (camera == nullptr || camera->empty()) return fail(Code::BadChoice, "Say which camera is to be watched with --camera 0, or a film's name");
  if (arguments.has("--folder")) return fail(Code::BadChoice, "Give --camera or --folder, not both");
  if (!arguments.files.empty()) return fail(Code::BadChoice, "\"" + arguments.files.front() + "\" was given as a photo, but watch judges what the camera shows. Use huewright judge for it");
  const auto told = watchWords(arguments, "verdicts");
  if (!told) return std::unexpected(told.error());
  static_cast<WatchWords&>(request) = *told;
  if (const std::string* folder = arguments.value("--stills")) request.stills = *folder;
  Arguments one = arguments;
  one.files = {*camera};
  auto judge = judgeRequest(one, standards);
  if (!judge) return std::unexpected(judge.error());
  if (judge->series) return fail(Code::BadChoice, "A live verdict goes into no series. Take a still with --stills and judge that");
  if (const auto checked = Session::check(*judge); !checked) return std::unexpected(checked.error());
  request.judge = std::move(*judge);
  return request;
}

std::string liveLine(const LiveVerdict& verdict) {
  if (!verdict.report) return verdict.problem ? sentence(*verdict.problem) : std::string("Looking.");
  std::string line = verdict.state == LiveState::Moving ? "(It moves; hold still.) " : "";
  line += verdictSentences(*verdict.report);
  const auto frames = static_cast<int>(std::lround(verdict.frames));
  line += fmt::format(" [{} {}", frames, frames == 1 ? "frame" : "frames");
  if (verdict.noise) line += fmt::format(", noise {:.2f}", *verdict.noise);
  return line + "]";
}

Outcome watchCamera(const WatchCameraRequest& request, const Session& session, const Outlet& outlet, const std::stop_token& stop, const LiveTerminal& terminal, CameraFeed::Open open,
                    const FeedTimes& times) {
  Outcome outcome;
  const std::string name = request.judge.photo.string();
  Talk talk(outlet, outcome);
  LiveLines lines(talk, request.json ? 0 : terminal.columns);
  const auto wrong = [&](const Problem& problem) {
    lines.end();
    return talk.wrong(problem);
  };
  auto live = LiveWatch::open(session, request.judge, {}, std::move(open), times);
  if (!live) return wrong(live.error());
  lines.people(fmt::format("Watching the camera \"{}\". {}Ctrl-C ends it.\n", isPlainUtf8(name) ? name : asPlainUtf8(name), terminal.wants_still && request.stills ? "Enter takes a still, " : ""));
  std::size_t judged = 0;
  bool there = false;
  std::optional<Problem> none;
  while (talk.writes() && (!request.count || judged < *request.count)) {
    const auto event = live->next(stop);
    if (!event) return wrong(event.error());
    if (!*event) break;
    if ((*event)->news) {
      lines.people(newsLine(*(*event)->news));
      continue;
    }
    const LiveVerdict& verdict = *(*event)->verdict;
    if (verdict.problem && verdict.problem->code == Code::Stopped) break;
    if (verdict.problem && !ofThePhoto(verdict.problem->code)) return wrong(*verdict.problem);
    if (request.json) talk.out(liveJson(name, verdict, (*event)->seconds, request.explain));
    else lines.verdict(liveLine(verdict));
    if (verdict.report) {
      ++judged;
      there = verdict.report->verdicts[verdict.report->main].band == Band::There;
    } else {
      none = verdict.problem;
    }
    if (request.stills && terminal.wants_still && terminal.wants_still() && live->lastFrame()) {
      const auto still = takeStill(*live->lastFrame(), *request.stills);
      lines.people(still ? fmt::format("A still is in \"{}\".\n", still->string()) : sentence(still.error()) + "\n");
    }
  }
  lines.end();
  if (!talk.writes()) return talk.unheard();
  if (judged == 0 && none) return wrong(*none);
  if (request.gate && !there) outcome.exit = 1;
  return outcome;
}

}  // namespace huewright
