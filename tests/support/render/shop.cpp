// Random shops: lamps, cameras, styles and views as they might be met.
#include "render/scene.hpp"

namespace huewright::render {

Shop randomShop(std::uint64_t seed, const ShopOptions& options) {
  Random random(seed ^ 0x5ca1ab1e0ddba11ULL);
  Shop shop;
  shop.name = "shop " + std::to_string(seed);
  Lamp& lamp = shop.lamp;
  lamp.light = options.lights.at(static_cast<std::size_t>(random.below(static_cast<int>(options.lights.size()))));
  lamp.falloff = random.uniform(0, options.max_falloff);
  lamp.direction_deg = 90 + 25 * random.normal();
  lamp.vignette = random.uniform(0, options.max_vignette);
  const bool two = random.chance(options.second_lamp_chance);
  const double from = random.uniform(0, 0.3), to = random.uniform(0, 0.3);
  const int other = random.below(static_cast<int>(options.lights.size()));
  if (two) {
    lamp.second_light = options.lights[static_cast<std::size_t>(other)];
    lamp.second_from = from;
    lamp.second_to = to;
  }
  Camera& camera = shop.camera;
  camera.sensitivity = options.cameras.at(static_cast<std::size_t>(random.below(static_cast<int>(options.cameras.size()))));
  camera.exposure = random.uniform(0.55, 0.9);
  camera.iso = 100 + (options.max_iso - 100) * random.uniform() * random.uniform();
  camera.noise_correlation = random.uniform(0.1, 0.5);
  camera.red_error = options.balance_error * random.normal();
  camera.blue_error = options.balance_error * random.normal();
  camera.blur = random.uniform(0.4, 1.0);
  const Style style = randomStyle(random);
  if (random.chance(options.linear_chance)) shop.style = linearStyle(random.chance(0.5) ? Space::P3 : Space::Srgb);
  else if (!options.plain_style) shop.style = style;
  shop.view.tilt_deg = random.uniform(-options.max_tilt_deg, options.max_tilt_deg);
  shop.view.turn_deg = random.uniform(-options.max_tilt_deg, options.max_tilt_deg);
  shop.view.roll_deg = random.uniform(-2, 2);
  shop.bench = static_cast<Bench>(random.below(4));
  shop.veil = random.uniform(0, options.max_veil);
  return shop;
}

ShopOptions unseenShops() {
  ShopOptions options;
  options.lights = {"D55", "D75", "FL10", "FL3.5", "FL3.12", "LED-B2", "LED-B4", "LED-BH1", "LED-V2"};
  options.cameras = kUnseenCameras;
  return options;
}

}  // namespace huewright::render
