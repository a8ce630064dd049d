// The committed sample pictures' truth must be what the renderer makes today.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <vector>

#include "render/samples.hpp"
#include "temp_dir.hpp"

namespace huewright::render {
namespace {

// A text as its numbers and what stands between them.
struct Parsed {
  std::vector<double> numbers;
  std::string rest;
};

Parsed parse(const std::string& text) {
  Parsed p;
  for (std::size_t i = 0; i < text.size();) {
    if ((text[i] >= '0' && text[i] <= '9') || (text[i] == '-' && i + 1 < text.size() && text[i + 1] >= '0' && text[i + 1] <= '9')) {
      char* end = nullptr;
      p.numbers.push_back(std::strtod(text.c_str() + i, &end));
      p.rest += '#';
      i = static_cast<std::size_t>(end - text.c_str());
    } else {
      p.rest += text[i++];
    }
  }
  return p;
}

TEST(Samples, committedTruthIsTheRenderersTruth) {
  std::ifstream file(calibFolder().parent_path() / "sample-images" / "truth.json", std::ios::binary);
  ASSERT_TRUE(file.good());
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  const auto all = samples();
  std::vector<Rendered> rendered;
  for (const Sample& s : all) {
    rendered.push_back(render(s.scene, s.seed));
    EXPECT_TRUE(std::filesystem::exists(calibFolder().parent_path() / "sample-images" / s.file)) << s.file;
  }
  const Parsed committed = parse(text), now = parse(truthJson(all, rendered));
  EXPECT_EQ(committed.rest, now.rest);
  ASSERT_EQ(committed.numbers.size(), now.numbers.size());
  // The last printed decimal may differ between compilers.
  for (std::size_t i = 0; i < now.numbers.size(); ++i) EXPECT_NEAR(committed.numbers[i], now.numbers[i], 0.011) << "number " << i;
}

std::string bytesOf(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

TEST(PictureFile, nothingInItDependsOnTheDay) {
  const fixtures::TempDir temporary;
  const auto& folder = temporary.path();
  SceneSpec s;
  s.size = {240, 160};
  for (const bool linear : {false, true}) {
    s.shop.style = linear ? linearStyle(Space::P3) : plainJpeg();
    const Rendered r = render(s, 1);
    const auto a = folder / "a", b = folder / "b";
    writePicture(a, r);
    writePicture(b, r);
    EXPECT_EQ(bytesOf(a), bytesOf(b));
    EXPECT_EQ(bytesOf(a).substr(0, 2), linear ? "II" : "\xff\xd8");
    EXPECT_NE(bytesOf(a).find("Simulated"), std::string::npos);
    EXPECT_NE(bytesOf(a).find("acsp"), std::string::npos);   // the signature in a colour profile
  }
  s.shop.style = plainJpeg();
  EXPECT_THROW(writePicture(folder / "missing" / "a", render(s, 1)), std::runtime_error);
}

TEST(PictureFile, whatAReaderMakesOfPlainCodesIsWhatWasRendered) {
  SceneSpec s;
  s.size = {240, 160};
  s.shop.camera.full_well = 0;
  for (const bool linear : {false, true}) {
    s.shop.style = linear ? linearStyle(Space::P3) : plainJpeg();
    const Rendered r = render(s, 1);
    const auto xyz = readBack(r.style, r.size, r.linear);
    const Mat3 m = rgbToXyzD50(primaries(r.style.space));
    double worst = 0;
    for (std::size_t i = 0; i < r.linear.size(); i += 3) {
      const float* px = r.linear.data() + i;
      const Vec3 want = m * Vec3{static_cast<double>(px[0]), static_cast<double>(px[1]), static_cast<double>(px[2])};
      for (std::size_t c = 0; c < 3; ++c) worst = std::max(worst, std::abs(want[c] - static_cast<double>(xyz[i + c])));
    }
    EXPECT_LT(worst, linear ? 2e-5 : 6e-3);   // half a code of 16 bits; of 8 bits at the curve's steep end
  }
}

}  // namespace
}  // namespace huewright::render
