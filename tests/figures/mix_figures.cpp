// The tint model in a closed loop with the spectral renderer, which shares no formula with it: advise, spray with film spread, read with noise, add, repeat.
//   mix_figures SEEDS SEED       SEEDS a cell; a cell is a tint pair over a ground
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <mutex>
#include <string>
#include <vector>

#include "colour/delta_e.hpp"
#include "figures/figures.hpp"
#include "figures/mix_job.hpp"
#include "mix/known_tints.hpp"
#include "render/paint.hpp"
#include "render/random.hpp"

namespace {

namespace hw = huewright;
namespace hr = huewright::render;
namespace fig = huewright::figures;

/// The totals over all cells.
struct Table {
  std::vector<fig::Outcome> outcomes;
  std::mutex lock;
  void add(const fig::Outcome& o) {
    const std::lock_guard guard(lock);
    outcomes.push_back(o);
  }
  void print(const char* name, bool look_free) const {
    std::vector<double> recipe, sprayed, free, cost;
    double free_under = 0, free_coats = 0;
    double coats = 0, spoke = 0, right = 0, inside = 0, below = 0, above = 0, under = 0, sprayed_under = 0;
    for (const fig::Outcome& o : outcomes) {
      recipe.push_back(o.recipe);
      sprayed.push_back(o.sprayed);
      free.push_back(o.free);
      cost.push_back(o.recipe - o.free);
      free_under += o.free < 1;
      free_coats += o.free_coats_right;
      under += o.recipe < 1;
      sprayed_under += o.sprayed < 1;
      coats += o.coats_right;
      spoke += o.spoke;
      right += o.right;
      below += o.sprayed < o.low;
      above += o.sprayed > o.high;
      inside += o.low <= o.sprayed && o.sprayed <= o.high;
    }
    const double n = static_cast<double>(outcomes.size());
    std::printf("%-62s %5.1f %%  %5.2f /%5.2f   %5.1f %%   %5.1f %%   %5.1f %% (%.1f below, %.1f above)   %5.1f %% of %4.1f %%\n", name, 100 * under / n, fig::quantile(recipe, 0.5),
                fig::quantile(recipe, 0.95), 100 * sprayed_under / n, 100 * coats / n, 100 * inside / n, 100 * below / n, 100 * above / n, spoke > 0 ? 100 * right / spoke : 0.0, 100 * spoke / n);
    if (look_free)
      std::printf("%-62s %5.1f %%  %5.2f /%5.2f             %5.1f %%   whole parts cost %.2f in the median\n", "    any share", 100 * free_under / n, fig::quantile(free, 0.5),
                  fig::quantile(free, 0.95), 100 * free_coats / n, fig::quantile(cost, 0.5));
  }
};

using Loop = std::function<std::vector<fig::Outcome>(hr::Pair, hr::Ground, hr::Random&)>;

struct Pool {
  double inside = 0, all = 0, spoke = 0, right = 0;
} pool;
bool pooled = true;                            // rows that ask what an assumption matters are not

/// Runs a design over all cells and prints one row for each panel that it advises.
void runDesign(const std::string& design, const std::vector<std::string>& names, int seeds, std::uint64_t first, const Loop& loop, bool look_free = false) {
  std::vector<Table> tables(names.size());
  fig::forEach(12 * seeds, [&](int i) {
    hr::Random random = hr::streamOf(first + static_cast<std::uint64_t>(i), 0x317);
    const auto outcomes = loop(hr::kPairs[i % 3], hr::kGrounds[i / 3 % 4], random);
    for (std::size_t k = 0; k < outcomes.size() && k < tables.size(); ++k) tables[k].add(outcomes[k]);
  });
  for (std::size_t k = 0; k < names.size(); ++k) {
    tables[k].print((design + ": " + names[k]).c_str(), look_free);
    if (!pooled) continue;
    for (const fig::Outcome& o : tables[k].outcomes) {
      pool.inside += o.low <= o.sprayed && o.sprayed <= o.high;
      pool.spoke += o.spoke;
      pool.right += o.right;
      pool.all += 1;
    }
  }
  std::fflush(stdout);
}

/// What a design is run with.
struct Setting {
  double sigma = 0.3, film_sd = 0;
  int parts = 8;                               // the largest total
  double film_shared = 0.5;                    // of the film's variance, how much is the whole panel's
  bool pieces_told = true;                     // the fit knows which strips are of one panel
  hw::MixLimits limits() const {
    hw::MixLimits l;
    l.max_total_parts = parts;
    return l;
  }
  fig::Session session() const { return {hw::Mat3::identity(), sigma, film_sd, film_shared}; }
  fig::Job job(hr::Pair pair, hr::Ground ground, hr::Random& random) const {
    fig::Job started = fig::startJob(pair, ground, session(), random);
    started.look_free = parts == 8;
    return started;
  }
};

Loop twoByTwo(const Setting& with) {
  return [=](hr::Pair pair, hr::Ground ground, hr::Random& random) {
    fig::Job job = with.job(pair, ground, random);
    for (const double share : {0.25, 0.5})
      for (const double coats : {3.0, 5.0}) fig::spray(job, share, {coats}, random);
    return std::vector{fig::adviseAndSpray(job, with.limits(), random), fig::adviseAndSpray(job, with.limits(), random)};
  };
}

/// Two stepped panels, or one of two shares: each of 1 to 4 coats beside the bare ground.
Loop stepped(const Setting& with) {
  return [=](hr::Pair pair, hr::Ground ground, hr::Random& random) {
    fig::Job job = with.job(pair, ground, random);
    for (const double share : {0.25, 0.5})
      fig::spray(job, share, {1, 2, 3, 4}, random);
    if (!with.pieces_told)
      for (hw::PanelReading& strip : job.panels) strip.piece = hw::kNoPiece;
    return std::vector{fig::adviseAndSpray(job, with.limits(), random), fig::adviseAndSpray(job, with.limits(), random)};
  };
}

/// The card's coats are known and kept; one panel has less of the strong tint than the card, one more.
Loop bracketing(const Setting& with) {
  return [=](hr::Pair pair, hr::Ground ground, hr::Random& random) {
    fig::Job job = with.job(pair, ground, random);
    hw::MixLimits limits = with.limits();
    limits.coats_low = limits.coats_high = job.card.coats;
    for (const double away : {-1.0, 1.0}) fig::spray(job, std::clamp(job.card.share + away * random.uniform(0.05, 0.2), 0.1, 0.9), {job.card.coats}, random);
    return std::vector{fig::adviseAndSpray(job, limits, random), fig::adviseAndSpray(job, limits, random)};
  };
}

/// One panel of tints that nobody knows, and then as advised.
Loop onePanel(const Setting& with) {
  return [=](hr::Pair pair, hr::Ground ground, hr::Random& random) {
    fig::Job job = with.job(pair, ground, random);
    fig::spray(job, 1 / 3.0, {4}, random);
    std::vector<fig::Outcome> outcomes;
    for (int i = 0; i < 4; ++i) outcomes.push_back(fig::adviseAndSpray(job, with.limits(), random));
    return outcomes;
  };
}

/// Each tint's own stepped panel of 1, 2, 4 and 6 coats, in another session, as tints to be known later.
Loop knownTints(const Setting& with) {
  return [=](hr::Pair pair, hr::Ground ground, hr::Random& random) {
    fig::Job single = fig::startJob(pair, ground, with.session(), random);
    for (const double share : {0.0, 1.0}) fig::spray(single, share, {1, 2, 4, 6}, random);
    const auto fit = hw::fitTints(single.panels, single.priors, {.sigma = with.sigma, .film_sd = with.film_sd});
    fig::Job job = fig::startJob(pair, ground, fig::otherCamera(random, with.session()), random);
    job.look_free = with.parts == 8;
    if (fit) {
      const hw::TintFile file = hw::tintFileOf(*fit, {"strong", "weak"}, single.ground);
      const double strange = hw::strangeGround(file, job.ground);
      for (std::size_t t = 0; t < 2; ++t) job.priors[t] = hw::priorOf(file.tints[t], strange);
      job.together = hw::jointPrior(file, std::vector<std::size_t>{0, 1}, strange);
    }
    std::vector<fig::Outcome> outcomes;
    for (int i = 0; i < 3; ++i) outcomes.push_back(fig::adviseAndSpray(job, with.limits(), random));
    return outcomes;
  };
}

/// What whole parts cost: the nearest that a total can come, by the renderer's own colours.
void printTotals(int seeds, std::uint64_t first) {
  std::printf("\nWhat whole parts cost: true distance of the nearest mix, median / 95th, and how many are under 1\n");
  for (const int total : {6, 8, 12})
    for (const bool any_coats : {false, true}) {
      std::vector<double> cost;
      double under = 0;
      for (int i = 0; i < 12 * std::min(seeds, 50); ++i) {
        hr::Random random = hr::streamOf(first + static_cast<std::uint64_t>(i), 0x319);
        const fig::Job job = fig::startJob(hr::kPairs[i % 3], hr::kGrounds[i / 3 % 4], {}, random);
        const hw::Lab<hw::D50> wanted = hr::labOf(job.card);
        double least = 1e9;
        for (const auto& parts : hw::wholeParts(2, total, false))
          for (double coats = 1; coats <= 6; ++coats)
            if (any_coats || coats == job.card.coats)
              least = std::min(least, hw::deltaE2000(hr::labOf(job.paint(parts[0] / static_cast<double>(parts[0] + parts[1]), coats)), wanted));
        cost.push_back(least);
        under += least < 1;
      }
      std::printf("  total of at most %2d, %s: %5.2f /%5.2f  %5.1f %%\n", total, any_coats ? "1 to 6 coats    " : "the card's coats", fig::quantile(cost, 0.5), fig::quantile(cost, 0.95),
                  100 * under / static_cast<double>(cost.size()));
    }
}

}  // namespace

