#include "judge/ranking.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numeric>

namespace huewright {
namespace {

/// Joint blocks of the covariance of (u_A, u_B).
struct Joint {
  Mat3 aa{}, ab{}, bb{};
};

Joint jointCovariance(const Reading& reading, std::size_t a, std::size_t b, const Verdict& va, const Verdict& vb) {
  Joint joint;
  const std::size_t card = reading.panels.size();
  for (const Influence& influence : reading.influences) {
    const Vec3 on_a = va.delta.by_panel * influence.on_lab[a] + va.delta.by_card * influence.on_lab[card];
    const Vec3 on_b = vb.delta.by_panel * influence.on_lab[b] + vb.delta.by_card * influence.on_lab[card];
    joint.aa = joint.aa + outer(on_a, on_a);
    joint.ab = joint.ab + outer(on_a, on_b);
    joint.bb = joint.bb + outer(on_b, on_b);
  }
  // The kind of card moves all panels alike, by the same vector.
  const double kind = va.budget[static_cast<std::size_t>(Part::CardKind)];
  const Mat3 shared = kind * kind * Mat3::identity();
  return {joint.aa + shared, joint.ab + shared, joint.bb + shared};
}

/// Standard deviations by which |u_A|² exceeds |u_B|², noise's own share taken off.
double apartFor(const Joint& s, const Vec3& a, const Vec3& b) {
  const double q = dot(a, a) - dot(b, b) - (trace(s.aa) - trace(s.bb));
  const double linear = 4 * (dot(a, s.aa * a) - 2 * dot(a, s.ab * b) + dot(b, s.bb * b));
  const double square = 2 * (trace(s.aa * s.aa) - 2 * trace(s.ab * transpose(s.ab)) + trace(s.bb * s.bb));
  const double sd = std::sqrt(std::max(linear + square, 1e-18));
  return q / sd;
}

std::string nameOf(std::size_t panel, const RankWords& words) {
  return panel < words.names.size() ? words.names[panel] : std::string(1, static_cast<char>('A' + static_cast<int>(panel)));
}

/// What to keep is said only of those that nothing is surely nearer than.
std::string pairSentence(std::size_t near, std::size_t far, bool surely, bool front, std::span<const Mix> mixes, const RankWords& words) {
  const std::string a = nameOf(near, words), b = nameOf(far, words);
  if (surely) return fmt::format("{} {} nearer than {}, surely", a, !words.by_coats ? "is" : a.starts_with("1 ") ? "comes" : "come", b);
  std::string text = fmt::format("{} and {} cannot be told apart", a, b);
  if (!front) return text;
  if (words.by_coats) return text + ": keep the fewer, one can be added but none taken off";
  if (mixes.empty()) return text + ": keep the stronger mix";
  const double share_near = mixes[near].share(), share_far = mixes[far].share();
  if (share_near == share_far) return text;
  const std::size_t stronger = share_near > share_far ? near : far;
  return text + fmt::format(": keep the stronger mix, {} ({:g}:{:g})", nameOf(stronger, words), mixes[stronger].strong, mixes[stronger].weak);
}

}  // namespace

Ranking rank(const Reading& reading, std::span<const Verdict> verdicts, std::span<const Mix> mixes, const RankWords& words) {
  Ranking ranking;
  std::vector<std::size_t> order(verdicts.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::erase_if(order, [&](std::size_t i) { return std::ranges::find(words.left_out, i) != words.left_out.end(); });
  std::ranges::stable_sort(order, {}, [&](std::size_t i) { return verdicts[i].de00; });
  bool front = true;
  for (std::size_t i = 0; i < order.size(); ++i) {
    Rank rank{order[i], false};
    if (i + 1 < order.size()) {
      const std::size_t near = order[i], far = order[i + 1];
      const Joint joint = jointCovariance(reading, near, far, verdicts[near], verdicts[far]);
      constexpr double kSurely = 1.96;
      rank.surely_nearer = apartFor(joint, verdicts[far].delta.u, verdicts[near].delta.u) > kSurely;
      ranking.sentence += (i == 0 ? "" : "; ") + pairSentence(near, far, rank.surely_nearer, front, mixes, words);
      front = front && !rank.surely_nearer;
    }
    ranking.order.push_back(rank);
  }
  if (!ranking.sentence.empty()) {
    if (ranking.sentence[0] >= 'a' && ranking.sentence[0] <= 'z') ranking.sentence[0] = static_cast<char>(ranking.sentence[0] - 'a' + 'A');
    ranking.sentence += ".";
  }
  return ranking;
}

}  // namespace huewright
