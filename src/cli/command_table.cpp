#include "cli/command_table.hpp"

#include <algorithm>
#include <array>

namespace huewright {
namespace {

template <std::size_t... Counts>
constexpr auto joined(const std::array<OptionRow, Counts>&... parts) {
  std::array<OptionRow, (Counts + ...)> all{};
  auto to = all.begin();
  ((to = std::ranges::copy(parts, to).out), ...);
  return all;
}

// Options that more than one command has.
constexpr OptionRow kCardRow{"Where things are in the photo", "--card", "Q", Takes::OneValue, "", "The wanted colour: a card, an old part, a swatch."};
constexpr OptionRow kCardLabRow{"Where things are in the photo", "--card-lab", "L,a,b", Takes::OneValue, "",
              "The wanted colour as CIELAB numbers (D50, 2 degrees) instead of a place in the photo. Only as good as the photo's absolute "
              "colour, so the answer is wide without a chart."};
constexpr OptionRow kGreyRow{"Where things are in the photo", "--grey", "Q", Takes::RepeatedValue, "",
              "A neutral grey patch: it sets white balance and exposure. Two or more, on either side of panel and card, also even out the light."};
constexpr OptionRow kBlackRow{"Where things are in the photo", "--black", "Q", Takes::OneValue, "",
              "A glossy black chip beside the panel: it shows what the clear mirrors of the room, and that is taken off."};
constexpr OptionRow kPlainSheetRow{"More photos", "--plain-sheet", "PHOTO", Takes::OneValue, "",
              "A photo of plain matt white paper laid over everything, camera and lamp as they were: it evens out the light."};
constexpr OptionRow kChartRow{"The camera", "--chart", "auto|none|Q", Takes::OneValue, "",
              "A 24-patch colour-rendition chart in the photo: looked for without this option, not looked for with none, or where the outer corners of its "
              "four corner patches are."};
constexpr OptionRow kChartDataRow{"The camera", "--chart-data", "FILE", Takes::OneValue, "",
              "Measured values of your own chart, of any grid, as a CGATS.17 text file (see docs/chart-data.md). Without it the published values are used."};
constexpr OptionRow kProfileRow{"The camera", "--profile", "FILE", Takes::OneValue, "", "A camera profile made by huewright profile, for photos without a chart."};
constexpr OptionRow kGreyYRow{"What is known", "--grey-y", "Y", Takes::OneValue, "",
              "How light the grey patch is, as a share of white: 0.18 for an 18 % neutral grey. It comes before a kept grey; with neither, 0.18 is assumed and said."};
constexpr OptionRow kGreyFromRow{"What is known", "--grey-from", "FILE|none", Takes::OneValue, "",
              "A grey patch measured by huewright grey and kept elsewhere, or none to leave out the one that is kept. Without it the kept one is used, if there is one."};
constexpr OptionRow kCardKindRow{"What is known", "--card-kind", "KIND", Takes::OneValue, "same similar printed other unknown",
              "What the card is made of, compared with the panel. Other pigments may match in one light and part in another, so anything "
              "but \"same\" widens the answer. Without it: unknown."};
constexpr OptionRow kEncodingRow{"What is known", "--encoding", "WORD", Takes::OneValue, "auto linear srgb",
              "What the picture's numbers mean. Without it the profile in the file is obeyed, or sRGB assumed."};
constexpr OptionRow kToleranceRow{"What is wanted", "--tolerance", "T", Takes::OneValue, "neighbour touching alone",
              "The largest difference that passes, in CIEDE2000 units, or a word: touching (0.5), neighbour (1.0, used without this option), "
              "alone (2.0); common practice, no source."};
constexpr OptionRow kPanelRow{"Where things are in the photo", "--panel", "Q", Takes::RepeatedValue, "",
              "The sprayed panel. Give it up to 12 times to rank several panels against one card; they are called A, B, C in that order."};
constexpr OptionRow kStepsRow{"Where things are in the photo", "--steps", "N,N,...", Takes::OneValue, "",
              "The panel is stepped: strips side by side along its longer side, with so many coats each, from the left or the top of the picture; 0 "
              "is bare ground. Their edges are found, and each strip is judged."};
constexpr OptionRow kMixRow{"What is known", "--mix", "STRONG:WEAK", Takes::RepeatedValue, "",
              "The panel's parts of strong and weak tint, such as 1:3. Give it once for all panels or once for each."};
constexpr OptionRow kCoatsRow{"What is known", "--coats", "N", Takes::OneValue, "", "How many coats the panel has; halves are allowed."};
constexpr OptionRow kCarrierRow{"What is known", "--carrier", "N", Takes::OneValue, "", "Volumes of clear carrier to one of tint. Goes into the series."};
constexpr OptionRow kExplainRow{"What is wanted", "--explain", "", Takes::Nothing, "", "Show what the uncertainty is made of."};

constexpr std::string_view kViewPlace = "Where it lies in that photo, if there is no mat and it does not lie where it did in the first.";
constexpr OptionRow kAlsoPanelRow{"More photos", "--also-panel", "Q", Takes::RepeatedValue, "", kViewPlace};
constexpr OptionRow kAlsoCardRow{"More photos", "--also-card", "Q", Takes::OneValue, "", kViewPlace};
constexpr OptionRow kAlsoGreyRow{"More photos", "--also-grey", "Q", Takes::RepeatedValue, "", kViewPlace};
constexpr OptionRow kFlopPanelRow{"More photos", "--flop-panel", "Q", Takes::RepeatedValue, "", kViewPlace};
constexpr OptionRow kFlopCardRow{"More photos", "--flop-card", "Q", Takes::OneValue, "", kViewPlace};
constexpr OptionRow kFlopGreyRow{"More photos", "--flop-grey", "Q", Takes::RepeatedValue, "", kViewPlace};

/// What judge and watch are told of a panel and its photo.
constexpr std::array kPanelPlaces{
    kPanelRow,
    kCardRow,
    kCardLabRow,
    kGreyRow,
    kBlackRow,
    kStepsRow,
    kPlainSheetRow,
};
constexpr std::array kPanelKnown{
    kChartRow,
    kChartDataRow,
    kProfileRow,
    kGreyYRow,
    kGreyFromRow,
    kMixRow,
    kCoatsRow,
    kCarrierRow,
    kCardKindRow,
    kEncodingRow,
    kToleranceRow,
    kExplainRow,
};

constexpr std::array kMorePhotos{
    OptionRow{"More photos", "--swapped", "PHOTO", Takes::OneValue, "",
              "A second shot with panel and card changed over, or the mat turned by half, camera and lamp as they were. The two are averaged, so "
              "that what the light's angle does to a metallic paint cancels."},
    OptionRow{"More photos", "--also", "PHOTO", Takes::OneValue, "",
              "The same panel and card in another light. Both are judged, and it is said when they match in one light and part in the other."},
    kAlsoPanelRow,
    kAlsoCardRow,
    kAlsoGreyRow,
    OptionRow{"More photos", "--flop", "PHOTO", Takes::OneValue, "",
              "Panel and card tilted together, or seen from a low angle: what a metallic or pearl shows on its flop. It has its own verdict."},
    kFlopPanelRow,
    kFlopCardRow,
    kFlopGreyRow,
};
constexpr std::array kJudgeWanted{
    OptionRow{"What is wanted", "--json", "", Takes::Nothing, "", "Print the whole report as JSON (see docs/json.md)."},
    OptionRow{"What is wanted", "--series", "OUT.json", Takes::OneValue, "",
              "Write the readings as a series file, for working out the next mix. Needs --mix, --carrier, and --coats or --steps, or a printed tag that tells them."},
    OptionRow{"What is wanted", "--gate", "", Takes::Nothing, "", "Exit with 1 unless the (first) panel is surely within the tolerance."},
};
constexpr auto kJudge = joined(kPanelPlaces, kMorePhotos, kPanelKnown, kJudgeWanted);

constexpr std::array kMap{
    OptionRow{"Where things are in the photo", "--panel", "Q", Takes::RepeatedValue, "",
              "The sprayed panel. Of several the first is drawn."},
    kCardRow,
    kCardLabRow,
    kGreyRow,
    kBlackRow,
    kPlainSheetRow,
    kChartRow,
    kChartDataRow,
    kProfileRow,
    kGreyYRow,
    kGreyFromRow,
    kCardKindRow,
    kEncodingRow,
    kToleranceRow,
};

constexpr std::array kProfile{
    OptionRow{"The profile", "--out", "FILE.json", Takes::OneValue, "", "Where to write the profile. Without it, it is only looked at."},
    OptionRow{"The profile", "--icc", "FILE.icc", Takes::OneValue, "", "Write an ICC profile for other programs as well (its plain matrix only)."},
    OptionRow{"The camera", "--chart", "auto|Q", Takes::OneValue, "",
              "A 24-patch colour-rendition chart in the photo: looked for without this option, or where the outer corners of its "
              "four corner patches are."},
    kChartDataRow,
    OptionRow{"The camera", "--encoding", "WORD", Takes::OneValue, "auto linear srgb",
              "What the pictures' numbers mean. Without it the profile in the file is obeyed, or sRGB assumed."},
};

constexpr std::array kGrey{
    OptionRow{"Where things are in the photo", "--grey", "Q", Takes::OneValue, "", "Your grey patch, beside the chart and flat in its plane."},
    OptionRow{"The camera", "--chart", "auto|Q", Takes::OneValue, "",
              "A 24-patch colour-rendition chart in the photo: looked for without this option, or where the outer corners of its "
              "four corner patches are."},
    kChartDataRow,
    kEncodingRow,
    OptionRow{"What is kept", "--out", "FILE.json", Takes::OneValue, "", "Keep it in this file instead; judge and map take it with --grey-from FILE.json."},
    OptionRow{"What is kept", "--show", "", Takes::Nothing, "", "Say which grey is kept, and what it was measured from."},
    OptionRow{"What is kept", "--forget", "", Takes::Nothing, "", "Remove it."},
};

constexpr std::array kMat{
    OptionRow{"The sheet", "--paper", "SIZE", Takes::OneValue, "a4 letter", "The paper in the printer. Without it: a4."},
    OptionRow{"The sheet", "--small", "", Takes::Nothing, "", "A mat of half the size for small panels, to be cut out."},
    OptionRow{"The sheet", "--strip", "", Takes::Nothing, "", "A strip with a window to look through, to be cut out and bent round a tube or a curved part."},
};

constexpr std::array kTag{
    OptionRow{"What the tags tell", "--mix", "STRONG:WEAK", Takes::OneValue, "", "Parts of strong and weak tint, such as 1:4, on every tag that has no mix of its own."},
    OptionRow{"What the tags tell", "--coats", "N", Takes::OneValue, "", "The panel's coats, likewise."},
    OptionRow{"What the tags tell", "--carrier", "N", Takes::OneValue, "", "Volumes of clear carrier to one of tint, likewise."},
    OptionRow{"The sheet", "--paper", "SIZE", Takes::OneValue, "a4 letter", "The paper in the printer. Without it: a4."},
    OptionRow{"The sheet", "--size", "MM", Takes::OneValue, "", "Width of the black frame, 12 to 60 millimetres. Without it: 28. Larger ones are read from farther away."},
};

constexpr std::array kPour{
    OptionRow{"The mix", "--mix", "STRONG:WEAK", Takes::OneValue, "", "Parts of strong and weak tint by volume, such as 1:3."},
    OptionRow{"The mix", "--tint", "NAME=PARTS", Takes::RepeatedValue, "", "One tint with its parts, in place of --mix; once for each of up to 12."},
    OptionRow{"The mix", "--carrier", "N", Takes::OneValue, "", "Volumes of clear carrier to one of all tints together; 0 for none."},
    OptionRow{"The mix", "--density", "NAME=G", Takes::RepeatedValue, "",
              "Grams of one millilitre, from the data sheet: strong, weak, a tint's name, or carrier. With all of them the mix is weighed; else it is poured by the cup's lines."},
    OptionRow{"How much", "--area", "[NAME=]M2", Takes::RepeatedValue, "", "Square metres to be coated, such as 0.45; or part by part, such as frame=0.35."},
    OptionRow{"How much", "--coats", "N", Takes::OneValue, "", "How many coats; halves are allowed."},
    OptionRow{"How much", "--tool", "WORD", Takes::OneValue, "gun airbrush",
              "What is sprayed with: it sets film, loss and rest where they are not given (common practice, no source). Without it: gun."},
    OptionRow{"How much", "--film", "UM", Takes::OneValue, "", "Wet film of one coat in micrometres. Without it: 25 by gun, 12 by airbrush."},
    OptionRow{"How much", "--coverage", "M2", Takes::OneValue, "", "Square metres that a litre covers with one coat, before losses; in place of --film."},
    OptionRow{"How much", "--loss", "SHARE", Takes::OneValue, "", "Share of what is sprayed that misses the part, 0 to 0.95. Without it: 0.5 by gun, 0.35 by airbrush."},
    OptionRow{"How much", "--rest", "ML", Takes::OneValue, "", "Millilitres that stay in cup, strainer and tool. Without it: 15 by gun, 2 by airbrush."},
    OptionRow{"How much", "--volume", "ML", Takes::OneValue, "", "Millilitres of finished mix, in place of area and coats."},
    OptionRow{"Scale and cup", "--scale", "G", Takes::OneValue, "", "Smallest step that the scale shows, in grams. Without it: 0.1."},
    OptionRow{"Scale and cup", "--cup-error", "ML", Takes::OneValue, "", "Pour by the cup's lines, which can be misread by so many millilitres. Without it: 1."},
    OptionRow{"Scale and cup", "--cup", "ML", Takes::OneValue, "", "What one cup takes; a larger mix is poured in equal fills."},
    OptionRow{"Scale and cup", "--have", "AMOUNT@STRONG:WEAK+CARRIER", Takes::OneValue, "",
              "What is in the cup already, such as 120@1:2+5 for 120 mL or 115g@1:2+5: it is told what to add. Parts stand in the order of the tints."},
    OptionRow{"What is wanted", "--out", "FILE", Takes::RepeatedValue, "", "Write a sheet to print: .pdf or .html."},
    OptionRow{"What is wanted", "--paper", "SIZE", Takes::OneValue, "a4 letter", "The paper in the printer. Without it: a4."},
    OptionRow{"What is wanted", "--title", "WORDS", Takes::OneValue, "", "What the sheet is for, to stand at its head."},
    OptionRow{"What is wanted", "--json", "", Takes::Nothing, "", "Print everything as JSON (see docs/pour.md)."},
};

constexpr OptionRow kTintsRow{"What is known", "--tints", "FILE.json", Takes::OneValue, "",
              "Tints that are known from an earlier series (see --save-tints): they narrow the answer, and give a first mix when nothing is sprayed yet."};
constexpr OptionRow kSeriesJsonRow{"What is wanted", "--json", "", Takes::Nothing, "", "Print the answer as JSON (see docs/advise.md)."};

constexpr OptionRow kPlotRow{"What is wanted", "--plot", "FILE.svg", Takes::OneValue, "", "Draw it as well, into an SVG file, which any browser shows."};

constexpr std::array kAdvise{
    kTintsRow,
    OptionRow{"What is known", "--part", "COATS", Takes::OneValue, "",
              "Coats that lie on the real part, such as \"3 coats so far\": says whether to add one more, to stop, or not to add. The mix is the accepted one, else the last panel's."},
    OptionRow{"What is wanted", "--shelf", "FILE.json", Takes::OneValue, "",
              "Choose one, two or three of the tints in this tint file (at most 40) instead of the series' own two."},
    OptionRow{"What is wanted", "--save-tints", "FILE.json", Takes::OneValue, "", "Keep what the panels tell of the tints, and of how evenly you spray, for other series."},
    kPlotRow,
    kSeriesJsonRow,
};

constexpr std::array kGrounds{
    kTintsRow,
    kPlotRow,
    kSeriesJsonRow,
};

constexpr std::array kWatched{
    OptionRow{"What is watched", "--folder", "DIR", Takes::OneValue, "",
              "The folder into which the photos come. Folders in it, and files whose names begin with a dot or do not end as photos' do, are left alone."},
    OptionRow{"What is watched", "--camera", "0|FILE", Takes::OneValue, "",
              "A camera by its number or device (0, /dev/video1), or a film in its place: Motion JPEG (.avi), FFV1 (.mkv), or pictures (frames/img_%03d.png)."},
    OptionRow{"What is watched", "--stills", "DIR", Takes::OneValue, "", "With --camera: Enter keeps the picture as it is, at full size, as a photo in this folder."},
    OptionRow{"What is watched", "--count", "N", Takes::OneValue, "", "End after so many verdicts. Without it the watch goes on until Ctrl-C, or to a film's end."},
};
constexpr std::array kWatchWanted{
    OptionRow{"What is wanted", "--json", "", Takes::Nothing, "", "Print one line of JSON for each photo or live verdict (see docs/watch.md)."},
    OptionRow{"What is wanted", "--series", "FILE.json", Takes::OneValue, "",
              "Put the readings into this series file as well; it is begun, or extended if it is there. Needs --mix, --carrier, and --coats or --steps, or tags that tell them."},
    OptionRow{"What is wanted", "--gate", "", Takes::Nothing, "", "Exit with 1 at the end unless the (first) panel of every photo was surely within the tolerance."},
};
constexpr auto kWatch = joined(kWatched, kPanelPlaces, kPanelKnown, kWatchWanted);

constexpr std::array kCommands{
    CommandRow{"judge", "PHOTO...", "how far a panel is off the card, how sure that is, and what to change",
               "Reads the panel, the card and the grey patch from one photograph and says how far off the panel is, in plain words and in "
               "CIEDE2000 with a 95 % interval, and what to change: more or less of the strong tint, more or fewer coats, or another ground. "
               "It says \"can't say\" when the photo cannot tell.\n\n"
               "Several photos of one set-up, nothing but the camera moved, are combined: their scatter tells how sure the answer is, and one that does not go "
               "with the others is named and left out.\n\n"
               "With no place given, the printed mat is looked for (see huewright mat), and what lies in its windows is judged.\n\n"
               "A place Q is X,Y,WIDTH,HEIGHT or four corners X1,Y1,X2,Y2,X3,Y3,X4,Y4, going round, in pixels of the upright picture. Mark "
               "well inside the edges; a rim of each region is left out anyway. PHOTO is a JPEG, PNG, TIFF, HEIC, HEIF or AVIF file, a DNG or the camera's raw file.",
               kJudge,
               "huewright judge sample-images/too-strong.jpg --panel 142,112,321,396 --card 578,125,230,231 --grey 614,454,157,87 --grey-y 0.19 "
               "--mix 1:2 --coats 4 --card-kind same"},
    CommandRow{"map", "PHOTO OUT.png", "a picture of where on the panel the colour is off, and by how much",
               "Judges the panel as judge does, then draws the difference from the card's mean place by place: the panel beside its map, a scale, a line where "
               "the tolerance is crossed, and in words how mottled the panel is and how its edges differ from its middle. Places with glare or shadow are "
               "left out.\n\n"
               "With no place given, the printed mat is looked for.",
               kMap,
               "huewright map sample-images/too-strong.jpg map.png --panel 142,112,321,396 --card 578,125,230,231 --grey 614,454,157,87 --grey-y 0.19 "
               "--card-kind same"},
    CommandRow{"profile", "PHOTO...", "how a camera sees colour, from photos of a chart",
               "Finds the 24-patch colour-rendition chart in each photo, fits the way from the camera's values to colours, and says in sentences how far that can "
               "be relied on and what to do. Several photos by one camera in one light are fitted together. A raw file gives the best profile.",
               kProfile, "huewright profile chart.dng --out camera.json"},
    CommandRow{"grey", "PHOTO", "measures your own grey patch beside a chart, once, and keeps it",
               "Measures a grey patch against the greys of a 24-patch colour-rendition chart beside it, says how light and how neutral it is and whether it is fit for a grey, and "
               "keeps that for all later photos: judge and map then take every grey in a photo for this patch, instead of a neutral of assumed lightness.\n\n"
               "Lay the patch close beside the chart, flat, in even light, and photograph both from straight above. A raw file is best.",
               kGrey, "huewright grey chart.dng --grey 620,180,110,110"},
    CommandRow{"advise", "SERIES.json", "what to spray next: parts, coats, and what to expect",
               "Fits the two tints to the panels of a series (see docs/series.md) and says which mix to spray next, in parts that a cup shows and whole coats, how near that should "
               "come, and what other ways would trade. A panel that does not go with the others is named. With few panels it says which would teach the most.\n\n"
               "Transparent tint can be deepened, never lightened, so it rather stays a little short than goes over.",
               kAdvise, "huewright advise sample-images/teal-series.json"},
    CommandRow{"grounds", "SERIES.json", "the accepted mix over every known ground",
               "Predicts the accepted mix of a series (else the one advised next) over each of its grounds: colour, words against the first ground, and a warning where few coats lean to "
               "another hue than the finished colour.",
               kGrounds, "huewright grounds sample-images/teal-series.json"},
    CommandRow{"mat", "OUT.pdf", "a sheet to print: places for panel, card and grey, and markers",
               "Writes a sheet to print: windows for up to four panels, the card and grey patches, side by side across the light, with markers round "
               "them, an arrow to the lamp and the rules for a good photo. Its blank paper shows how even the light is.\n\n"
               "Print it at 100 %, without \"fit to page\", on matt white paper, and check that its line is 100 mm long. Keep it off uncured paint.",
               kMat, "huewright mat mat.pdf --paper a4"},
    CommandRow{"tag", "NAME... OUT.pdf", "labels to lay by panels, that tell their mix and coats",
               "Writes a sheet of labels to cut apart, one for each name. A label tells people and judge the same: the panel's name, mix, coats and carrier. Lay it flat beside "
               "its panel; judge then files what it reads under that name and takes from the label what was not told.\n\n"
               "A NAME of up to 20 letters may bring its own mix, coats and carrier: \"frame 3=1:4,4,5\"; each may be left out. Print at 100 % on matt white paper. Ordinary "
               "electronics are ignition sources near solvent vapour: photograph outside the spray area, after venting, and follow local codes.",
               kTag, "huewright tag \"frame 3\" --mix 1:4 --coats 4 --carrier 5 tags.pdf"},
    CommandRow{"pour", "--mix S:W", "how much of each to pour, in which order, and a sheet to print",
               "Turns parts, carrier, coats and area into millilitres and grams of each tint and of the carrier, in the order of pouring, with what the scale or the cup shows "
               "after each; says how far the ratio may be off, and from which amount on it is within 1 %.\n\n"
               "With --have it says what to add to what is in the cup. Nothing is ever taken out: where the cup holds too much of one, the mix grows, and it is said when "
               "starting afresh takes less paint.",
               kPour, "huewright pour --mix 1:3 --carrier 5 --coats 4 --area frame=0.35 --area fork=0.1 --out sheet.pdf"},
    CommandRow{"watch", "--folder DIR|--camera 0", "judges what comes into a folder, or before a camera",
               "Takes each new photo that a phone's sync or a card reader drops into the folder, waits until it is complete, judges it as judge does, prints one line, and writes the whole "
               "verdict beside the photo. It also finds what came while it was off. A photo is judged once, under whatever name it comes again.\n\n"
               "With --camera it judges what a live camera shows, ten times a second, and writes one line over and over: frames are averaged while the camera is still, and followed while it shakes a "
               "little.\n\n"
               "The watch goes on when a photo cannot be used, and when the folder or the camera goes away and comes back. Ctrl-C ends it.\n\n"
               "Ordinary electronics are ignition sources near solvent vapour: photograph outside the spray area, after venting, and follow local codes.",
               kWatch, "huewright watch --folder photos --grey-y 0.19 --card-kind same"},
};

}  // namespace

std::span<const CommandRow> commandTable() { return kCommands; }

std::string_view programAbout() {
  return "Huewright helps people who spray transparent tint coats over a ground coat to hit a wanted colour. Photograph the panel beside "
         "the wanted colour and a grey patch; it tells how far off the panel is, how sure that is, and what to change.";
}

std::string_view safetyText() {
  return "Two-pack clear contains isocyanates, and solvent vapour burns. Follow the safety data sheets, local codes and licensed practice: "
         "supplied air or the respirator they name, ventilation, no ignition sources. Photograph away from the spray area, when the clear is "
         "dry to the touch.";
}

std::string_view exitCodesText() {
  return "0  done\n1  with --gate, when the panel is not surely within the tolerance\n2  wrong use, seen before any file is opened\n"
         "3  what there is to work on cannot be used: a file, a region in a photo, what is in the cup\n4  our own fault\n5  disk, data or machine";
}

}  // namespace huewright
