#include "capture/camera.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <gtest/gtest.h>
#include <iterator>

#include "photo/write.hpp"
#include "support/films.hpp"
#include "support/moving_picture.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;

constexpr int kPictures = 12;

/// Whether cameras can be opened at all where OpenCV's videoio is not installed: then there is no module.
#ifdef HUEWRIGHT_MAKE_FILMS
constexpr bool kHasModule = true;
#else
constexpr bool kHasModule = false;
#endif
constexpr const char* kWhyNot = "OpenCV's videoio is not installed";

/// The first entries of the first picture's quantisation tables, by the file's own bytes: marker FFDB, two bytes of length, then each table's number and its 64 entries. Source: ITU-T T.81, B.2.4.1.
std::vector<double> firstOfTables(const fs::path& film) {
  std::ifstream file(film, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(file), {}};
  const auto at = [&](std::size_t i) { return static_cast<unsigned char>(bytes.at(i)); };
  std::vector<double> first;
  for (std::size_t marker = bytes.find("\xFF\xDB"); marker != std::string::npos && first.size() < 2; marker = bytes.find("\xFF\xDB", marker + 2)) {
    const std::size_t length = 256U * at(marker + 2) + at(marker + 3);
    for (std::size_t table = 4; table < 2 + length; table += 65) first.push_back(at(marker + table + 1));
  }
  return first;
}

std::vector<Frame> framesUntilEnd(Camera& camera) {
  std::vector<Frame> frames;
  while (frames.size() < 1000) {
    auto frame = camera.next({});
    if (!frame) {
      ADD_FAILURE() << sentence(frame.error());
      break;
    }
    if (!*frame) break;
    frames.push_back(std::move(**frame));
  }
  return frames;
}

/// The largest distance of any value, and the mean of them all.
std::pair<int, double> distanceOf(const std::vector<std::uint8_t>& a, const std::vector<std::uint8_t>& b) {
  if (a.size() != b.size()) return {255, 255};
  int worst = 0;
  double sum = 0;
  for (std::size_t i = 0; i < a.size(); ++i) {
    const int apart = std::abs(int{a[i]} - int{b[i]});
    worst = std::max(worst, apart);
    sum += apart;
  }
  return {worst, sum / static_cast<double>(a.size())};
}

void expectNumbersAndTimes(const std::vector<Frame>& frames, double rate) {
  for (std::size_t i = 0; i < frames.size(); ++i) {
    EXPECT_EQ(frames[i].number, i);
    EXPECT_NEAR(frames[i].seconds, static_cast<double>(i) / rate, 1e-9);
  }
}

TEST(OpenCamera, APictureSequenceComesBackToTheLastBit) {
  if (!kHasModule) GTEST_SKIP() << kWhyNot;
  const fixtures::TempDir folder;
  for (int i = 0; i < kPictures; ++i)
    ASSERT_TRUE(writePng(folder.path() / ("img_00" + std::string(i < 10 ? "0" : "") + std::to_string(i) + ".png"), fixtures::kMovingSize, fixtures::movingPicture(i)));
  const std::string name = (folder.path() / "img_%04d.png").string();
  auto camera = openCamera(name);
  ASSERT_TRUE(camera) << sentence(camera.error());
  EXPECT_EQ((*camera)->facts().name, name);
  EXPECT_EQ((*camera)->facts().size, fixtures::kMovingSize);
  EXPECT_FALSE((*camera)->facts().live);
  EXPECT_EQ((*camera)->facts().rate, 0);
  const auto frames = framesUntilEnd(**camera);
  ASSERT_EQ(frames.size(), std::size_t{kPictures});
  for (int i = 0; i < kPictures; ++i) EXPECT_TRUE(frames[static_cast<std::size_t>(i)].rgb == fixtures::movingPicture(i)) << i;
  expectNumbersAndTimes(frames, 30);
  EXPECT_EQ((*camera)->hold(), (CameraHolds{Hold::NoSuch, Hold::NoSuch, Hold::NoSuch}));
}

TEST(OpenCamera, AFilmOfFfv1ComesBackToTheLastBit) {
  const fixtures::TempDir folder;
  if (!fixtures::makeFilms(folder, kPictures)) GTEST_SKIP() << kWhyNot;
  auto camera = openCamera((folder.path() / "film.mkv").string());
  ASSERT_TRUE(camera) << sentence(camera.error());
  EXPECT_EQ((*camera)->facts().size, fixtures::kMovingSize);
  EXPECT_NEAR((*camera)->facts().rate, 25, 1e-6);
  EXPECT_FALSE((*camera)->facts().compressed);
  const auto frames = framesUntilEnd(**camera);
  ASSERT_EQ(frames.size(), std::size_t{kPictures});
  for (int i = 0; i < kPictures; ++i) {
    const auto [worst, mean] = distanceOf(frames[static_cast<std::size_t>(i)].rgb, fixtures::movingPicture(i));
    EXPECT_EQ(worst, 0) << i << ", in the mean " << mean;
  }
  EXPECT_FALSE(frames.front().rounding.steps);
  expectNumbersAndTimes(frames, 25);
}

