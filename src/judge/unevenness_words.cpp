#include "judge/unevenness_words.hpp"

#include <fmt/format.h>

#include "base/text.hpp"
#include "judge/words.hpp"

namespace huewright {
namespace {

enum class Answer { Even, There, CantSay };

Answer answerTo(bool known, double value, double sd, double seen) {
  constexpr double kBounds = 1.96;
  if (!known) return Answer::CantSay;
  if (value >= seen) return value - kBounds * sd > 0.5 * seen ? Answer::There : Answer::CantSay;
  return value + kBounds * sd < 1.5 * seen ? Answer::Even : Answer::CantSay;
}

std::string edgeSentence(const Unevenness& u) {
  const std::string how = describe(deltaVector(u.edge, u.centre), u.edge_covariance, u.edge, u.centre);
  return how.empty() ? fmt::format("Its edges differ from its middle by about {:.1f}.", u.edge_de00)
                     : fmt::format("Its edges are {} than its middle by about {:.1f}.", how, u.edge_de00);
}

}  // namespace

std::string unevennessSentence(const Unevenness& u, const std::string& name) {
  const Answer mottle = answerTo(u.mottle_known, u.mottle, u.mottle_sd, kMottleSeen);
  const Answer edge = answerTo(u.edge_known, u.edge_de00, u.edge_sd, kEdgeSeen);
  const bool slopes = answerTo(u.mottle_known, u.slope, u.slope_sd, kSlopeSeen) == Answer::There;
  const std::string slope =
      slopes ? fmt::format(" From one end to the other it changes by about {:.1f}: film or light, the photo cannot tell.", u.slope) : "";

  if (mottle == Answer::CantSay && edge == Answer::CantSay)
    return fmt::format("Can't say how even {} is: too little of it shows clearly enough.{}", name, slope);
  if (mottle == Answer::Even && edge == Answer::Even)
    return slopes ? fmt::format("{} has no mottle, and its edges are like its middle.{}", capitalised(name), slope)
                  : fmt::format("{} is even: its parts differ by no more than the eye sees.", capitalised(name));
  std::string text;
  switch (mottle) {
    case Answer::There: text = fmt::format("{} is mottled: places differ by about ±{:.1f}.", capitalised(name), u.mottle); break;
    case Answer::Even: text = fmt::format("{} is not mottled.", capitalised(name)); break;
    case Answer::CantSay: text = fmt::format("Can't say whether {} is mottled.", name); break;
  }
  switch (edge) {
    case Answer::There: text += " " + edgeSentence(u); break;
    case Answer::Even: text += " Its edges are like its middle."; break;
    case Answer::CantSay: text += " Can't say whether its edges differ from its middle."; break;
  }
  return text + slope;
}

}  // namespace huewright
