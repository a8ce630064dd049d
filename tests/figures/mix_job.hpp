// One painter's job in a closed loop with the spectral renderer: a card, panels as they are sprayed and read, and what advice brings.
#pragma once

#include <utility>
#include <vector>

#include "mix/next_mix.hpp"
#include "render/paint.hpp"
#include "render/random.hpp"

namespace huewright::figures {

inline constexpr double kCarrier = 5;

/// What a session's camera and light do to every reading in it: a gain and a mixing of the channels, the same for panels, ground and card.
struct Session {
  Mat3 distort = Mat3::identity();
  double sigma = 0.3, film_sd = 0.05, film_shared = 0.5;   ///< the film's spread at four coats, and how much of its variance is the whole panel's
};

/// Another camera and light, as evenly sprayed and as well read.
Session otherCamera(render::Random& random, const Session& first);

/// A colour as the session reads it, with noise.
Lab<D50> read(const Session& session, const Lab<D50>& truth, render::Random& random);

/// One painter's job on a card whose paint is known.
struct Job {
  render::Paint card;
  Session session;
  Lab<D50> ground, target;                     ///< as read
  std::vector<PanelReading> panels;
  std::vector<TintPrior> priors{strongPrior(), weakPrior()};
  std::vector<double> together{};
  double last_share = 0;
  bool look_free = false;                      ///< also look what any share would bring

  render::Paint paint(double share, double coats) const;
};

/// A card of any share from 0.2 to 0.6 at 3, 4 or 5 coats, and nothing sprayed yet.
Job startJob(render::Pair pair, render::Ground ground, const Session& session, render::Random& random);

/// Sprays a panel, coat by coat, and reads it; of several numbers of coats a stepped one, whose strips share the coats that they have. Gives the last strip's film.
double spray(Job& job, double share, const std::vector<double>& coats, render::Random& random);

struct Outcome {
  double recipe = 0;           ///< ΔE00 of the recipe's true colour from the card's
  double free = 0;             ///< the same of the mix that the model would choose if a cup showed any share
  double sprayed = 0;          ///< of the very panel
  double low = 0, high = 0;
  bool coats_right = false, free_coats_right = false, spoke = false, right = false;
};

/// The next mix: chosen, sprayed, read, and added to the job.
Outcome adviseAndSpray(Job& job, const MixLimits& limits, render::Random& random);

}  // namespace huewright::figures
