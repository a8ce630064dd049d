#include "session/live_judge.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "colour/delta_e.hpp"
#include "judge/frame_noise.hpp"
#include "scene/shake.hpp"
#include "scene/tag_finder.hpp"
#include "session/conclude.hpp"
#include "session/shot.hpp"

namespace huewright {
namespace {

// All set on simulated frames, as shares of the longest side or as numbers of frames.
constexpr double kStillStep = 0.0012;    // from frame to frame: about two pixels of 1920
constexpr double kMostBeyond = 0.0012;   // that a whole-pixel shift leaves at the corners
constexpr double kMostShift = 0.06;      // beyond it the edges of the average run out of pixels
constexpr int kLostFrames = 5;
constexpr int kChangedFrames = 3;
constexpr double kMoreFrames = 4;
constexpr int kTagFrames = 10;
constexpr double kChangedBy = 0.02, kChangedSds = 8;

template <class Move>
Regions movedRegions(const Regions& regions, const Move& move) {
  Regions out;
  const auto quad = [&](Quad q) {
    for (Point& p : q.corners) p = move(p);
    return q;
  };
  for (const Quad& panel : regions.panels) out.panels.push_back(quad(panel));
  for (const Quad& grey : regions.greys) out.greys.push_back(quad(grey));
  if (regions.card) out.card = quad(*regions.card);
  if (regions.black) out.black = quad(*regions.black);
  return out;
}

}  // namespace

std::string_view liveStateName(LiveState state) {
  constexpr std::array<std::string_view, 3> kNames{"looking", "moving", "steady"};
  return kNames[static_cast<std::size_t>(state)];
}

struct LiveJudge::Inside {
  /// What stays the same from verdict to verdict as long as nothing moved.
  struct Laid {
    SetUp set_up;
    ShotProfile profile;
    double profile_frames = 0;  ///< that were averaged when the profile was found
    TagSearch tags;
    double tag_frames = 0;      ///< that were averaged when tags were looked for
  };

  const Session* session = nullptr;
  std::filesystem::path calib;
  JudgeRequest request;       ///< places that a person gave are where they lie in the frame that others are measured against
  Regions given;              ///< such places as they were given, in the frame of `origin`
  std::optional<ShakeMeter> origin;   ///< the first frame, for places by hand: measured against it, handing on from frame to frame adds up no error
  std::optional<ShakeMeter> meter;
  std::optional<FrameStack> stack;
  FrameRounding rounding;     ///< of the last frame
  FrameNoise steady;          ///< of the bare means of every frame: what departs from it is not averaged
  FrameNoise noise;           ///< of whole readings of single frames, one a verdict
  std::optional<FrameStack> single;   ///< the last frame alone, until it is read
  std::optional<Laid> laid;
  Shake last{};               ///< of the last frame that was known again
  int lost = 0, changed = 0;
  int since_tags = 0;         ///< frames since tags were looked for
  bool disturbed = false;     ///< something moved since then: a hand may have laid one down
  bool still = true;
  LiveState state = LiveState::Looking;

  void begin(std::span<const std::uint8_t> rgb, Size size) {
    meter.emplace(rgb, size);
    stack.emplace(size, request.encoding);
    stack->compressed(rounding);
    stack->add(rgb);
    steady.clear();
    noise.clear();
    single.reset();
    laid.reset();
    last = {};
    last.size = size;
    lost = changed = 0;
  }

  bool byHand() const { return !usesMat(request); }
  bool isLost() const { return lost >= kLostFrames; }

  /// Without what was averaged. Where places were given by a person, what they were given for is known again from then on too.
  void forget() {
    laid.reset();
    steady.clear();
    noise.clear();
    single.reset();
    if (byHand() && stack) stack.emplace(stack->size(), request.encoding);
    else stack.reset();
  }

  /// Why there is nothing to judge; nothing when there is.
  std::optional<Problem> nothingYet() const {
    if (byHand() && isLost()) return Problem{Code::PlacesLost, {}};
    if (!stack || stack->frames() == 0) return Problem{Code::LiveMoving, {}};
    return {};
  }

  LiveState take(std::span<const std::uint8_t> rgb, Size size) {
    const LiveState now = taken(rgb, size);
    disturbed = disturbed || now == LiveState::Moving;
    ++since_tags;
    return now;
  }