TEST(OpenCamera, AFilmOfMotionJpegComesBackAsJpegKeepsIt) {
  const fixtures::TempDir folder;
  if (!fixtures::makeFilms(folder, kPictures)) GTEST_SKIP() << kWhyNot;
  auto camera = openCamera((folder.path() / "film.avi").string());
  ASSERT_TRUE(camera) << sentence(camera.error());
  EXPECT_EQ((*camera)->facts().size, fixtures::kMovingSize);
  EXPECT_TRUE((*camera)->facts().compressed);
  EXPECT_NEAR((*camera)->facts().rate, 25, 1e-6);
  const auto frames = framesUntilEnd(**camera);
  ASSERT_EQ(frames.size(), std::size_t{kPictures});
  for (int i = 0; i < kPictures; ++i) {
    const auto [worst, mean] = distanceOf(frames[static_cast<std::size_t>(i)].rgb, fixtures::movingPicture(i));
    EXPECT_LE(worst, 12) << i;  // seen: see the mean; a film of quality 95 with halved colour; a picture taken for its neighbour is off by over 20 somewhere
    EXPECT_LT(mean, 2.0) << i;
  }
  const auto first = firstOfTables(folder.path() / "film.avi");
  ASSERT_EQ(first.size(), 2U);
  EXPECT_EQ(frames.front().rounding, (FrameRounding{Vec3{first[0] / 8.0, first[1] / 8.0, first[1] / 8.0}, true}));
  EXPECT_GT(distanceOf(fixtures::movingPicture(0), fixtures::movingPicture(1)).first, 20);
  expectNumbersAndTimes(frames, 25);
}

TEST(OpenCamera, FilmsThatEndTooEarlyGiveWhatTheyHold) {
  const fixtures::TempDir folder;
  if (!fixtures::makeFilms(folder, kPictures)) GTEST_SKIP() << kWhyNot;
  for (const char* name : {"film.avi", "film.mkv"}) {
    const fs::path whole = folder.path() / name, cut = folder.path() / (std::string("cut-") + name);
    fs::copy_file(whole, cut);
    fs::resize_file(cut, fs::file_size(cut) / 2);
    testing::internal::CaptureStderr();
    auto camera = openCamera(cut.string());
    ASSERT_TRUE(camera) << name << ": " << sentence(camera.error());
    std::size_t frames = 0;
    while (frames < 100) {
      auto frame = (*camera)->next({});
      if (!frame) {
        EXPECT_EQ(frame.error().code, Code::CameraUnusable);
        break;
      }
      if (!*frame) break;
      ++frames;
    }
    EXPECT_EQ(testing::internal::GetCapturedStderr(), "") << name;
    EXPECT_GE(frames, std::size_t{kPictures / 2 - 3}) << name;
    EXPECT_LT(frames, std::size_t{kPictures}) << name;
  }
}

TEST(OpenCamera, AStopThatWasAskedForEndsIt) {
  if (!kHasModule) GTEST_SKIP() << kWhyNot;
  const fixtures::TempDir folder;
  ASSERT_TRUE(writePng(folder.path() / "p_0.png", fixtures::kMovingSize, fixtures::movingPicture(0)));
  auto camera = openCamera((folder.path() / "p_%d.png").string());
  ASSERT_TRUE(camera) << sentence(camera.error());
  std::stop_source stop;
  stop.request_stop();
  const auto frame = (*camera)->next(stop.get_token());
  ASSERT_TRUE(frame);
  EXPECT_FALSE(*frame);
}

TEST(OpenCamera, WhatCannotBeOpenedIsSaidInOneSentence) {
  if (!kHasModule) GTEST_SKIP() << kWhyNot;
  const fixtures::TempDir folder;
  folder.put("empty.mkv", {});
  for (const std::string& name : {std::string("983"), std::string("/dev/null"), (folder.path() / "empty.mkv").string(), (folder.path() / "none.avi").string()}) {
    const auto camera = openCamera(name);
    ASSERT_FALSE(camera) << name;
    EXPECT_EQ(camera.error().code, Code::CameraUnusable) << name;
    const std::string said = sentence(camera.error());
    EXPECT_TRUE(said.ends_with('.') && !said.ends_with("..")) << said;
    EXPECT_EQ(said.find('\n'), std::string::npos) << said;
  }
}

}  // namespace
}  // namespace huewright
