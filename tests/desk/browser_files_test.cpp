#include "desk/browser_files.hpp"

#include <gtest/gtest.h>

namespace huewright::desk {
namespace {

FolderShown someFolder() {
  FolderShown f;
  f.folder = "/shop/photos";
  f.entries = {{"older", true, 0, "2026-01-01 09:00"}, {"Anna.JPG", false, 3'400'000, "2026-11-02 10:00"}, {"bench.heic", false, 1200, "2026-11-28 14:03"}, {"notes.txt", false, 10, "2026-11-28 15:00"}, {"über.png", false, 10, "2026-11-05 12:00"}};
  return f;
}

std::vector<std::string> namesOf(const FolderShown& f, const std::vector<BrowserRow>& rows) {
  std::vector<std::string> names;
  for (const BrowserRow& row : rows) names.push_back(row.entry < 0 ? ".." : f.entries[static_cast<std::size_t>(row.entry)].name);
  return names;
}

TEST(BrowserFiles, OnlyWhatFitsWhatIsAsked) {
  for (const char* name : {"a.jpg", "a.JPEG", "a.Png", "a.tif", "a.tiff", "a.heic", "a.heif", "a.avif", "a.dng", "a.NEF", "a.cr2", "a.cr3", "a.arw", "a.orf", "a.rw2", "a.raf", "a.pef", "a.srw"}) {
    EXPECT_TRUE(fits(Asking::Photo, name)) << name;
    EXPECT_TRUE(fits(Asking::Chart, name)) << name;
    EXPECT_FALSE(fits(Asking::Series, name)) << name;
  }
  for (const char* name : {"a.gif", "jpg", "a.jpg.txt", "a.json", ""}) EXPECT_FALSE(fits(Asking::Photo, name)) << name;
  for (const Asking asking : {Asking::Series, Asking::Tints, Asking::Profile, Asking::SaveSeries, Asking::SaveProfile}) EXPECT_TRUE(fits(asking, "teal.JSON"));
  EXPECT_TRUE(fits(Asking::Sheet, "pour.pdf"));
}

TEST(BrowserFiles, NumberedPicturesAreAFilm) {
  EXPECT_EQ(filmOf("/a/f_000.png"), "/a/f_%03d.png");
  EXPECT_EQ(filmOf("/a/2026-11/IMG7.JPG"), "/a/2026-11/IMG%01d.JPG");
  for (const char* as_it_is : {"/a/film.mkv", "/a/photo.png", "/a.1/film", "/a/7", "/a/001.txt"}) EXPECT_EQ(filmOf(as_it_is), as_it_is);
  for (const char* film : {"a.AVI", "a.mkv", "f_000.png", "1.tiff"}) EXPECT_TRUE(fits(Asking::Film, film)) << film;
  for (const char* none : {"photo.png", "a.mp4", "1.txt", ""}) EXPECT_FALSE(fits(Asking::Film, none)) << none;
  BrowserState browser;
  browser.asking = Asking::Film;
  browser.marks = true;
  const auto action = actionOf(browser, {"/a/f_000.png"});
  ASSERT_TRUE(action && std::holds_alternative<act::StartCamera>(*action));
  EXPECT_EQ(std::get<act::StartCamera>(*action).source, "/a/f_%03d.png");
  EXPECT_TRUE(std::get<act::StartCamera>(*action).by_marks);
}

TEST(BrowserFiles, WhereAFolderIsAskedForOnlyFoldersAreListed) {
  const FolderShown f = someFolder();
  for (const Asking asking : {Asking::Follow, Asking::Stills}) {
    EXPECT_TRUE(takesFolder(asking));
    EXPECT_EQ(namesOf(f, browserRows(f, asking, false, false)), (std::vector<std::string>{"..", "older"}));
  }
  EXPECT_FALSE(takesFolder(Asking::Film));
}

TEST(BrowserFiles, UpThenFoldersThenFiles) {
  const FolderShown f = someFolder();
  using Names = std::vector<std::string>;
  EXPECT_EQ(namesOf(f, browserRows(f, Asking::Photo, false, false)), (Names{"..", "older", "Anna.JPG", "bench.heic", "über.png"}));
  EXPECT_EQ(namesOf(f, browserRows(f, Asking::Photo, false, true)), (Names{"..", "older", "bench.heic", "über.png", "Anna.JPG"}));
  const auto all = browserRows(f, Asking::Photo, true, false);
  EXPECT_EQ(namesOf(f, all), (Names{"..", "older", "Anna.JPG", "bench.heic", "notes.txt", "über.png"}));
  EXPECT_FALSE(all[4].fits);
  FolderShown top = f;
  top.folder = "/";
  EXPECT_EQ(namesOf(top, browserRows(top, Asking::Series, false, false)), (Names{"older"}));
}

TEST(BrowserFiles, TypingJumps) {
  const FolderShown f = someFolder();
  const auto rows = browserRows(f, Asking::Photo, false, false);
  EXPECT_EQ(rowOf("an", f, rows), 2);
  EXPECT_EQ(rowOf("BEN", f, rows), 3);
  EXPECT_EQ(rowOf("üb", f, rows), 4);
  EXPECT_EQ(rowOf("zz", f, rows), -1);
  EXPECT_EQ(rowOf("", f, rows), -1);
}

TEST(BrowserFiles, WhatIsChosenIsOfThisFolderAndFits) {
  FolderShown f = someFolder();
  auto rows = browserRows(f, Asking::Photo, true, false);
  BrowserState browser;
  browser.asking = Asking::Photo;
  takeFolder(browser, f, rows);
  EXPECT_EQ(browser.selected, 2);  // the first file that can be taken
  browser.selected = 0;
  using Paths = std::vector<std::filesystem::path>;
  EXPECT_EQ(chosenFiles(browser, f, rows), Paths{});  // "up"
  browser.selected = 4;
  EXPECT_EQ(chosenFiles(browser, f, rows), Paths{});  // notes.txt
  browser.selected = 3;
  EXPECT_EQ(chosenFiles(browser, f, rows), Paths{"/shop/photos/bench.heic"});
  browser.chosen = {"über.png", "Anna.JPG", "notes.txt"};
  EXPECT_EQ(chosenFiles(browser, f, rows), (Paths{"/shop/photos/Anna.JPG", "/shop/photos/über.png"}));
  takeFolder(browser, f, rows);
  EXPECT_EQ(browser.chosen.size(), 3u);  // the same folder: nothing changes
  f.folder = "/shop";
  f.entries = {{"a", true, 0, ""}, {"photos", true, 0, ""}};
  rows = browserRows(f, Asking::Photo, true, false);
  takeFolder(browser, f, rows);
  EXPECT_TRUE(browser.chosen.empty());
  EXPECT_EQ(browser.selected, 2);
}

TEST(BrowserFiles, NamesToWriteGetTheirEnding) {
  EXPECT_EQ(nameToWrite("teal", Asking::SaveSeries), "teal.json");
  EXPECT_EQ(nameToWrite("teal.JSON", Asking::SaveSeries), "teal.JSON");
  EXPECT_EQ(nameToWrite("teal 2.5", Asking::Sheet), "teal 2.5.pdf");
  for (const char* bad : {"", "a/b", ".", "..", ".json"}) EXPECT_FALSE(nameToWrite(bad, Asking::SaveSeries)) << bad;
}

TEST(BrowserFiles, SizesInWords) {
  EXPECT_EQ(sizeWords(0), "0 B");
  EXPECT_EQ(sizeWords(999), "999 B");
  EXPECT_EQ(sizeWords(12'400), "12 kB");
  EXPECT_EQ(sizeWords(999'600), "1.0 MB");
  EXPECT_EQ(sizeWords(3'440'000), "3.4 MB");
  EXPECT_EQ(sizeWords(2'100'000'000), "2.1 GB");
}

TEST(BrowserFiles, EveryQuestionHasWordsAndDoesSomething) {
  for (int i = 1; i <= static_cast<int>(Asking::Stills); ++i) {
    BrowserState browser;
    browser.asking = static_cast<Asking>(i);
    browser.pour.emplace();
    EXPECT_FALSE(wordsOfAsking(browser.asking).empty()) << i;
    EXPECT_TRUE(actionOf(browser, {"/a/b"}).has_value()) << i;
    EXPECT_EQ(isSaving(browser.asking), !suggestedName(browser.asking).empty()) << i;
  }
  EXPECT_FALSE(actionOf({}, {"/a/b"}));
  BrowserState sheet;
  sheet.asking = Asking::Sheet;
  sheet.pour.emplace().title = "door";
  const auto action = actionOf(sheet, {"/a/sheet.pdf"});
  ASSERT_TRUE(action && std::holds_alternative<act::WorkOutPour>(*action));
  const PourRequest& request = std::get<act::WorkOutPour>(*action).request;
  EXPECT_EQ(request.title, "door");
  EXPECT_EQ(request.out, (std::vector<std::filesystem::path>{"/a/sheet.pdf"}));
}

}  // namespace
}  // namespace huewright::desk
