#include "photo/file_bytes.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <sys/stat.h>
#include <unistd.h>

#include "support/temp_dir.hpp"

namespace huewright {
namespace {

using fixtures::TempDir;

Code codeOf(const std::filesystem::path& path, const Limits& limits = {}) {
  const auto bytes = FileBytes::read(path, limits);
  EXPECT_FALSE(bytes) << path;
  return bytes ? Code::Internal : bytes.error().code;
}

TEST(FileBytes, readsWhatIsThere) {
  const TempDir folder;
  const std::vector<unsigned char> want{1, 2, 3, 250};
  const auto bytes = FileBytes::read(folder.put("a", want), {});
  ASSERT_TRUE(bytes);
  EXPECT_TRUE(std::ranges::equal(bytes->bytes(), want));
}

TEST(FileBytes, namesWhatStandsInTheWay) {
  const TempDir folder;
  EXPECT_EQ(codeOf(folder.path() / "none.jpg"), Code::FileMissing);
  EXPECT_EQ(codeOf(folder.put("a", {}) / "below-a-file"), Code::FileMissing);
  EXPECT_EQ(codeOf(std::string(5000, 'x')), Code::FileMissing);
  EXPECT_EQ(codeOf(""), Code::FileMissing);
  EXPECT_EQ(codeOf(folder.path()), Code::FileIsFolder);
  EXPECT_EQ(codeOf(folder.put("empty", {})), Code::FileEmpty);
  EXPECT_EQ(codeOf("/dev/null"), Code::FileNotRegular);
}

TEST(FileBytes, aPipeIsRefusedWithoutWaitingForIt) {
  const TempDir folder;
  const auto pipe = folder.path() / "pipe";
  ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
  EXPECT_EQ(codeOf(pipe), Code::FileNotRegular);
}

TEST(FileBytes, permissionsAreNamed) {
  const TempDir folder;
  const auto path = folder.put("a", std::vector<unsigned char>{1});
  ASSERT_EQ(::chmod(path.c_str(), 0), 0);
  ASSERT_EQ(::chmod(folder.path().c_str(), 0755), 0);
  const bool root = ::geteuid() == 0;  // the superuser may read everything: be somebody else for a moment
  constexpr uid_t kNobody = 65534;
  ASSERT_EQ(root ? ::seteuid(kNobody) : 0, 0);
  const Code code = codeOf(path);
  ASSERT_EQ(root ? ::seteuid(0) : 0, 0);
  EXPECT_EQ(code, Code::FileUnreadable);
}

TEST(FileBytes, tooLargeIsSaidInMegabytes) {
  const TempDir folder;
  const auto path = folder.put("a", {});
  std::filesystem::resize_file(path, 5'000'000);
  Limits limits;
  limits.file_bytes = 2'000'000;
  const auto bytes = FileBytes::read(path, limits);
  ASSERT_FALSE(bytes);
  EXPECT_EQ(bytes.error().code, Code::PhotoTooLarge);
  EXPECT_TRUE(bytes.error().detail.ends_with("\" has 5 megabytes; 2 are allowed")) << bytes.error().detail;
}

TEST(FileBytes, veryLargeFilesAreMapped) {
  const TempDir folder;
  const auto path = folder.put("a", std::vector<unsigned char>{7});
  std::filesystem::resize_file(path, 70U << 20);  // sparse
  auto bytes = FileBytes::read(path, {});
  ASSERT_TRUE(bytes);
  const FileBytes moved = std::move(*bytes);
  EXPECT_EQ(moved.bytes().size(), 70U << 20);
  EXPECT_EQ(moved.bytes()[0], 7);
  EXPECT_EQ(moved.bytes().back(), 0);
}

}  // namespace
}  // namespace huewright