  LiveState taken(std::span<const std::uint8_t> rgb, Size size) {
    if (byHand() && stack && stack->size() != size) {
      lost = kLostFrames;  // nobody knows where the places lie in pictures of another size
      return LiveState::Moving;
    }
    if (!stack || stack->size() != size) {
      if (byHand()) origin.emplace(rgb, size), given = request.regions;
      begin(rgb, size);
      return LiveState::Steady;
    }
    const double side = std::max(size.width, size.height);
    const auto shake = meter->measure(rgb);
    if (!shake) {
      // Something lies before the camera, or it was turned elsewhere. Places that a person gave hold for what they were given for: that is waited for.
      ++lost;
      if (isLost() && !byHand()) begin(rgb, size);
      return LiveState::Moving;
    }
    lost = 0;
    const bool was_still = still;
    still = std::hypot(shake->dx - last.dx, shake->dy - last.dy) <= kStillStep * side && std::abs(shake->beyondShift() - last.beyondShift()) <= kStillStep * side;
    last = *shake;
    if (!still || !was_still) return LiveState::Moving;
    if (shake->beyondShift() > kMostBeyond * side || std::hypot(shake->dx, shake->dy) > kMostShift * side) {
      // It stands elsewhere now, and stands still: from here on the others are measured against this frame.
      if (byHand()) {
        const auto whole = origin->measure(rgb);
        request.regions = movedRegions(whole ? given : request.regions, [&](Point p) { return (whole ? *whole : *shake).moved(p); });
      }
      begin(rgb, size);
      return LiveState::Steady;
    }
    const int dx = static_cast<int>(std::lround(shake->dx)), dy = static_cast<int>(std::lround(shake->dy));
    if (laid) {
      const FrameMeans means = frameMeans(rgb, size, movedRegions(laid->set_up.scene.regions, [&](Point p) { return Point{p.x + dx, p.y + dy}; }), request.encoding);
      const auto off = steady.departure(means);
      if (off && off->relative > kChangedBy && off->sds > kChangedSds) {
        if (++changed >= kChangedFrames) {
          begin(rgb, size);
          return LiveState::Steady;
        }
        return LiveState::Moving;
      }
      changed = 0;
      steady.add(means);
      if (!single) {
        single.emplace(size, request.encoding);
        single->compressed(rounding);
        single->add(rgb, dx, dy);
      }
    }
    stack->compressed(rounding);
    stack->add(rgb, dx, dy);
    return LiveState::Steady;
  }

  Result<void> lookForTags(const Preview& preview, double frames) {
    auto tags = findTags(preview);
    if (!tags) return std::unexpected(tags.error());
    laid->tags = std::move(*tags);
    laid->tag_frames = frames;
    since_tags = 0;
    disturbed = false;
    return {};
  }

  /// An average shows a tag more clearly than the first frame did, and one may have been laid down since.
  Result<void> lookForTagsAgain(double frames) {
    if (laid->tag_frames == 0 || !(frames >= kMoreFrames * laid->tag_frames || (disturbed && since_tags >= kTagFrames))) return {};
    const auto preview = stack->photo().preview(kPreviewSide);
    if (!preview) return std::unexpected(preview.error());
    return lookForTags(*preview, frames);
  }

  /// How a whole reading scatters from frame to frame is seen on single frames alone: slopes, masks and paper scatter as well as means.
  void readSingle(const Lay& again) {
    if (!single) return;
    const auto shot = readShot(single->photo(), request, calib, again, &laid->profile);
    single.reset();
    if (!shot) return;
    FrameMeans means;
    for (const ColourReading& panel : shot->reading.panels) means.colours.push_back(toVec(panel.xyz));
    means.colours.push_back(toVec(shot->reading.card.xyz));
    noise.add(means);
  }

