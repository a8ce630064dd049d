#include "session/watch_folder.hpp"

#include <set>

#include "capture/sha256.hpp"
#include "session/watched.hpp"

namespace huewright {
namespace {

using namespace watched;

WatchFolder watching(const Folder& folder, CountingJudge& judge, const WatchTimes& times = quick()) {
  auto watch = WatchFolder::open(folder.path(), judge.judge(), times);
  if (!watch) throw std::runtime_error(sentence(watch.error()));
  return std::move(*watch);
}

TEST(WatchFolder, AThousandPhotosDroppedAtOnceAreAllJudgedOnce) {
  constexpr int kDropped = 1000, kWhileItRuns = 600;
  const Folder folder;
  CountingJudge judge;
  // Dropped in three ways: moved in whole; copied in two pieces; written under a name that is no photo's, then renamed. Each tenth comes twice, and each
  // seventh gets another name meanwhile.
  const auto drop = [&](int i) {
    const std::string name = std::to_string(i) + ".png", bytes = smallPhoto(i);
    const fs::path there = folder / name;
    if (i % 3 == 0) {
      put(folder.outside() / name, bytes);
      fs::rename(folder.outside() / name, there);
    } else if (i % 3 == 1) {
      std::ofstream file(there, std::ios::binary);
      file << bytes.substr(0, bytes.size() / 2) << std::flush;
      std::this_thread::yield();
      file << bytes.substr(bytes.size() / 2);
    } else {
      put(folder / (name + ".part"), bytes);
      fs::rename(folder / (name + ".part"), there);
    }
    if (i % 10 == 0) put(folder / ("copy of " + name), bytes);
    if (i % 7 == 0) fs::rename(there, folder / ("renamed " + name));
  };
  for (int i = kWhileItRuns; i < kDropped; ++i) drop(i);  // while it was off
  auto watch = watching(folder, judge);
  std::map<std::string, int> verdicts;
  {
    const std::jthread dropping([&] {
      for (int i = 0; i < kWhileItRuns; ++i) drop(i);
    });
    while (verdicts.size() < kDropped) {
      const auto event = nextOf(watch);
      ASSERT_TRUE(event) << verdicts.size() << " were judged";
      ASSERT_NE(event->kind, Kind::Unusable) << sentence(*event->problem);
      if (event->kind == Kind::Judged) ++verdicts[event->verdict->line];
    }
  }
  EXPECT_EQ(namesOf(allOf(watch, folder), Kind::Judged), "");
  for (int i = 0; i < kDropped; ++i) EXPECT_EQ(verdicts[std::to_string(i)], 1) << i;
  ASSERT_TRUE(watch.keepList());
  EXPECT_EQ(JudgedList::parse(contentOf(folder / ".huewright-judged.json"))->size(), kDropped + 1U);
  std::size_t beside = 0;
  for (const auto& entry : fs::directory_iterator(folder.path())) beside += entry.path().string().ends_with(".huewright.txt") ? 1U : 0U;
  EXPECT_EQ(beside, kDropped + 1U);
}

TEST(WatchFolder, WhatCameWhileItWasOffIsFoundAndNothingTwice) {
  const Folder folder;
  CountingJudge judge;
  put(folder / "a.png", smallPhoto(1));
  put(folder / "b.png", smallPhoto(2));
  {
    auto watch = watching(folder, judge);
    EXPECT_EQ(nextOf(watch)->name, "a.png");
    EXPECT_EQ(nextOf(watch)->name, "b.png");
    ASSERT_TRUE(watch.keepList());
  }
  fs::rename(folder / "b.png", folder / "renamed.png");
  put(folder / "copy.png", smallPhoto(1));
  put(folder / "c.png", smallPhoto(3));
  auto watch = watching(folder, judge);
  const auto events = allOf(watch, folder);
  EXPECT_EQ(namesOf(events, Kind::Judged), "c.png");
  EXPECT_EQ(namesOf(events, Kind::SamePhoto), "copy.png renamed.png");
  EXPECT_EQ(events[1].same_as, "a.png");
  EXPECT_EQ(judge.calls, 4);
  ASSERT_TRUE(watch.keepList());
  auto again = watching(folder, judge);  // what was said once is not said at every start
  EXPECT_TRUE(allOf(again, folder).empty());
}

TEST(WatchFolder, TheVerdictLiesBesideThePhotoAndTellsItsContent) {
  const Folder folder;
  CountingJudge judge;
  put(folder / "a.png", smallPhoto(5));
  auto watch = watching(folder, judge);
  ASSERT_EQ(nextOf(watch)->kind, Kind::Judged);
  const std::string text = contentOf(folder / "a.png.huewright.txt");
  EXPECT_TRUE(text.starts_with("colour 5\n\nSHA-256 of the photo: ")) << text;
  EXPECT_EQ(contentOf(folder / "a.png"), smallPhoto(5));
}

TEST(WatchFolder, NewContentUnderAnOldNameIsJudgedAnew) {
  const Folder folder;
  CountingJudge judge;
  put(folder / "a.png", smallPhoto(5));
  auto watch = watching(folder, judge);
  EXPECT_EQ(nextOf(watch)->verdict->line, "5");
  put(folder / "a.png", smallPhoto(6));
  EXPECT_EQ(nextOf(watch)->verdict->line, "6");
  EXPECT_TRUE(contentOf(folder / "a.png.huewright.txt").starts_with("colour 6\n"));
}

TEST(WatchFolder, APhotoInPiecesWaitsUntilItIsWhole) {
  const Folder folder;
  CountingJudge judge;
  auto watch = watching(folder, judge);
  const std::string bytes = smallPhoto(7);
  judge.meanwhile = [&](const fs::path& path) {
    if (judge.calls == 1) put(path, bytes.substr(0, bytes.size() / 2));        // as a copy that is slower than the watch
    if (judge.calls == 2) std::ofstream(path, std::ios::app | std::ios::binary) << bytes.substr(bytes.size() / 2);
  };
  put(folder / "a.png", "");
  put(folder / "a.png", bytes.substr(0, 20));
  const auto event = nextOf(watch);
  ASSERT_TRUE(event);
  EXPECT_EQ(event->kind, Kind::Judged);
  EXPECT_EQ(event->verdict->line, "7");
  EXPECT_GE(judge.calls, 2);
}

TEST(WatchFolder, APhotoThatStaysCutShortIsToldAndJudgedWhenTheRestComes) {
  const Folder folder;
  CountingJudge judge;
  const std::string bytes = smallPhoto(8);
  constexpr milliseconds kPatience(60), kTick(10);  // the disk's clock is that coarse
  auto watch = watching(folder, judge, quick(kPatience));
  const auto dropped = std::chrono::steady_clock::now();
  put(folder / "a.png", bytes.substr(0, bytes.size() - 15));
  const auto cut = nextOf(watch);
  EXPECT_GE(std::chrono::steady_clock::now() - dropped, kPatience - kTick);  // the rest might have come
  ASSERT_EQ(cut->kind, Kind::Unusable);
  EXPECT_EQ(cut->problem->code, Code::PhotoTruncated);
  EXPECT_EQ(contentOf(folder / "a.png.huewright.txt"), sentence(*cut->problem) + "\n");
  put(folder / "a.png", bytes);
  const auto whole = nextOf(watch);
  ASSERT_EQ(whole->kind, Kind::Judged);
  EXPECT_EQ(whole->verdict->line, "8");
}

TEST(WatchFolder, WhatChangesWhileItIsJudgedIsJudgedAsItIsThen) {
  const Folder folder;
  CountingJudge judge;
  const auto rewrite = [&](const fs::path& path) {
    if (judge.calls == 1) {
      put(folder.outside() / "new", smallPhoto(11));
      fs::rename(folder.outside() / "new", path);
    }
  };
  put(folder / "a.png", smallPhoto(10));
  judge.meanwhile = rewrite;
  auto watch = watching(folder, judge);
  EXPECT_EQ(nextOf(watch)->verdict->line, "11");
  EXPECT_EQ(judge.calls, 2);
  EXPECT_TRUE(allOf(watch, folder).empty());
}

TEST(WatchFolder, WhatCannotBeUsedIsToldAndTheWatchGoesOn) {
  const Folder folder;
  CountingJudge judge;
  put(folder / "a.png", smallPhoto(1));
  judge.problem = Problem{Code::MatNotFound, {}};
  {
    auto watch = watching(folder, judge);
    const auto event = nextOf(watch);
    ASSERT_EQ(event->kind, Kind::Unusable);
    EXPECT_EQ(contentOf(folder / "a.png.huewright.txt"), sentence(Problem{Code::MatNotFound, {}}) + "\n");
    put(folder / "copy.png", smallPhoto(1));  // said once
    judge.problem.reset();
    EXPECT_TRUE(allOf(watch, folder).empty());
  }
  auto watch = watching(folder, judge);  // other options may help: at the next start it is tried again
  const auto events = allOf(watch, folder);
  EXPECT_EQ(namesOf(events, Kind::Judged), "a.png");
  EXPECT_EQ(namesOf(events, Kind::SamePhoto), "copy.png");
}

TEST(WatchFolder, WhatLiesInNoPhotoEndsTheWatch) {
  for (const Code code : {Code::ProfileFileUnusable, Code::SeriesUnusable, Code::KeptGreyUnusable, Code::NoCard, Code::DataMissing, Code::WriteFailed, Code::Internal}) {
    EXPECT_FALSE(ofThePhoto(code)) << codeName(code);
    const Folder folder;
    CountingJudge judge;
    judge.problem = Problem{code, "x"};
    put(folder / "a.png", smallPhoto(1));
    auto watch = watching(folder, judge);
    const auto event = watch.next({});
    ASSERT_FALSE(event) << codeName(code);
    EXPECT_EQ(event.error().code, code);
    EXPECT_FALSE(fs::exists(folder / "a.png.huewright.txt")) << codeName(code);
  }
  for (const Code code : {Code::PhotoTruncated, Code::MatNotFound, Code::GreyUnusable, Code::RegionOutside, Code::OutOfMemory, Code::FileUnreadable}) EXPECT_TRUE(ofThePhoto(code)) << codeName(code);
}

TEST(WatchFolder, OnlyPhotosAreTaken) {
  const Folder folder;
  CountingJudge judge;
  for (const char* name : {"a.png.part", "b.png.tmp", ".c.png", ".sync.d.png.tmp", "e.txt", "f", "g.png~", "~h.png.crdownload"}) put(folder / name, smallPhoto(1));
  fs::create_directory(folder / "album.png");
  put(folder / "album.png" / "i.png", smallPhoto(2));
  put(folder / "J.PNG", smallPhoto(3));
  auto watch = watching(folder, judge);
  const auto events = allOf(watch, folder);
  EXPECT_EQ(events.size(), 1U);
  EXPECT_EQ(namesOf(events, Kind::Judged), "J.PNG");
}

TEST(WatchFolder, NothingOutsideAndNoPhotoInItIsTouched) {
  const Folder folder;
  CountingJudge judge;
  put(folder.outside() / "near.png", smallPhoto(1));
  put(folder / "a.png", smallPhoto(2));
  const auto written = fs::last_write_time(folder / "a.png");
  auto watch = watching(folder, judge);
  ASSERT_EQ(nextOf(watch)->kind, Kind::Judged);
  ASSERT_TRUE(watch.keepList());
  std::set<std::string> names;
  for (const auto& entry : fs::recursive_directory_iterator(folder.path().parent_path())) names.insert(entry.path().filename());
  EXPECT_EQ(names, (std::set<std::string>{"photos", "outside", "near.png", "a.png", "a.png.huewright.txt", ".huewright-judged.json"}));
  EXPECT_EQ(fs::last_write_time(folder / "a.png"), written);
}

TEST(WatchFolder, AFolderThatGoesAwayAndComesBackIsTakenUpAgain) {
  const Folder folder;
  CountingJudge judge;
  put(folder / "a.png", smallPhoto(1));
  auto watch = watching(folder, judge);
  EXPECT_EQ(nextOf(watch)->name, "a.png");
  fs::rename(folder.path(), folder.outside() / "kept");
  EXPECT_EQ(nextOf(watch)->kind, Kind::FolderAway);
  put(folder.outside() / "kept" / "b.png", smallPhoto(2));
  fs::rename(folder.outside() / "kept", folder.path());
  EXPECT_EQ(nextOf(watch)->kind, Kind::FolderBack);
  EXPECT_EQ(nextOf(watch)->name, "b.png");
  fs::remove_all(folder.path());
  EXPECT_EQ(nextOf(watch)->kind, Kind::FolderAway);
  fs::create_directory(folder.path());
  put(folder / "a.png", smallPhoto(1));  // the same photo, in a folder that knows nothing of it
  put(folder / "d.png", smallPhoto(2));
  put(folder / "e.png", smallPhoto(3));
  EXPECT_EQ(nextOf(watch)->kind, Kind::FolderBack);
  const auto events = allOf(watch, folder);
  EXPECT_EQ(namesOf(events, Kind::Judged), "e.png");
  EXPECT_EQ(namesOf(events, Kind::SamePhoto), "d.png");
  EXPECT_EQ(judge.calls, 4);
}

TEST(WatchFolder, AFolderChangedOverForAnotherIsTakenUpToo) {
  const Folder folder;
  CountingJudge judge;
  auto watch = watching(folder, judge);
  fs::create_directory(folder.outside() / "card");
  put(folder.outside() / "card" / "a.png", smallPhoto(1));
  fs::rename(folder.path(), folder.outside() / "old");
  fs::rename(folder.outside() / "card", folder.path());
  auto event = nextOf(watch);
  while (event && event->kind != Kind::Judged) event = nextOf(watch);  // it may have been seen away for a moment
  ASSERT_TRUE(event);
  EXPECT_EQ(event->name, "a.png");
}

TEST(WatchFolder, SoIsOneOfWhichTheSystemTellsNothing) {  // as a card that is mounted over the folder; here a link that leads elsewhere
  const Folder folder;
  CountingJudge judge;
  for (const char* card : {"one", "two"}) fs::create_directory(folder.outside() / card);
  put(folder.outside() / "two" / "b.png", smallPhoto(2));
  JudgedList list;  // what the second card knows
  list.add(sha256OfFile(folder.outside() / "two" / "b.png").value(), "b.png");
  put(folder.outside() / "two" / ".huewright-judged.json", list.text());
  const fs::path link = folder / "link";
  fs::create_directory_symlink(folder.outside() / "one", link);
  auto watch = WatchFolder::open(link, judge.judge(), quick()).value();
  put(link / "a.png", smallPhoto(1));
  EXPECT_EQ(nextOf(watch)->name, "a.png");
  fs::create_directory_symlink(folder.outside() / "two", folder / "new link");
  fs::rename(folder / "new link", link);
  put(link / "c.png", smallPhoto(3));
  EXPECT_EQ(nextOf(watch)->name, "c.png");
}

TEST(WatchFolder, AVerdictFoundWhileTheFolderWentAwayIsKeptForItsReturn) {
  const Folder folder;
  CountingJudge judge;
  put(folder / "a.png", smallPhoto(1));
  int kept = 0;
  auto watch = WatchFolder::open(
                   folder.path(),
                   [&](const fs::path& path, const std::stop_token& stop) {
                     auto verdict = judge.judge()(path, stop);
                     fs::rename(folder.path(), folder.outside() / "away");
                     if (verdict)
                       verdict->keep = [&]() -> Result<std::optional<Caution>> {
                         ++kept;
                         return Caution{CautionCode::OtherCard, "3.0"};
                       };
                     return verdict;
                   },
                   quick())
                   .value();
  EXPECT_EQ(nextOf(watch)->kind, Kind::FolderAway);
  fs::rename(folder.outside() / "away", folder.path());
  EXPECT_EQ(nextOf(watch)->kind, Kind::FolderBack);
  const auto event = nextOf(watch);
  ASSERT_EQ(event->kind, Kind::Judged);
  EXPECT_EQ(event->caution->code, CautionCode::OtherCard);
  EXPECT_TRUE(fs::exists(folder / "a.png.huewright.txt"));
  EXPECT_EQ(judge.calls, 1);
  EXPECT_EQ(kept, 1);
}

TEST(WatchFolder, ADamagedListIsSaidAndBegunAnewWithTheVerdictsBesideThePhotos) {
  const Folder folder;
  CountingJudge judge;
  for (int i = 0; i < 5; ++i) put(folder / (std::to_string(i) + ".png"), smallPhoto(i));
  {
    auto watch = watching(folder, judge);
    for (int i = 0; i < 5; ++i) ASSERT_EQ(nextOf(watch)->kind, Kind::Judged);
    ASSERT_TRUE(watch.keepList());
  }
  for (const char* damaged : {"", "{\"format\": 1", "gone"}) {
    if (damaged == std::string("gone")) fs::remove(folder / ".huewright-judged.json");
    else put(folder / ".huewright-judged.json", damaged);
    auto watch = watching(folder, judge);
    const auto events = allOf(watch, folder);
    EXPECT_EQ(namesOf(events, Kind::ListDamaged), damaged == std::string("gone") ? "" : "-") << damaged;
    EXPECT_EQ(namesOf(events, Kind::Judged), "") << damaged;
    ASSERT_TRUE(watch.keepList());
    EXPECT_GE(JudgedList::parse(contentOf(folder / ".huewright-judged.json"))->size(), 6U) << damaged;
  }
  EXPECT_EQ(judge.calls, 5 + 3);  // and the last photo of each start
}

TEST(WatchFolder, ADamagedListIsSaidOnce) {
  const Folder folder;
  CountingJudge judge;
  put(folder / ".huewright-judged.json", "{");
  auto watch = watching(folder, judge);
  EXPECT_EQ(nextOf(watch)->kind, Kind::ListDamaged);
  ASSERT_TRUE(watch.keepList());
  EXPECT_TRUE(JudgedList::parse(contentOf(folder / ".huewright-judged.json")));
}

TEST(WatchFolder, AVerdictOnOtherContentDoesNotCount) {
  const Folder folder;
  CountingJudge judge;
  put(folder / "a.png", smallPhoto(1));
  put(folder / "a.png.huewright.txt", "colour 2\n\nSHA-256 of the photo: " + std::string(64, 'a') + "\n");
  auto watch = watching(folder, judge);
  EXPECT_EQ(nextOf(watch)->verdict->line, "1");
}

TEST(WatchFolder, NoFolderToBeginWithIsAMistake) {
  const Folder folder;
  CountingJudge judge;
  put(folder / "a.png", "");
  for (const fs::path& path : {folder / "none", folder / "a.png"}) {
    const auto watch = WatchFolder::open(path, judge.judge());
    ASSERT_FALSE(watch);
    EXPECT_EQ(watch.error().code, Code::FolderUnusable);
  }
}

TEST(WatchFolder, AStopEndsTheWaitingAtOnce) {
  const Folder folder;
  CountingJudge judge;
  auto watch = watching(folder, judge, {});
  std::stop_source source;
  std::jthread other([&] { source.request_stop(); });
  const auto event = watch.next(source.get_token());
  ASSERT_TRUE(event);
  EXPECT_FALSE(*event);
}

}  // namespace
}  // namespace huewright
