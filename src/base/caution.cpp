#include "base/caution.hpp"

#include <array>

#include "base/text.hpp"

namespace huewright {
namespace {

struct CautionRow {
  CautionCode code;
  std::string_view name;
  std::string_view text;
};

constexpr std::array<CautionRow, kCautionCount> kCautionRows{{
    {CautionCode::Clipped, "clipped",
     "The photo ran out of range on {}: that colour is cut off. Photograph again with less exposure, or use a linear file."},
    {CautionCode::TooDark, "too-dark", "{} is so dark in the photo that noise and stray light rule it. Give more light or more exposure."},
    {CautionCode::TooFewPixels, "too-few-pixels", "{} covers few pixels. Photograph from nearer."},
    {CautionCode::Glare, "glare", "Over a third of {} is glare and was left out. Turn the lamp so that it does not mirror in the clear."},
    {CautionCode::Shadow, "shadow", "Over a third of {} is in shadow or dirty and was left out. Clear the light's way and photograph again."},
    {CautionCode::RegionEdge, "region-edge", "The region marked for {} seems to run over its edge. Mark it a little smaller."},
    {CautionCode::LightNotCorrected, "light-not-corrected",
     "{}, so uneven light is corrected only as far as panel and card show it themselves. Lay a grey patch on either side, or use even light."},
    {CautionCode::LightUneven, "light-uneven",
     "The brightness seems to change by about {} % between panel and card; it was evened out as far as their own slopes tell. Use more even "
     "light, or lay panel and card across the light."},
    {CautionCode::LightMixed, "light-mixed",
     "The colour of the light changes by about {} % between panel and card: two kinds of light fall on the set-up. Use one, or lay a grey "
     "patch on either side."},
    {CautionCode::LightColoured, "light-coloured",
     "The light is strongly coloured, or the grey patch is not neutral; matches made in such light may part in daylight. Check the patch, and "
     "photograph again in daylight or under a daylight lamp."},
    {CautionCode::GreyNotGrey, "grey-not-grey", "{} does not look like one flat grey. Check that the region lies on the grey patch alone."},
    {CautionCode::GreyExposure, "grey-exposure", "{} is badly exposed. Set the exposure so that the grey is neither near black nor near white."},
    {CautionCode::GreysDisagree, "greys-disagree",
     "The grey patches differ in colour by {} %: two kinds of light fall on the set-up, or one patch is not neutral."},
    {CautionCode::GreyUnmeasured, "grey-unmeasured",
     "{}. Measure it once beside a colour chart with huewright grey, or say how light it is with --grey-y."},
    {CautionCode::AbsoluteNotTrusted, "absolute-not-trusted",
     "Without a colour chart the photo gives differences, not absolute colour: the Lab numbers themselves may be off by 7 or more."},
    {CautionCode::CardKindUnknown, "card-kind-unknown",
     "What the card is made of was not said. If it is the same kind of paint, say --card-kind same for a narrower answer."},
    {CautionCode::PaperAsGrey, "paper-as-grey",
     "No grey patch was given, so the sheet's own white stood in for one; papers differ in tint and lightness. Lay a grey patch in its window."},
    {CautionCode::PaperUneven, "paper-uneven",
     "The blank paper does not show one even course of light: about {} % is left that no smooth fall-off explains. Clear away what throws "
     "shadows or coloured light on the sheet."},
    {CautionCode::ShadowAcross, "shadow-across",
     "The edge of a shadow runs across {}: its brightness cannot be trusted. Clear the light's way and photograph again."},
    {CautionCode::ShadowOver, "shadow-over",
     "{} seems to lie in a shadow that the rest does not share. Clear the light's way and photograph again."},
    {CautionCode::ToneLocal, "tone-local",
     "The mat's grey dots, all printed alike, differ by {} % in the photo: the camera has brightened or darkened parts of it. Turn off its "
     "scene effects, or use a raw or linear file."},
    {CautionCode::PrintScale, "print-scale",
     "{}. Print it again at 100 %, without \"fit to page\", and check that its line is 100 mm long."},
    {CautionCode::VeilTakenOff, "veil-taken-off",
     "The black chip mirrors {} % of white, and the glossy surfaces with it; that was taken off. Move until the clear shows a dark wall."},
    {CautionCode::BlackNotBlack, "black-not-black",
     "{}, so nothing was taken off for what the clear mirrors. Check that a glossy black chip lies there, flat, beside the panel."},
    {CautionCode::ShotsApart, "shots-apart",
     "The two shots differ by {} in ΔE00, more than the angle of the light explains. Check that nothing but panel and card changed places."},
    {CautionCode::StepsReversed, "steps-reversed",
     "The steps seem to run the other way: the strips said to have the most coats differ the most from their neighbours. Check the order of --steps."},
    {CautionCode::BalanceDoubtful, "balance-doubtful",
     "The raw file's own white balance cannot be right; daylight was taken in its place, and the grey patch must do the rest."},
    {CautionCode::ProfileLight, "profile-light",
     "The grey patch differs by {} % in colour from what the camera profile expects: it was made in another light, or the patch is not neutral. "
     "Put a chart in the picture, or make a profile in this light."},
    {CautionCode::ProfileCamera, "profile-camera", "The camera profile was made with another camera ({}). Make one with this camera, or put a chart in the picture."},
    {CautionCode::OutsideChart, "outside-chart", "{} is more colourful than anything on the chart, so its colour is less sure."},
    {CautionCode::ChartNotUsed, "chart-not-used", "A chart seems to be in the photo but was not used: {}."},
    {CautionCode::ChartDataNote, "chart-data-note", "About the chart data: {}."},
    {CautionCode::PaperUnusable, "paper-unusable",
     "The sheet's blank paper does not show the light: {}. The greys alone had to. Expose a little less, and clear away what lies on the sheet."},
    {CautionCode::PhotoLeftOut, "photo-left-out", "{} and was left out. Look at what is different in it."},
    {CautionCode::PhotosDisagree, "photos-disagree",
     "The photos scatter by ΔE00 {}, more than photos of one set-up do. Check that nothing but the camera moved, and that the light stayed."},
    {CautionCode::OneAngle, "one-angle",
     "{} looks metallic, and it was judged at one angle only. Tilt panel and card together, photograph them again, and add that photo with --flop."},
    {CautionCode::ValuesLinear, "values-linear",
     "{} holds values proportional to light, as the chart's greys show, and not sRGB; it was read as linear. Say --encoding srgb if that is wrong."},
    {CautionCode::ValuesLinearTold, "values-linear-told",
     "{} was read as sRGB as told, but the chart's greys show values proportional to light. Say --encoding linear, or leave it out."},
    {CautionCode::OtherCharts, "other-charts", "{}. Cover what is not meant, or say which with --chart and its corners."},
    {CautionCode::PourAssumed, "pour-assumed", "{}: common practice, not from your data sheet or your tool. Give your own with --film or --coverage, --loss and --rest."},
    {CautionCode::PourTooSmall, "pour-too-small", "{}."},
    {CautionCode::CupGrows, "cup-grows", "{}, and nothing can be taken out again: the mix grows."},
    {CautionCode::FreshIsLess, "fresh-is-less", "{}. Start with an empty cup, and keep what is in this one for another job."},
    {CautionCode::SeriesCopies, "series-copies",
     "{} are exact copies of others and were counted once. A panel read again never gives just the same numbers; enter each reading as it was."},
    {CautionCode::PanelOdd, "panel-odd", "{}. Look at its label; it was left out of the reckoning."},
    {CautionCode::PanelsContradict, "panels-contradict", "{} contradict each other. Check their labels, and spray one of them again."},
    {CautionCode::StagesMixed, "stages-mixed", "{}. Compare panels of one stage, best all cleared."},
    {CautionCode::ShareOrCoats, "share-or-coats",
     "The panels do not tell share and coats apart: {}. A stepped panel, or two shares at two numbers of coats each, would."},
    {CautionCode::OtherPigment, "other-pigment", "The card probably holds another pigment: {}. Match it by eye in the light it will be seen in, or ask for another tint."},
    {CautionCode::FilmFloor, "film-floor", "{}, so no closer match can be promised of any one panel."},
    {CautionCode::FewPanels, "few-panels", "{}. The numbers rest mostly on what tints are usually like."},
    {CautionCode::LeanAtFewCoats, "lean-at-few-coats", "{}."},
    {CautionCode::FolderAway, "folder-away", "The folder \"{}\" is away. It is waited for; put the card back in, or make the folder again."},
    {CautionCode::WatchListDamaged, "watch-list-damaged",
     "The folder's list of judged photos could not be read ({}). A new one is begun; the verdicts beside the photos tell which of them are judged already."},
    {CautionCode::OtherCard, "other-card",
     "The reading is in the series, but the card in this photo lies ΔE00 {} from the series' wanted colour. If it is another card, begin another series."},
    {CautionCode::NotFiled, "not-filed", "The reading is not in the series, because nothing tells {}. Lay a tag by the panel that tells it (huewright tag), or say it on the command line."},
    {CautionCode::SeriesFull, "series-full", "The reading is not in the series, which has no room for it: it holds {} panels. Take old ones out, or begin another series."},
    {CautionCode::TagContradicts, "tag-contradicts", "{}; what was told was used. Check which of the two is right."},
    {CautionCode::TwoTags, "two-tags", "{}. Lay each tag nearest to its own panel, and take the others away."},
    {CautionCode::TagUnread, "tag-unread", "{}: it is damaged, partly covered, mirrored or blurred. Tell its mix and coats yourself, or photograph again with the whole tag sharp and clean."},
    {CautionCode::CameraAway, "camera-away", "The camera \"{}\" is away. It is waited for; plug it in again, and close other programs that use it."},
    {CautionCode::CameraEmpty, "camera-empty", "The camera \"{}\" sends pictures without anything in them. Take its cover off, and see that there is light."},
    {CautionCode::CameraFrozen, "camera-frozen", "The camera \"{}\" sends the same picture over and over. Unplug it and plug it in again."},
    {CautionCode::CameraHalf, "camera-half",
     "Of the pictures of the camera \"{}\" the lower part is missing. Plug it into another socket, without a hub and with a short cable."},
    {CautionCode::CameraNotHeld, "camera-not-held", "{}."},
}};

constexpr bool cautionsInOrder() {
  for (std::size_t i = 0; i < kCautionRows.size(); ++i)
    if (static_cast<std::size_t>(kCautionRows[i].code) != i || kCautionRows[i].text.empty()) return false;
  return true;
}
static_assert(cautionsInOrder(), "the sentence table must follow the order of CautionCode");

}  // namespace

std::string sentence(const Caution& caution) { return filled(kCautionRows[static_cast<std::size_t>(caution.code)].text, caution.detail); }

std::string_view cautionName(CautionCode code) { return kCautionRows[static_cast<std::size_t>(code)].name; }

}  // namespace huewright
