// Pictures on the graphics card, behind a small face so that frames can be driven without one.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <span>
#include <utility>
#include <vector>

#include "photo/geometry.hpp"
#include "sitting/picture.hpp"

namespace huewright::desk {

/// What ImGui draws by; nothing is drawn for 0.
using TextureId = void*;

/// The graphics card, or a stand-in.
class TextureMaker {
 public:
  virtual ~TextureMaker() = default;
  /// In: R, G, B, A bytes, row by row; smooth: blurred when enlarged, else every pixel a square.
  virtual TextureId make(Size size, std::span<const std::uint8_t> rgba, bool smooth) = 0;
  virtual void drop(TextureId id) = 0;
};

/// Keeps the textures of pictures that are on show, in tiles of at most kTile pixels; those that were not asked for in the last kKeep frames are dropped.
class Textures {
 public:
  explicit Textures(TextureMaker& maker) : maker_(&maker) {}
  ~Textures();
  Textures(const Textures&) = delete;
  Textures& operator=(const Textures&) = delete;

  struct Tile {
    Rect rect;                       ///< of the picture's pixels
    TextureId id{};
  };
  /// The tiles that cover a part of the picture, uploaded now if they are not there yet. smooth as in TextureMaker.
  std::vector<Tile> tiles(const PictureRef& picture, const Rect& part, bool smooth = true);
  /// To be called once a frame.
  void frameDone();
  std::size_t count() const { return held_.size(); }

  static constexpr int kTile = 1024;
  static constexpr unsigned kKeep = 60;

 private:
  struct Held {
    std::weak_ptr<const Picture> picture;
    TextureId id{};
    unsigned used = 0;
  };
  using Key = std::pair<std::pair<const Picture*, bool>, std::pair<int, int>>;
  TextureMaker* maker_;
  std::map<Key, Held> held_;
  unsigned frame_ = 0;
};

}  // namespace huewright::desk
