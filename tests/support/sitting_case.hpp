// A sitting on the sample photos, for tests that do in it what a person would.
#pragma once

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <stdexcept>

#include "sitting/sitting.hpp"

namespace huewright::fixtures {

class SittingCase : public testing::Test {
 protected:
  void SetUp() override {
    ::setenv("HUEWRIGHT_DATA", HUEWRIGHT_SOURCE_DIR "/calib", 1);
    ::setenv("XDG_DATA_HOME", HUEWRIGHT_BINARY_DIR "/nobody", 1);  // whoever runs this may keep a grey
  }
  void TearDown() override { ::unsetenv("HUEWRIGHT_DATA"); }

  /// memory: where it is kept; empty: nowhere.
  static Sitting open(const std::filesystem::path& memory = {}) {
    auto sitting = Sitting::open({HUEWRIGHT_SOURCE_DIR "/calib", HUEWRIGHT_SOURCE_DIR "/sample-images", memory});
    if (!sitting) throw std::runtime_error(sentence(sitting.error()));
    sitting->settle();
    return std::move(*sitting);
  }
  /// Does it and waits for what follows.
  static void apply(Sitting& sitting, const Action& action) {
    sitting.apply(action);
    sitting.settle();
  }
  /// The choices with how the three panels of sample photo on-the-mat.jpg were sprayed.
  static Choices sprayed(const Sitting& sitting) {
    Choices c = sitting.state().plan.choices;
    c.mixes = {{1, 5}, {1, 4}, {1, 2}};
    c.coats = 4;
    c.carrier = 5;
    c.card_kind = CardKind::Same;
    return c;
  }

  const std::filesystem::path samples = HUEWRIGHT_SOURCE_DIR "/sample-images";
  const std::filesystem::path mat_photo = samples / "on-the-mat.jpg";
};

}  // namespace huewright::fixtures
