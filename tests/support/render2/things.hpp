// What lies on the bench, as the camera's channels see it.
#pragma once

#include <vector>

#include "render2/scene.hpp"
#include "render2/texture.hpp"

namespace huewright::render2 {

/// Camera raw of a light on a perfect diffuser, and how surfaces look under lamp and room.
struct Eyes {
  Eyes(const Spec& spec, const LightField& light);
  Vec3 byLamp(const Spectrum& body) const { return sensor.raw(light.lampLight(), body); }
  Vec3 byRoom(const Spectrum& body) const { return sensor.raw(light.ambientLight(), body); }
  const LightField& light;
  Sensor sensor;
};

/// A flat rectangle and its own coordinates: −0.5..0.5 of its width and height.
class Rectangle {
 public:
  explicit Rectangle(const Place& place);
  Point inside(Point place) const;             ///< parts of width and height from its middle
  Point outward(double u, double v) const;     ///< back to cm
  double depth(Point place) const;             ///< cm to the nearest edge; negative outside (then only a bound)
  Quad quad(const View& view) const;

 private:
  Place place_;
  double cos_, sin_;
};

/// Relative film at a place of a thing; its mean over the thing is 1.
class Film {
 public:
  Film(const Place& place, const Finish& finish, Random& random);
  double at(Point place) const;

 private:
  double raw(Point place) const;
  Rectangle rectangle_;
  Finish finish_;
  Waves waves_;
  Stripes stripes_;
  double mean_ = 0, scale_ = 0;
};

/// A sprayed film's or any other body's raw values.
class Skin {
 public:
  /// Of a paint: for films from 1 − reach to 1 + reach.
  Skin(const Paint& paint, double reach, const Eyes& eyes);
  Skin(const Spectrum& body, const Eyes& eyes);
  /// In: relative film, the flakes' gain for the lamp, irradiances.
  Vec3 raw(double film, double flake_gain, double lamp, double room) const;
  Xyz<D50> xyz(double film) const;
  const GroundBody* flakes() const { return flakes_; }   ///< nothing: no flakes

 private:
  struct Node {
    Vec3 lamp_dull, lamp_flakes, room;
    Xyz<D50> xyz;
  };
  std::size_t below(double film, double& part) const;
  std::vector<Node> nodes_;
  double low_ = 1, step_ = 0;
  const GroundBody* flakes_ = nullptr;
};

}  // namespace huewright::render2
