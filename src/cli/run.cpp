#include "cli/run.hpp"

#include <algorithm>
#include <unistd.h>

#include "cli/advise_command.hpp"
#include "cli/arguments.hpp"
#include "cli/command_table.hpp"
#include "cli/enter_key.hpp"
#include "cli/grey_command.hpp"
#include "cli/help.hpp"
#include "cli/judge_command.hpp"
#include "cli/map_command.hpp"
#include "cli/mat_command.hpp"
#include "cli/pour_command.hpp"
#include "cli/profile_command.hpp"
#include "cli/stop_signals.hpp"
#include "cli/tag_command.hpp"
#include "cli/watch_camera.hpp"
#include "cli/watch_command.hpp"
#include "session/advise_json.hpp"
#include "session/data_folder.hpp"
#include "session/pour_json.hpp"
#include "session/report_json.hpp"
#include "session/session.hpp"
#include "session/user_data.hpp"

namespace huewright {
namespace {

Outcome wentWrong(const Problem& problem) { return {exitCode(problem.code), {}, sentence(problem) + "\n"}; }

Outcome judge(const Arguments& arguments, bool blocks) {
  const auto calib = findCalib();
  if (!calib) return wentWrong(calib.error());
  const auto session = Session::open(*calib);
  if (!session) return wentWrong(session.error());
  auto request = judgeRequest(arguments, session->standards());
  if (!request) return wentWrong(request.error());
  request->grey = greyFrom(arguments, keptGreyPath());
  const auto report = session->judge(*request);
  if (!report) return wentWrong(report.error());
  Outcome outcome;
  const bool explain = arguments.has("--explain");
  outcome.out = arguments.has("--json") ? toJson(*report, explain) : judgeText(*report, explain, blocks);
  if (arguments.has("--gate") && report->verdicts[report->main].band != Band::There) outcome.exit = 1;
  return outcome;
}

Outcome watching(const Arguments& arguments, const Outlet& outlet) {
  const StopSignals signals;
  const auto calib = findCalib();
  if (!calib) return wentWrong(calib.error());
  const auto session = Session::open(*calib);
  if (!session) return wentWrong(session.error());
  if (arguments.has("--camera")) {
    auto request = watchCameraRequest(arguments, session->standards());
    if (!request) return wentWrong(request.error());
    request->judge.grey = greyFrom(arguments, keptGreyPath());
    EnterKey enter(STDIN_FILENO);
    return watchCamera(*request, *session, outlet, signals.token(), {terminalColumns(), [&] { return enter.pressed(); }});
  }
  auto request = watchRequest(arguments, session->standards());
  if (!request) return wentWrong(request.error());
  request->judge.grey = greyFrom(arguments, keptGreyPath());
  return watch(*request, *session, outlet, signals.token());
}

Outcome mat(const Arguments& arguments) {
  const auto request = matRequest(arguments);
  if (!request) return wentWrong(request.error());
  const auto calib = findCalib();
  if (!calib) return wentWrong(calib.error());
  const auto written = writeMat(*request, *calib);
  if (!written) return wentWrong(written.error());
  return {0, matText(*request, *written), {}};
}

Outcome tag(const Arguments& arguments) {
  const auto request = tagRequest(arguments);
  if (!request) return wentWrong(request.error());
  const auto written = writeTags(*request);
  if (!written) return wentWrong(written.error());
  return {0, tagText(*request, *written), {}};
}

Outcome map(const Arguments& arguments) {
  const auto calib = findCalib();
  if (!calib) return wentWrong(calib.error());
  const auto session = Session::open(*calib);
  if (!session) return wentWrong(session.error());
  auto request = mapRequest(arguments, session->standards());
  if (!request) return wentWrong(request.error());
  request->judge.grey = greyFrom(arguments, keptGreyPath());
  const auto report = session->map(*request);
  if (!report) return wentWrong(report.error());
  return {0, mapText(*request, *report), {}};
}

Outcome keptGrey(GreyWish wish) {
  const auto path = keptGreyPath();
  if (!path) return wentWrong(path.error());
  if (wish == GreyWish::Forget) {
    const auto was_there = forgetGrey(*path);
    if (!was_there) return wentWrong(was_there.error());
    return {0, *was_there ? "The kept grey patch is forgotten.\n" : noGreyText(), {}};
  }
  if (!greyFrom({}, path)) return {0, noGreyText(), {}};
  const auto grey = readKeptGrey(*path);
  if (!grey) return wentWrong(grey.error());
  return {0, keptGreyText(*grey, *path), {}};
}

Outcome grey(const Arguments& arguments) {
  const auto wish = greyWish(arguments);
  if (!wish) return wentWrong(wish.error());
  if (*wish != GreyWish::Measure) return keptGrey(*wish);
  auto request = greyRequest(arguments);
  if (!request) return wentWrong(request.error());
  if (!arguments.has("--out")) {
    const auto path = keptGreyPath();
    if (!path) return wentWrong(path.error());
    request->out = *path;
  }
  const auto calib = findCalib();
  if (!calib) return wentWrong(calib.error());
  const auto report = measureGrey(*request, *calib);
  if (!report) return wentWrong(report.error());
  return {0, greyText(*request, *report, arguments.has("--out")), {}};
}

Outcome pourOut(const Arguments& arguments) {
  const auto request = pourRequest(arguments);
  if (!request) return wentWrong(request.error());
  const auto report = pour(*request);
  if (!report) return wentWrong(report.error());
  return {0, arguments.has("--json") ? toJson(*request, *report) : pourText(*request, *report), {}};
}

Outcome advise(const Arguments& arguments, bool blocks) {
  const auto request = adviseRequest(arguments);
  if (!request) return wentWrong(request.error());
  const auto report = adviseOn(*request);
  if (!report) return wentWrong(report.error());
  return {0, arguments.has("--json") ? adviseJson(*report) : adviseText(*request, *report, blocks), {}};
}

Outcome grounds(const Arguments& arguments, bool blocks) {
  const auto request = groundsRequest(arguments);
  if (!request) return wentWrong(request.error());
  const auto report = groundsOf(*request);
  if (!report) return wentWrong(report.error());
  return {0, arguments.has("--json") ? groundsJson(*report) : groundsText(*request, *report, blocks), {}};
}

Outcome profile(const Arguments& arguments) {
  const auto request = profileRequest(arguments);
  if (!request) return wentWrong(request.error());
  const auto calib = findCalib();
  if (!calib) return wentWrong(calib.error());
  const auto session = Session::open(*calib);
  if (!session) return wentWrong(session.error());
  const auto report = session->profile(*request);
  if (!report) return wentWrong(report.error());
  constexpr int kInput = 3;
  if (report->health.health == Health::NotUsable) return {kInput, {}, profileText(*request, *report)};
  return {0, profileText(*request, *report), {}};
}

}  // namespace

Outcome run(const std::vector<std::string>& words, bool blocks, const Outlet& outlet) {
  const auto arguments = parseArguments(words);
  if (!arguments) return wentWrong(arguments.error());
  switch (arguments->want) {
    case Arguments::Want::Help: return {0, programHelp(), {}};
    case Arguments::Want::Version: return {0, "huewright " HUEWRIGHT_VERSION "\n", {}};
    case Arguments::Want::CommandHelp:
    case Arguments::Want::Run: break;
  }
  const auto table = commandTable();
  const auto command = std::ranges::find(table, arguments->command, &CommandRow::name);
  if (command == table.end()) return wentWrong({Code::BadOption, "No command was given"});
  if (arguments->want == Arguments::Want::CommandHelp) return {0, commandHelp(*command), {}};
  if (arguments->command == "mat") return mat(*arguments);
  if (arguments->command == "tag") return tag(*arguments);
  if (arguments->command == "profile") return profile(*arguments);
  if (arguments->command == "map") return map(*arguments);
  if (arguments->command == "grey") return grey(*arguments);
  if (arguments->command == "pour") return pourOut(*arguments);
  if (arguments->command == "advise") return advise(*arguments, blocks);
  if (arguments->command == "grounds") return grounds(*arguments, blocks);
  if (arguments->command == "watch") return watching(*arguments, outlet);
  return judge(*arguments, blocks);
}

}  // namespace huewright
