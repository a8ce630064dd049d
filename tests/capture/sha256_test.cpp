#include "capture/sha256.hpp"

#include <gtest/gtest.h>

#include "support/temp_dir.hpp"

namespace huewright {
namespace {

std::vector<std::uint8_t> bytesOf(std::string_view text) { return {text.begin(), text.end()}; }

// Source: the examples of FIPS 180 (from memory), one block, two blocks, a million letters; the sum of nothing is widely known.
TEST(Sha256, PublishedExamples) {
  struct Row {
    std::string text;
    const char* sum;
  };
  for (const Row& row : {Row{"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"}, Row{"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
                         Row{"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
                         Row{std::string(1'000'000, 'a'), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"}})
    EXPECT_EQ(sha256(bytesOf(row.text)).value(), row.sum) << row.text.size();
}

TEST(Sha256, OfAFileIsThatOfItsBytes) {
  const fixtures::TempDir folder;
  const auto bytes = bytesOf("panel");
  EXPECT_EQ(sha256OfFile(folder.put("a.jpg", bytes)).value(), sha256(bytes).value());
  EXPECT_EQ(sha256OfFile(folder.path() / "none").error().code, Code::FileMissing);
  EXPECT_EQ(sha256OfFile(folder.put("b.jpg", {})).error().code, Code::FileEmpty);
}

TEST(Sha256, IsKnownByItsLook) {
  const std::string sum = sha256(bytesOf("abc")).value();
  EXPECT_TRUE(isSha256(sum));
  EXPECT_FALSE(isSha256(sum + "0"));
  EXPECT_FALSE(isSha256(sum.substr(1)));
  EXPECT_FALSE(isSha256("B" + sum.substr(1)));
  EXPECT_FALSE(isSha256("g" + sum.substr(1)));
}

}  // namespace
}  // namespace huewright