  /// The first look finds mat, chart and tags; later ones read where these lie.
  Result<JudgeReport> report(const std::stop_token& stop) {
    JudgeRequest one = request;
    const double frames = stack->frames();
    const Lay again = [&](Photo&) -> Result<SetUp> { return laid->set_up; };
    // A chart is read anew when its noise has halved.
    const bool chart_anew = laid && laid->profile.profile.chart && frames >= kMoreFrames * laid->profile_frames;
    if (chart_anew) {
      one.chart_use = ChartUse::Here;
      one.chart = laid->profile.profile.chart;
    }
    auto shot = readShot(stack->photo(), one, calib, laid ? again : Lay{}, laid && !chart_anew ? &laid->profile : nullptr);
    if (!shot && chart_anew) shot = readShot(stack->photo(), request, calib, again, &laid->profile);  // something lies on it now
    if (!shot) return std::unexpected(shot.error());
    if (chart_anew) laid->profile = shot->by, laid->profile_frames = frames;
    if (stop.stop_requested()) return fail(Code::Stopped);
    if (!laid) {
      if (request.steps.empty() && request.mixes.size() > 1 && request.mixes.size() != shot->set_up.scene.regions.panels.size())
        return fail(Code::MatMixes, std::to_string(request.mixes.size()) + " mixes were given, and " + std::to_string(shot->set_up.scene.regions.panels.size()) + " panels lie on the mat");
      laid = Laid{shot->set_up, shot->by, frames, {}, 0};
      laid->set_up.preview.reset();
      laid->set_up.split = !request.steps.empty();
      if (shot->set_up.preview)
        if (const auto looked = lookForTags(*shot->set_up.preview, frames); !looked) return std::unexpected(looked.error());
    } else if (const auto looked = lookForTagsAgain(frames); !looked) {
      return std::unexpected(looked.error());
    }
    readSingle(again);
    noise.put(shot->reading, frames, steady.alike());
    JudgeReport report = begunReport(*shot);
    report.photo.path = request.photo;
    conclude(report, shot->set_up.scene, fileTags(laid->tags, shot->set_up.scene, request), request, session->standards());
    return report;
  }
};

Result<LiveJudge> LiveJudge::begin(const Session& session, JudgeRequest request) {
  if (const auto checked = Session::check(request); !checked) return std::unexpected(checked.error());
  if (request.swapped || request.also || request.flop || !request.repeats.empty())
    return fail(Code::BadChoice, "A live camera shows one set-up. Take stills and judge them for a second look (swapped, in another light, tilted)");
  if (request.series) return fail(Code::BadChoice, "A live verdict goes into no series. Take a still and judge that");
  auto in = std::make_unique<Inside>();
  in->session = &session;
  in->calib = session.calib();
  in->request = std::move(request);
  return LiveJudge(std::move(in));
}

LiveJudge::LiveJudge(std::unique_ptr<Inside> in) : in_(std::move(in)) {}
LiveJudge::LiveJudge(LiveJudge&&) noexcept = default;
LiveJudge& LiveJudge::operator=(LiveJudge&&) noexcept = default;
LiveJudge::~LiveJudge() = default;

LiveState LiveJudge::take(std::span<const std::uint8_t> rgb, Size size, const FrameRounding& rounding) {
  in_->rounding = rounding;
  const LiveState state = in_->take(rgb, size);
  in_->state = state == LiveState::Steady && !in_->laid ? LiveState::Looking : state;
  return in_->state;
}

LiveVerdict LiveJudge::judge(const std::stop_token& stop) {
  Inside& in = *in_;
  LiveVerdict verdict;
  const auto nothing = in.nothingYet();
  auto report = nothing ? Result<JudgeReport>(std::unexpected(*nothing)) : in.report(stop);
  if (in.laid && in.state == LiveState::Looking) in.state = LiveState::Steady;
  verdict.state = in.state;
  verdict.frames = in.stack ? in.stack->frames() : 0;
  if (in.laid)
    verdict.regions = movedRegions(in.laid->set_up.scene.regions, [&](Point p) { return in.last.moved(p); });
  if (!report) {
    verdict.problem = report.error();
    if (!in.laid && !in.byHand()) in.forget();  // the next frame is looked at afresh
    return verdict;
  }
  const Reading& reading = report->reading;
  verdict.frame_noise = in.noise.ofOneFrame(reading, report->main);
  if (verdict.frame_noise) {
    const DeltaVector u = deltaVector(reading.panels[report->main].lab, reading.card.lab);
    verdict.noise = std::sqrt(std::max(0.0, trace(covarianceOfDifference(reading, report->main, u.by_panel, u.by_card, Part::Scatter))));
  }
  verdict.report = std::make_shared<const JudgeReport>(std::move(*report));
  return verdict;
}

void LiveJudge::beginAnew() { in_->forget(); }

}  // namespace huewright
