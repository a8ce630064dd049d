#include "capture/sha256.hpp"

#include <algorithm>
#include <array>
#include <openssl/evp.h>
#include <string_view>

#include "photo/file_bytes.hpp"

namespace huewright {
namespace {

constexpr std::size_t kSha256Bytes = 32;
constexpr std::string_view kHexDigits = "0123456789abcdef";

}  // namespace

Result<std::string> sha256(std::span<const std::uint8_t> bytes) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> sum{};
  unsigned size = 0;
  if (EVP_Digest(bytes.data(), bytes.size(), sum.data(), &size, EVP_sha256(), nullptr) != 1 || size != kSha256Bytes) return fail(Code::Internal, "no SHA-256");
  std::string text;
  for (std::size_t i = 0; i < kSha256Bytes; ++i) {
    text += kHexDigits[sum[i] >> 4];
    text += kHexDigits[sum[i] & 15];
  }
  return text;
}

Result<std::string> sha256OfFile(const std::filesystem::path& path, const Limits& limits) {
  const auto bytes = FileBytes::read(path, limits);
  if (!bytes) return std::unexpected(bytes.error());
  return sha256(bytes->bytes());
}

bool isSha256(std::string_view text) {
  return text.size() == 2 * kSha256Bytes && std::ranges::all_of(text, [](char c) { return kHexDigits.find(c) != std::string_view::npos; });
}

}  // namespace huewright
