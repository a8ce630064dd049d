#include "sitting/window_words.hpp"

#include <array>
#include <string_view>

namespace huewright {
namespace {

struct Rewording {
  std::string_view from, to;
};

// Whole phrases first; then what is left of single options, the longer names before those that they begin with.
constexpr std::array kRewordings{
    Rewording{"with huewright grey, or say how light it is with --grey-y", "with the command huewright grey, or say how light it is under How sprayed (E)"},
    Rewording{"If it is another card, begin another series", "If it is another card, take this back (Ctrl+Z) and begin another series"},
    Rewording{"say --card-kind same for", "say so under How sprayed (E) for"},
    Rewording{"Check the order of --steps", "Check the order of the strips' coats under How sprayed (E)"},
    Rewording{"add that photo with --flop", "add that photo as Tilted (T)"},
    Rewording{"Say --encoding srgb if that is wrong", "Say sRGB under How sprayed (E) if that is wrong"},
    Rewording{"Say --encoding linear, or leave it out", "Say linear under How sprayed (E), or that it is as the file says"},
    Rewording{"Cover what is not meant, or say which with --chart and its corners", "Cover what is not meant"},
    Rewording{"Give your own with --film or --coverage, --loss and --rest", "Give your own in the fields above"},
    Rewording{"See huewright --help for the words it knows", "F12 lists what can be done"},
    Rewording{"Say where it is in the photo with --panel X,Y,WIDTH,HEIGHT", "Mark it in the photo (P)"},
    Rewording{"Say where the wanted colour is with --card X,Y,WIDTH,HEIGHT, or give its numbers with --card-lab L,a,b", "Mark the wanted colour's card (K), or give its numbers under How sprayed (E)"},
    Rewording{"Both --card and --card-lab were given. Keep one of the two", "The card is marked in the photo and given in numbers. Keep one of the two: take its mark away, or do without the numbers under How sprayed (E)"},
    Rewording{"Say where it lies beside the chart with --grey X,Y,WIDTH,HEIGHT", "Mark it beside the chart (G)"},
    Rewording{"or say what it holds with --encoding", "or say what it holds under How sprayed (E)"},
    Rewording{"Measure the patch again with huewright grey, or judge without it by --grey-from none", "Measure the patch again with the command huewright grey, or do without it under How sprayed (E)"},
    Rewording{"say where things are with --panel and --card", "mark panel and card yourself (P, K)"},
    Rewording{"Give the wanted colour as numbers with --card-lab", "Give the wanted colour in numbers under How sprayed (E)"},
    Rewording{", or leave --black out", ", or take its mark away"},
    Rewording{", or name a file with --out", ""},
    Rewording{"Open it with --encoding linear", "Say linear for the photo's values"},
    Rewording{"Open it with --encoding srgb", "Say sRGB for the photo's values"},
    Rewording{"--steps is for one stepped panel", "Strips' coats are for one stepped panel"},
    Rewording{"Give --mix once", "Give one"},
    Rewording{"--swapped is for one panel", "A photo with panel and card changed over is for one panel"},
    Rewording{"With --swapped the card must lie in the photo, beside the panel: leave --card-lab out", "With a photo changed over, the card must lie in the photo beside the panel: do without its numbers (E)"},
    Rewording{"Several photos of one set-up and --swapped do not go together. Give one photo and its swapped one", "Several photos of one set-up and one changed over do not go together. Keep one photo and the one changed over"},
    Rewording{" (--grey-y)", ""},
    Rewording{"with --mix STRONG:WEAK, or each tint with --tint NAME=PARTS", "under How sprayed (E)"},
    Rewording{", such as --area frame=0.35, or give the amount with --volume", ""},
    Rewording{" with --coats N", ""},
    Rewording{" with --density", ""},
    Rewording{"--card-lab", "numbers of the wanted colour"},
    Rewording{"--card-kind", "what the card is"},
    Rewording{"--grey-from", "the kept grey"},
    Rewording{"--grey-y", "the grey's lightness"},
    Rewording{"--encoding", "what the photo's values are"},
    Rewording{"--swapped", "a photo changed over"},
    Rewording{"--carrier", "the carrier"},
    Rewording{"--coverage", "the coverage"},
    Rewording{"--volume", "an amount"},
    Rewording{"--steps", "the strips' coats"},
    Rewording{"--coats", "the coats"},
    Rewording{"--panel", "a panel"},
    Rewording{"--card", "a card"},
    Rewording{"--grey", "a grey"},
    Rewording{"--film", "the film"},
    Rewording{"--area", "an area"},
    Rewording{"--have", "what is in the cup"},
    Rewording{"--plot", "the drawing"},
    Rewording{"--mix", "the mix"},
};

}  // namespace

std::string windowWords(std::string sentence) {
  for (const Rewording& one : kRewordings)
    for (auto at = sentence.find(one.from); at != std::string::npos; at = sentence.find(one.from, at + one.to.size())) sentence.replace(at, one.from.size(), one.to);
  return sentence;
}

std::string windowWords(const Problem& problem) { return windowWords(sentence(problem)); }
std::string windowWords(const Caution& caution) { return windowWords(sentence(caution)); }

}  // namespace huewright
