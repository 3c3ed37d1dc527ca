#include <fcntl.h>
#include <gtest/gtest.h>
#include <sched.h>
#include <signal.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <functional>

#include "engine/base/file_error.hpp"
#include "engine/storage/made_up_run.hpp"
#include "engine/storage/stored_run.hpp"
#include "engine/storage/write_result.hpp"

namespace dullcast::storage {
namespace {

/// What FileError says when the made-up run is written to `path`; "written" when nothing is thrown.
std::string said_of(const std::string& path, int rows = 10) {
  try {
    write_result(path, made_up::scenario(18), made_up::plain_outcome(18, rows));
  } catch (const base::FileError& error) {
    EXPECT_EQ(error.path(), path);
    return error.what();
  }
  return "written";
}

/// What `work` returns in a child process, whose limits and rights may be changed freely.
std::string in_a_child(const std::function<std::string()>& work) {
  int ends[2];
  EXPECT_EQ(::pipe(ends), 0);
  const pid_t child = ::fork();
  if (child == 0) {
    ::close(ends[0]);
    const std::string said = work();
    const ssize_t wrote = ::write(ends[1], said.data(), said.size());
    ::_exit(wrote == static_cast<ssize_t>(said.size()) ? 0 : 1);
  }
  ::close(ends[1]);
  std::string said;
  char buffer[4096];
  for (ssize_t got = 0; (got = ::read(ends[0], buffer, sizeof buffer)) > 0;)
    said.append(buffer, static_cast<std::size_t>(got));
  ::close(ends[0]);
  int status = 0;
  EXPECT_EQ(::waitpid(child, &status, 0), child);
  EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0) << "status " << status;
  return said;
}

TEST(Unwritable, AFolderThatDoesNotExistIsNamed) {
  const made_up::Folder folder;
  const std::string path = folder / "no such/run.h5";
  EXPECT_EQ(said_of(path), path + ": there is no folder " + (folder / "no such"));
}

TEST(Unwritable, APathThatIsAFolderIsRefusedAndKept) {
  const made_up::Folder folder;
  std::filesystem::create_directory(folder / "run.h5");
  EXPECT_EQ(said_of(folder / "run.h5"), (folder / "run.h5") + ": this is a folder; give a file name");
  EXPECT_EQ(said_of(folder / "new/"), (folder / "new/") + ": this names a folder; give a file name");
  EXPECT_EQ(folder.names(), std::vector<std::string>{"run.h5"});
}

TEST(Unwritable, ADeviceIsRefused) {
  EXPECT_EQ(said_of("/dev/full"), "/dev/full: this is not an ordinary file");
  EXPECT_EQ(said_of("/dev/null"), "/dev/null: this is not an ordinary file");
}

TEST(Unwritable, AFolderWithoutPermissionIsNamedAndTheOldResultSurvives) {
  const made_up::Folder folder;
  write_result(folder / "run.h5", made_up::scenario(18), made_up::plain_outcome(18, 4));
  std::filesystem::permissions(folder.path(), std::filesystem::perms{0555});
  const std::string said = in_a_child([&] {
    constexpr uid_t nobody = 65534;
    if (::geteuid() == 0 && ::seteuid(nobody) != 0) return std::string("cannot become nobody");
    return said_of(folder / "run.h5");
  });
  std::filesystem::permissions(folder.path(), std::filesystem::perms{0755});
  EXPECT_EQ(said, (folder / "run.h5") + ": cannot write in this folder: Permission denied");
  EXPECT_EQ(folder.names(), std::vector<std::string>{"run.h5"});
  EXPECT_EQ(read_result(folder / "run.h5").outcome.history.rows.size(), 4U);
}

TEST(Unwritable, AWriteThatFailsHalfWayLeavesNothingAndTheOldResultSurvives) {
  const made_up::Folder folder;
  write_result(folder / "old.h5", made_up::scenario(18), made_up::plain_outcome(18, 4));
  const auto limited = [&](const std::string& path) {
    return in_a_child([&] {
      ::signal(SIGXFSZ, SIG_IGN);  // the write then fails with EFBIG
      const struct rlimit limit { 20'000, 20'000 };
      if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) return std::string("cannot set the limit");
      return said_of(path, 3000);
    });
  };
  for (const char* name : {"new.h5", "old.h5"}) {
    EXPECT_EQ(
        limited(folder / name),
        (folder / name) + ": cannot write the result: the file would be larger than this system allows");
    EXPECT_EQ(folder.names(), std::vector<std::string>{"old.h5"});
  }
  EXPECT_EQ(read_result(folder / "old.h5").outcome.history.rows.size(), 4U);
}

TEST(Unwritable, AFullDiskIsNamedAndLeavesNothing) {
  const made_up::Folder folder;
  const std::string said = in_a_child([&] {
    // A disk of 64 KiB that only this child sees; not every machine lets a process make one.
    if (::geteuid() == 0 ? ::unshare(CLONE_NEWNS) != 0 : ::unshare(CLONE_NEWUSER | CLONE_NEWNS) != 0)
      return std::string("no disk");
    if (::mount(nullptr, "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0) return std::string("no disk");
    if (::mount("tmpfs", folder.path().c_str(), "tmpfs", 0, "size=64k") != 0) return std::string("no disk");
    std::string result = said_of(folder / "run.h5", 3000);
    for (const std::string& name : folder.names()) result += " LEFT: " + name;
    return result;
  });
  if (said == "no disk") GTEST_SKIP() << "this machine lets no process mount a small disk of its own";
  EXPECT_EQ(said, (folder / "run.h5") + ": cannot write the result: the disk is full");
}

TEST(Unwritable, ALinkIsFollowedAndKept) {
  const made_up::Folder folder;
  std::filesystem::create_directory(folder / "elsewhere");
  std::filesystem::create_symlink("elsewhere/run.h5", folder / "link.h5");
  EXPECT_EQ(said_of(folder / "link.h5"), "written");
  EXPECT_TRUE(std::filesystem::is_symlink(folder / "link.h5"));
  EXPECT_TRUE(std::filesystem::is_regular_file(folder / "elsewhere/run.h5"));
}

TEST(Unwritable, WhatAKilledRunLeftBehindIsNoObstacle) {
  const made_up::Folder folder;
  const std::string left = ".dullcast-unfinished-" + std::to_string(::getpid()) + "-0.tmp";
  std::ofstream(folder / left) << "half";
  EXPECT_EQ(said_of(folder / "run.h5"), "written");
  EXPECT_EQ(folder.names(), (std::vector<std::string>{left, "run.h5"}));
}

}  // namespace
}  // namespace dullcast::storage
