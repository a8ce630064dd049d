#include "session/pour_json.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "session/pour_support.hpp"

namespace huewright {
namespace {

using namespace pour_test;

nlohmann::json pourJsonOf(const PourRequest& request) { return nlohmann::json::parse(toJson(request, pour(request).value())); }

TEST(PourJson, HoldsTheNumbers) {
  const auto json = pourJsonOf(bicyclePour());
  EXPECT_EQ(json["format"], 1);
  EXPECT_EQ(json["total_ml"], 105);
  EXPECT_EQ(json["total_g"], 94.85);
  EXPECT_EQ(json["gauge"]["by"], "scale");
  EXPECT_EQ(json["need"]["on_part_ml"], 45);
  EXPECT_EQ(json["need"]["areas"][1]["name"], "fork");
  EXPECT_EQ(json["mix"]["tints"][0]["share"], 0.25);
  EXPECT_LT(json["mix"]["tints"][0]["share_low"], 0.25);
  EXPECT_EQ(json["pour"].size(), 3U);
  EXPECT_EQ(json["pour"][1]["name"], "aqua, weak");
  EXPECT_EQ(json["pour"][1]["ml"], 13.125);
  EXPECT_EQ(json["pour"][1]["to_line"], 4);
  EXPECT_EQ(json["strainer_um"], 125);
  EXPECT_TRUE(json["have"].is_null());
  EXPECT_EQ(json["cautions"][0]["code"], "pour-assumed");
}

TEST(PourJson, WhatIsAbsentIsNull) {
  PourRequest request = plainPour(60);
  request.held = PourHeld{120, false, {1, 2}, 5};
  const auto json = pourJsonOf(request);
  EXPECT_TRUE(json["need"].is_null());
  EXPECT_TRUE(json["total_g"].is_null());
  EXPECT_TRUE(json["mix"]["carrier_density"].is_null());
  EXPECT_TRUE(json["pour"][0]["to_line"].is_null());
  EXPECT_TRUE(json["pour"][0]["g"].is_null());
  EXPECT_EQ(json["have"]["added_ml"], 40);
  EXPECT_EQ(json["have"]["too_much"], "teal, strong");
  EXPECT_EQ(json["have"]["fresh_is_less"], false);
}

}  // namespace
}  // namespace huewright
