#include "colour/spectrum.hpp"

#include <cmath>
#include <fstream>
#include <gtest/gtest.h>

#include "support/calib.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

using fixtures::kCalib;

// CIE 018:2019, table 6 (ISO/CIE 11664-1:2019): ends, peaks, and 547 nm, where a copy is known to have had two digits swapped.
TEST(Observer, PublishedEntries) {
  const auto o = readObserver(kCalib);
  ASSERT_TRUE(o);
  ASSERT_EQ(o->nm.size(), 471u);  // 360 nm to 830 nm
  struct Row {
    double nm, x, y, z;
  };
  for (const Row& r : {Row{360, 0.0001299, 3.917e-06, 0.0006061}, Row{445, 0.34806, 0.0298, 1.7826}, Row{547, 0.3886396, 0.9874182, 0.01130188}, Row{555, 0.5120501, 1.0, 0.005749999}, Row{600, 1.0622, 0.631, 0.0008}, Row{830, 1.251141e-06, 4.5181e-07, 0.0}}) {
    const auto i = static_cast<std::size_t>(r.nm - 360);
    EXPECT_EQ(o->nm[i], r.nm);
    EXPECT_EQ(o->x[i], r.x) << r.nm;
    EXPECT_EQ(o->y[i], r.y) << r.nm;
    EXPECT_EQ(o->z[i], r.z) << r.nm;
  }
}

// White points from the spectra by 5 nm summation against CIE 15:2018, tables T.3 and T.8.1 (4 decimals; D50 and FL11 as printed there).
TEST(WhitePoints, FromSpectra) {
  const auto observer = readObserver(kCalib);
  ASSERT_TRUE(observer);
  struct Row {
    const char *file, *name;
    Chromaticity xy;
  };
  for (const Row& r : {Row{"illuminants-a-c-d-e.csv", "A", {0.4476, 0.4074}}, Row{"illuminants-a-c-d-e.csv", "D50", {0.3457, 0.3585}},
                       Row{"illuminants-a-c-d-e.csv", "D65", {0.3127, 0.3290}}, Row{"illuminants-fluorescent.csv", "FL11", {0.3805, 0.3769}}}) {
    const auto table = readSpectralTable(kCalib / r.file);
    ASSERT_TRUE(table) << r.file;
    std::vector<double> grid;
    for (double w = 380; w <= 780; w += 5) grid.push_back(w);
    const auto o = resample(*observer, grid);
    const auto light = resample(table->nm, *table->find(r.name), grid);
    const Chromaticity got = toChromaticity(integrate(o, light));
    EXPECT_NEAR(got.x, r.xy.x, 5.5e-5) << r.name;
    EXPECT_NEAR(got.y, r.xy.y, 5.5e-5) << r.name;
  }
}

TEST(Integrate, ThePerfectDiffuserHasUnitLuminance) {
  const auto o = readObserver(kCalib);
  ASSERT_TRUE(o);
  const std::vector<double> even(o->nm.size(), 3.0), half(o->nm.size(), 0.5);
  EXPECT_NEAR(integrate(*o, even)[1], 1.0, 1e-14);
  EXPECT_NEAR(integrate(*o, even, half)[1], 0.5, 1e-14);
  const Chromaticity e = toChromaticity(integrate(*o, even));
  EXPECT_NEAR(e.x, 1.0 / 3, 5e-5);  // illuminant E, CIE 15:2018
  EXPECT_NEAR(e.y, 1.0 / 3, 5e-5);
}

TEST(Resample, LinearInsideHeldOutside) {
  const std::vector<double> nm{400, 410, 420}, v{1, 3, 2};
  const auto got = resample(nm, v, std::vector<double>{390, 400, 405, 415, 420, 500});
  EXPECT_EQ(got, (std::vector<double>{1, 1, 2, 2.5, 2, 2}));
}

TEST(SpectralTable, BadFilesAreRefusedWithTheLine) {
  const fixtures::TempDir folder;
  const auto with = [&](const char* text) {
    const auto path = folder.path() / "t.csv";
    std::ofstream(path) << text;
    return readSpectralTable(path);
  };
  ASSERT_TRUE(with("# source\nnm,a\n400,1\n405,\n"));
  EXPECT_EQ(with("nm,a\n400,1\n405,\n")->columns[0][1], 0.0);
  for (const char* bad : {"nm,a\n400,1\n400,2\n", "nm,a\n400,1\n405\n", "nm,a\n400,x\n", "nm,a\n400,nan\n", "nm\n400\n", ""}) {
    const auto got = with(bad);
    ASSERT_FALSE(got) << bad;
    EXPECT_EQ(got.error().code, Code::DataMissing);
  }
  EXPECT_NE(with("nm,a\n400,1\n405\n").error().detail.find("line 3"), std::string::npos);
  EXPECT_FALSE(readSpectralTable(folder.path() / "none.csv"));
}

}  // namespace
}  // namespace huewright