int main(int count, char** words) {
  if (count < 3) {
    std::fprintf(stderr, "mix_figures SEEDS SEED\n");
    return 2;
  }
  const int seeds = std::atoi(words[1]);
  const std::uint64_t first = std::strtoull(words[2], nullptr, 10);
  std::printf("The next mix in a closed loop; %d trials a row, seed %llu\n", 12 * seeds, static_cast<unsigned long long>(first));
  std::printf("recipe: its colour as meant; sprayed: the panel with its own film. A film varies by so much at four coats, half of the variance the whole panel's, half each coat's own\n");
  std::printf("%-62s recipe < 1  median/95th  sprayed < 1  coats    in interval                    direction right, when said\n", "");
  for (const int parts : {8, 24})
    for (const double film_sd : {0.0, 0.03, 0.05}) {
      if (parts == 24 && film_sd > 0.03) continue;
      const auto named = [&](const char* what) {
        char text[120];
        std::snprintf(text, sizeof text, "%s, %d parts, film %.0f %%", what, parts, 100 * film_sd);
        return std::string(text);
      };
      const Setting with{0.3, film_sd, parts};
      const bool free = parts == 8;
      runDesign(named("2 x 2, sigma 0.3"), {"5th", "6th"}, seeds, first, twoByTwo(with), free);
      runDesign(named("two steppers, sigma 0.3"), {"next", "after"}, seeds, first + 1000000, stepped(with), free);
      runDesign(named("share only, sigma 0.5"), {"3rd", "4th"}, seeds, first + 2000000, bracketing({0.5, film_sd, parts}), free);
      runDesign(named("known tints, other camera"), {"1st", "2nd", "3rd"}, seeds, first + 3000000, knownTints(with), free);
      runDesign(named("one unknown panel"), {"2nd", "3rd", "4th", "5th"}, seeds, first + 4000000, onePanel(with), free);
    }
  pooled = false;
  std::printf("\nWhat is assumed of a stepped panel's film, 3 %%\n");
  const std::vector<std::string> next{"next"};
  runDesign("two steppers, each coat on its own", next, seeds, first + 1000000, stepped({.film_sd = 0.03, .film_shared = 0}));
  runDesign("two steppers, all of it the panel's", next, seeds, first + 1000000, stepped({.film_sd = 0.03, .film_shared = 1}));
  runDesign("two steppers, the fit not told that strips go together", next, seeds, first + 1000000, stepped({.film_sd = 0.03, .pieces_told = false}));
  std::printf("\nPooled: %.1f %% in the interval; a direction said in %.1f %%, right in %.1f %% of them\n", 100 * pool.inside / pool.all, 100 * pool.spoke / pool.all,
              100 * pool.right / pool.spoke);
  printTotals(seeds, first);
  return 0;
}
