#include "mix/advice_words.hpp"

#include <fmt/format.h>

#include "mix/mix_words.hpp"

namespace huewright {
namespace {

std::string directionWords(const Advice& advice) {
  const std::string range = fmt::format("the share that fits best is {:.2f} ({:.2f} to {:.2f})", advice.next->best.share, advice.share_low, advice.share_high);
  switch (advice.next->direction) {
    case ShareWay::Increase: return "More of the strong tint than in the last panel: " + range + ".";
    case ShareWay::Decrease: return "Less of the strong tint than in the last panel: " + range + ".";
    case ShareWay::Keep: return "Keep the mix: " + range + ".";
    case ShareWay::Unknown: break;
  }
  if (advice.panels == 0) return "At those coats " + range + ".";
  return "Whether it takes more or less of the strong tint cannot be said yet: " + range + ".";
}

std::string reachWords(const Reach& reach) {
  std::string words = fmt::format(" The card cannot be reached with these tints: the nearest stays ΔE00 {:.1f} off", reach.nearest);
  if (!reach.stays.empty()) words += ", " + reach.stays;
  words += ".";
  if (reach.coats) words += fmt::format(" With {} it could be.", coatsWords(*reach.coats));
  if (reach.ground) words += fmt::format(" Over the ground \"{}\" it could be.", *reach.ground);
  if (!reach.coats && !reach.ground) words += " Neither other coats nor a known ground would do it.";
  return words;
}

}  // namespace

std::string adviceSentence(const Advice& advice) {
  if (advice.part) return advice.part->sentence;
  if (!advice.next) return fmt::format("Nothing is known of these tints yet. {}", advice.learn->sentence);
  const NextMix& next = *advice.next;
  std::string words = advice.learn ? fmt::format("What is known is little: {} may come anywhere within ΔE00 {:.1f} to {:.1f}.", mixWords(next.choice), next.choice.low, next.choice.high)
                                   : fmt::format("{} {}: it should come within ΔE00 {}.", advice.panels == 0 ? "First spray" : "Next spray", mixWords(next.choice), distanceWords(next.choice));
  if (const std::string step = stepWords(next.choice); !step.empty() && advice.reach.reachable) words += fmt::format(" That is {}.", step);
  words += " " + directionWords(advice);
  if (next.twin && next.kept_weaker)
    words += fmt::format(" {} could not be told from it and hides better, but so few coats may not even out.", mixWords(*next.twin));
  else if (next.twin)
    words += fmt::format(" {} could not be told from it; of the two the stronger mix was taken, since it hides better, though each coat of it weighs more.", mixWords(*next.twin));
  if (!advice.reach.reachable) words += reachWords(advice.reach);
  if (advice.learn) words += " " + advice.learn->sentence;
  return words;
}

}  // namespace huewright
