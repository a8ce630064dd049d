#include "paper/pour_page.hpp"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "paper/pour_cup.hpp"

namespace huewright {
namespace {

constexpr std::string_view kPageStyle =
    "@page{size:PAPER;margin:12mm}*{box-sizing:border-box}body{font:9.5pt/1.35 'DejaVu Sans',Verdana,sans-serif;color:#000;background:#fff;"
    "max-width:186mm;margin:0 auto;padding:6mm 2mm}header{display:flex;justify-content:space-between;align-items:baseline;gap:6mm}"
    "h1{font-size:17pt;margin:0;overflow-wrap:anywhere}h2{font-size:12.5pt;margin:1.5mm 0 1mm;overflow-wrap:anywhere}p{margin:.4mm 0}.fields{font-size:9pt;white-space:nowrap}"
    ".fields i,.coats i{display:inline-block;border-bottom:.25mm solid #888;width:20mm;height:1em}"
    ".both{display:flex;gap:7mm;align-items:flex-start;margin:4mm 0;flex-wrap:wrap}table{border-collapse:collapse;flex:1 1 100mm}"
    "th{font-weight:400;font-size:9pt;color:#555;text-align:right;padding:1mm}td{text-align:right;padding:1.6mm 1mm;border-bottom:.25mm solid #aaa;"
    "white-space:nowrap;font-variant-numeric:tabular-nums}thead th{border-bottom:.4mm solid #000}th.name,td.name{text-align:left;white-space:normal;overflow-wrap:anywhere}"
    "td.name,td.until,td.nr{font-weight:700}td.until{font-size:12pt}td.off{font-size:9pt}td.tick::before,.coats span::before{content:'';display:inline-block;width:4mm;height:4mm;"
    "border:.3mm solid #000;vertical-align:-.6mm}figure{margin:0;flex:0 0 56mm}figcaption{font-size:8pt;color:#444}ul{margin:2mm 0;padding-left:5mm}li{margin:.7mm 0}"
    ".coats{display:flex;flex-wrap:wrap;gap:2mm 4mm;margin:3mm 0;font-size:9pt}.care{border:.5mm solid #000;padding:2.5mm 4mm;display:flex;gap:4mm;"
    "align-items:center;font-size:9pt;margin-top:4mm;break-inside:avoid}.care svg{flex:0 0 11mm}"
    ".option{white-space:nowrap}@media print{body{padding:0}}";

std::string safe(std::string_view text) {
  std::string out;
  for (const char c : text) switch (c) {
      case '&': out += "&amp;"; break;
      case '<': out += "&lt;"; break;
      case '>': out += "&gt;"; break;
      case '"': out += "&quot;"; break;
      default: out += c;
    }
  return out;
}

/// Words of a note; an option such as --film does not break after its dashes.
std::string noteItem(std::string_view words) {
  std::string out = safe(words);
  for (auto at = out.find("--"); at != std::string::npos; at = out.find("--", at)) {
    const auto end = std::min(out.find_first_not_of("abcdefghijklmnopqrstuvwxyz-", at), out.size());
    const std::string option = "<span class=\"option\">" + out.substr(at, end - at) + "</span>";
    out.replace(at, end - at, option);
    at += option.size();
  }
  return "<li>" + out + "</li>";
}

std::string element(std::string_view name, std::string_view words, std::string_view kind = {}) {
  std::string out = "<" + std::string(name);
  if (!kind.empty()) out += " class=\"" + std::string(kind) + "\"";
  return out + ">" + safe(words) + "</" + std::string(name) + ">";
}

/// Tenths of a millimetre, with a point whatever the locale.
std::string tenths(double mm) {
  const auto rounded = std::lround(10 * mm);
  return std::to_string(rounded / 10) + "." + std::to_string(std::abs(rounded % 10));
}

std::string svgLine(double x1, double y1, double x2, double y2, double x3, double y3) {
  return "<path d=\"M" + tenths(x1) + " " + tenths(y1) + "L" + tenths(x2) + " " + tenths(y2) + "L" + tenths(x3) + " " + tenths(y3) +
         "\" fill=\"none\" stroke=\"#777\" stroke-width=\".2\"/>";
}

std::string svgText(double x, double y, std::string_view words, std::string_view more) {
  return "<text x=\"" + tenths(x) + "\" y=\"" + tenths(y) + "\" " + std::string(more) + ">" + safe(words) + "</text>";
}

std::string cupSvg(const PourSheet& sheet) {
  constexpr double kHighCup = 62, kWide = 20, kCupHeadroom = 8, kApart = 4.4;
  const bool marked = std::ranges::any_of(sheet.layers, [](const PourSheetLayer& layer) { return !layer.mark.empty(); });
  const double left = marked ? 11 : 2, right = left + kWide, floor = kCupHeadroom + kHighCup;
  std::string out = "<svg viewBox=\"0 0 56 73\" width=\"56mm\" height=\"73mm\" role=\"img\" font-size=\"3\"><title>The cup and its lines</title>";
  std::vector<double> marks;
  double below = 0;
  for (std::size_t i = 0; i < sheet.layers.size(); ++i) {
    const PourSheetLayer& layer = sheet.layers[i];
    const double to = layer.to * kHighCup;
    out += "<rect x=\"" + tenths(left) + "\" y=\"" + tenths(floor - to) + "\" width=\"" + tenths(kWide) + "\" height=\"" + tenths(to - below) + "\" fill=\"" +
           (layer.in_cup ? "#b8b8b8" : i % 2 == 0 ? "#eee" : "#d6d6d6") + "\" stroke=\"#000\" stroke-width=\".3\"/>";
    marks.push_back(to);
    below = to;
  }
  const std::vector<double> places = labelPlaces(marks, kApart);
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const double y = floor - marks[i], at = floor - places[i];
    out += svgLine(right, y, right + 2.5, at, right + 4, at) + svgText(right + 5, at + 1.1, sheet.layers[i].label, "");
    if (!sheet.layers[i].mark.empty()) out += svgLine(left, y, left - 2.5, at, left - 4, at) + svgText(left - 5, at + 1.1, sheet.layers[i].mark, "text-anchor=\"end\" font-weight=\"bold\"");
  }
  out += "<path d=\"M" + tenths(left - 1.6) + " .3L" + tenths(left) + " 1.3V" + tenths(floor) + "H" + tenths(right) + "V1.3L" + tenths(right + 1.6) +
         " .3\" fill=\"none\" stroke=\"#000\" stroke-width=\".5\" stroke-linejoin=\"round\"/>";
  return out + "</svg>";
}

}  // namespace

