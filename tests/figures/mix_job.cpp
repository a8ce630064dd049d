#include "figures/mix_job.hpp"

#include <algorithm>
#include <cmath>

#include "colour/delta_e.hpp"
#include "render/film.hpp"

namespace huewright::figures {
namespace {

Lab<D50> seen(const Session& session, const Lab<D50>& truth) { return labOfSharpened(session.distort * sharpened(truth)); }

/// What the model would spray if a cup showed any share: share and whole coats of the best score.
std::pair<double, double> freeMix(const Aim& aim, const MixLimits& limits) {
  double share = 0, coats = 0, least = 1e9;
  const auto look = [&](double s, double n) {
    if (s < 0 || s > 1) return;
    const std::vector<double> shares{s, 1 - s};
    if (const double score = aim.ofShares(shares, n).score; score < least) {
      least = score;
      share = s;
      coats = n;
    }
  };
  for (const double n : coatsWithin(limits))
    for (int i = 0; i <= 50; ++i) look(i / 50.0, n);
  const double near = share;
  for (int i = -9; i <= 9; ++i) look(near + i / 500.0, coats);
  return {share, coats};
}

/// The share that truly comes nearest at that number of coats.
double trueShare(const Job& job, double coats) {
  const Lab<D50> wanted = render::labOf(job.card);
  double best = 0, least = 1e9;
  for (int i = 0; i <= 200; ++i)
    if (const double d = deltaE2000(render::labOf(job.paint(i / 200.0, coats)), wanted); d < least) {
      least = d;
      best = i / 200.0;
    }
  return best;
}

}  // namespace

render::Paint Job::paint(double share, double coats) const {
  render::Paint p = card;
  p.share = share;
  p.coats = coats;
  p.film = 1;
  return p;
}

Session otherCamera(render::Random& random, const Session& first) {
  Session session{Mat3::identity(), first.sigma, first.film_sd, first.film_shared};
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) session.distort(r, c) += (r == c ? 0.02 : 0.01) * random.normal();
  return session;
}

Lab<D50> read(const Session& session, const Lab<D50>& truth, render::Random& random) {
  const Lab<D50> lab = seen(session, truth);
  const Mat3 to_lab = inverse(deltaVector(lab, lab).by_panel);
  const double axis = session.sigma / std::sqrt(3.0);
  const Vec3 noise = to_lab * Vec3{axis * random.normal(), axis * random.normal(), axis * random.normal()};
  return {lab.L + noise[0], lab.a + noise[1], lab.b + noise[2]};
}

Job startJob(render::Pair pair, render::Ground ground, const Session& session, render::Random& random) {
  Job job;
  job.session = session;
  job.card.pair = pair;
  job.card.ground = ground;
  job.card.carrier_per_tint = kCarrier;
  job.card.share = random.uniform(0.2, 0.6);
  job.card.coats = 3 + random.below(3);
  job.ground = read(session, render::labOf(job.paint(0.3, 0)), random);
  job.target = seen(session, render::labOf(job.card));
  return job;
}

double spray(Job& job, double share, const std::vector<double>& coats, render::Random& random) {
  const std::vector<double> films = render::sprayedFilms(coats, job.session.film_sd, job.session.film_shared, random);
  const int piece = coats.size() > 1 ? static_cast<int>(job.panels.size()) : kNoPiece;
  for (std::size_t i = 0; i < coats.size(); ++i) {
    render::Paint paint = job.paint(share, coats[i]);
    paint.film = films[i];
    PanelReading panel;
    panel.shares = {share, 1 - share};
    panel.tint_part = tintPart(kCarrier);
    panel.coats = coats[i];
    panel.ground = sharpened(job.ground);
    panel.lab = read(job.session, render::labOf(paint), random);
    panel.piece = piece;
    job.panels.push_back(panel);
  }
  job.last_share = share;
  return films.back();
}

Outcome adviseAndSpray(Job& job, const MixLimits& limits, render::Random& random) {
  Outcome out;
  auto fit = fitTints(job.panels, job.priors, {.sigma = job.session.sigma, .film_sd = std::max(job.session.film_sd, 0.02), .together = job.together});
  if (!fit) return out;
  const Predictor predictor(std::move(*fit), job.panels);
  const Aim aim(predictor, job.target, job.ground, tintPart(kCarrier));
  const NextMix next = nextMix(aim, limits, job.panels.empty() ? std::nullopt : std::optional(LastPanel{job.last_share, job.panels.back().coats}));
  const double share = next.choice.share(), coats = next.choice.coats;
  out.low = next.choice.low;
  out.high = next.choice.high;
  out.coats_right = coats == job.card.coats;
  out.spoke = next.direction == ShareWay::Increase || next.direction == ShareWay::Decrease;
  if (out.spoke) out.right = (trueShare(job, coats) > job.last_share) == (next.direction == ShareWay::Increase);
  const Lab<D50> wanted = render::labOf(job.card);
  out.recipe = deltaE2000(render::labOf(job.paint(share, coats)), wanted);
  if (job.look_free) {
    const auto [free_share, free_coats] = freeMix(aim, limits);
    out.free = deltaE2000(render::labOf(job.paint(free_share, free_coats)), wanted);
    out.free_coats_right = free_coats == job.card.coats;
  }
  const double film = spray(job, share, {coats}, random);
  render::Paint as_sprayed = job.paint(share, coats);
  as_sprayed.film = film;
  out.sprayed = deltaE2000(render::labOf(as_sprayed), wanted);
  return out;
}

}  // namespace huewright::figures
