#include "capture/folder_notices.hpp"

#include <fstream>
#include <gtest/gtest.h>
#include <thread>

#include "support/temp_dir.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;
using std::chrono::milliseconds;

constexpr milliseconds kDeadline{10'000};  // a failure, not a wait: what is waited for comes at once

/// The notices that have come, one wait after another, until there are as many names, or the folder is gone.
FolderNews heardUntil(FolderNotices& notices, std::size_t names) {
  FolderNews all;
  const auto end = std::chrono::steady_clock::now() + kDeadline;
  while (all.names.size() < names && !all.gone && std::chrono::steady_clock::now() < end) {
    const FolderNews more = notices.wait(milliseconds(100), {});
    all.names.insert(all.names.end(), more.names.begin(), more.names.end());
    all.gone = more.gone;
  }
  return all;
}

TEST(FolderNotices, AFileIsCompleteWhenItIsClosed) {
  const fixtures::TempDir folder;
  FolderNotices notices;
  ASSERT_TRUE(notices.follow(folder.path()));
  std::ofstream file(folder.path() / "a.jpg");
  file << "half" << std::flush;
  const FolderNews begun = heardUntil(notices, 1);
  ASSERT_EQ(begun.names.size(), 1U);
  EXPECT_EQ(begun.names[0].name, "a.jpg");
  EXPECT_FALSE(begun.names[0].complete);
  file.close();
  const FolderNews closed = heardUntil(notices, 1);
  ASSERT_EQ(closed.names.size(), 1U);
  EXPECT_TRUE(closed.names[0].complete);
}

TEST(FolderNotices, WhatIsMovedInIsComplete) {
  const fixtures::TempDir folder, elsewhere;
  FolderNotices notices;
  ASSERT_TRUE(notices.follow(folder.path()));
  fs::rename(elsewhere.put("a", std::vector<unsigned char>{1}), folder.path() / "b.jpg");
  const FolderNews news = heardUntil(notices, 1);
  ASSERT_EQ(news.names.size(), 1U);
  EXPECT_EQ(news.names[0].name, "b.jpg");
  EXPECT_TRUE(news.names[0].complete);
}

TEST(FolderNotices, FoldersInItAreNotTold) {
  const fixtures::TempDir folder;
  FolderNotices notices;
  ASSERT_TRUE(notices.follow(folder.path()));
  fs::create_directory(folder.path() / "c.jpg");
  folder.put("d.jpg", {});
  const FolderNews news = heardUntil(notices, 2);
  for (const FolderNotice& notice : news.names) EXPECT_EQ(notice.name, "d.jpg");
}

TEST(FolderNotices, AFolderThatIsMovedOrRemovedIsGone) {
  for (const bool moved : {true, false}) {
    const fixtures::TempDir around;
    const fs::path folder = around.path() / "photos";
    fs::create_directory(folder);
    FolderNotices notices;
    ASSERT_TRUE(notices.follow(folder));
    if (moved) fs::rename(folder, around.path() / "other");
    else fs::remove(folder);
    EXPECT_TRUE(heardUntil(notices, 1).gone) << moved;
    EXPECT_FALSE(notices.follow(folder)) << moved;
    fs::create_directory(folder);
    ASSERT_TRUE(notices.follow(folder)) << moved;
    std::ofstream(folder / "a.jpg") << "x";
    const FolderNews news = heardUntil(notices, 2);
    EXPECT_EQ(news.names.size(), 2U) << moved;
    EXPECT_FALSE(news.gone) << moved;
  }
}

TEST(FolderNotices, AStopEndsTheWaiting) {
  const fixtures::TempDir folder;
  FolderNotices notices;
  ASSERT_TRUE(notices.follow(folder.path()));
  std::stop_source source;
  const auto begun = std::chrono::steady_clock::now();
  std::jthread other([&] { source.request_stop(); });
  notices.wait(kDeadline, source.get_token());
  EXPECT_LT(std::chrono::steady_clock::now() - begun, kDeadline / 2);
}

TEST(FolderNotices, WithoutAFolderItOnlyWaits) {
  FolderNotices notices;
  EXPECT_FALSE(notices.follow("/no/such/folder"));
  const FolderNews news = notices.wait(milliseconds(1), {});
  EXPECT_TRUE(news.names.empty());
  EXPECT_FALSE(news.gone);
}

}  // namespace
}  // namespace huewright