std::string pourSheetHtml(const PourSheet& sheet) {
  constexpr int kMostBoxes = 12;
  const bool weighed = std::ranges::any_of(sheet.lines, [](const PourSheetLine& line) { return !line.add_g.empty(); });
  std::string style(kPageStyle);
  style.replace(style.find("PAPER"), 5, sheet.paper == "letter" ? "letter" : "A4");
  std::string out = "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\">" + element("title", sheet.title) +
                    "<style>" + style + "</style></head>\n<body><header>" + element("h1", sheet.title) + "<span class=\"fields\">Date <i></i> &nbsp; Batch <i></i></span></header>\n" +
                    element("h2", sheet.mix) + "\n";
  for (const std::string& fact : sheet.facts) out += element("p", fact) + "\n";
  out += "<div class=\"both\"><table><thead><tr><th></th><th></th>" + element("th", "Pour in this order", "name") + "<th" + (weighed ? " colspan=\"2\"" : "") + ">add</th><th>within</th>" +
         element("th", sheet.until_head) + "</tr></thead><tbody>\n";
  int number = 0;
  for (const PourSheetLine& line : sheet.lines) {
    out += "<tr><td class=\"tick\"></td>" + element("td", std::to_string(++number), "nr") + element("td", line.name, "name") + element("td", line.add_ml);
    if (weighed) out += element("td", line.add_g);
    out += element("td", line.off, "off") + element("td", line.until.empty() ? "–" : line.until, "until") + "</tr>\n";
  }
  out += "</tbody></table><figure>" + cupSvg(sheet) + element("figcaption", sheet.cup_caption) + "</figure></div>\n<ul>\n";
  for (const std::string& note : sheet.notes) out += noteItem(note) + "\n";
  out += "</ul>\n";
  if (sheet.coats > 0) {
    out += "<div class=\"coats\">";
    for (int i = 1; i <= std::min(kMostBoxes, sheet.coats); ++i) out += "<span> Coat " + std::to_string(i) + " at <i></i></span>";
    out += "</div>\n";
  }
  out += "<div class=\"care\"><svg viewBox=\"0 0 12 11\" width=\"11mm\" height=\"10mm\" role=\"img\" fill=\"none\" stroke=\"#000\" stroke-width=\"1\" stroke-linejoin=\"round\" "
         "stroke-linecap=\"round\"><title>Warning</title><path d=\"M6 .8L11.3 10.2H.7ZM6 4.2V6.6\"/><path d=\"M6 8.4V8.4\"/></svg><div>\n";
  for (const std::string& caution : sheet.cautions) out += element("p", caution) + "\n";
  return out + "</div></div></body></html>\n";
}

}  // namespace huewright
