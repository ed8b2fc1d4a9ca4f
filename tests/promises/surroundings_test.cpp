// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What the program needs around it: streams, folders, fonts, a home.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <set>
#include <sstream>

#include "base/words.hpp"
#include "fogproof/pack/readings.hpp"
#include "support/faults.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/typed_files.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::StartsWith;

TEST_F(Faults, AnAnswerThatIsNotDeliveredIsNoSuccess) {
    const std::string show = "\"$FOGPROOF\" pack check pack.toml";
    for (const char* nowhere : {" >&-", " >/dev/full"}) {
        const auto answer = program.shell(show + nowhere);
        EXPECT_EQ(answer.code, 74) << nowhere;
        EXPECT_THAT(answer.err,
                    AllOf(StartsWith("fogproof: standard output: cannot be written"), HasSubstr("; ")));
    }
    EXPECT_EQ(program.shell("\"$FOGPROOF\" --help >/dev/full").code, 74);
    // Nobody hears the complaint, the code tells all the same.
    EXPECT_EQ(program.shell(show + " >/dev/full 2>/dev/full").code, 74);
    EXPECT_EQ(program.shell(show + " >&- 2>&-").code, 74);
}

TEST_F(Faults, ClosedStreamsAreNotMistakenForFiles) {
    const std::string print = "\"$FOGPROOF\" print large.tif --pack pack.toml --verbose -o ";
    ASSERT_EQ(program.shell(print + "usual.tif").code, 0);
    for (const char* closed : {" <&-", " >&-", " 2>&-", " <&- >&- 2>&-"}) {
        EXPECT_EQ(program.shell(print + "closed.tif --force" + closed).code, 0) << closed;
        EXPECT_EQ(content_of(program / "closed.tif"), content_of(program / "usual.tif")) << closed;
    }
}

TEST_F(Faults, CodedScansPrintAlikeWhereverTheyAreKept) {
    ASSERT_EQ(program.run("print large.tif --pack pack.toml --profile grey --compress -o coded.tif").code, 0);
    std::filesystem::create_directory(program / "room");
    for (const char* place : {"room", "missing", "/dev/full"}) {
        const auto answer = program.run("print coded.tif --pack pack.toml --exposure 12s --force -o kept.tif",
                                        std::string("TMPDIR=") + place);
        ASSERT_EQ(answer.code, 0) << answer.err;
        ASSERT_EQ(program.run("print coded.tif --pack pack.toml --exposure 12s --force -o usual.tif").code,
                  0);
        EXPECT_EQ(content_of(program / "kept.tif"), content_of(program / "usual.tif")) << place;
    }
    EXPECT_TRUE(std::filesystem::is_empty(program / "room"));
}

TEST_F(Faults, AFolderThatMayNotBeWrittenIntoIsNamed) {
    program.let_anybody_in();
    std::filesystem::permissions(program / "folder", std::filesystem::perms(0555));
    for (const std::string job :
         {"print scan.tif --pack pack.toml -o folder/out.tif",
          "grid scan.tif --pack pack.toml -o folder/out.png",
          "pack fit readings.csv --pack pack.toml -o folder/out.toml",
          "read instrument.txt -o folder/out.csv", "plan scan.tif --pack pack.toml -o folder",
          "demo folder/attic --megapixels 0.3", "pack new --white 0.1 --blank 0.3 -o folder/out.toml"}) {
        const auto answer = program.run_as_anybody("--quiet " + job);
        EXPECT_EQ(answer.code, 73) << job << "\n" << answer.err;
        EXPECT_THAT(answer.err, AllOf(StartsWith("fogproof: folder/"), HasSubstr("Permission denied")));
        EXPECT_TRUE(std::filesystem::is_empty(program / "folder")) << job;
    }
}

TEST_F(Faults, AnOutputOnAnotherFileSystemIsMadeThere) {
    if (!std::filesystem::is_directory("/dev/shm")) return;
    std::string name = "/dev/shm/fogproof-test-XXXXXX";
    const std::filesystem::path there = ::mkdtemp(name.data());
    std::filesystem::create_symlink(there / "out.tif", program / "link.tif");
    std::ofstream(there / "out.tif") << "old";
    EXPECT_EQ(program.run("print scan.tif --pack pack.toml --force --quiet -o link.tif").code, 0);
    EXPECT_TRUE(std::filesystem::is_symlink(program / "link.tif"));
    EXPECT_EQ(program.run("print scan.tif --pack pack.toml --quiet -o direct.tif").code, 0);
    EXPECT_EQ(content_of(there / "out.tif"), content_of(program / "direct.tif"));
    std::filesystem::remove_all(there);
}

TEST_F(Faults, NoFontsAreSaidWithThePackageThatHasThem) {
    if (!may_mount()) {
        std::cout << "fonts cannot be hidden here\n";
        return;
    }
    const auto answer = program.shell(
        "unshare -rm sh -c 'mount -t tmpfs none /usr/share/fonts && "
        "exec \"$FOGPROOF\" grid scan.tif --pack pack.toml -o out.png --quiet'");
    EXPECT_EQ(answer.code, 69) << answer.err;
    EXPECT_THAT(answer.err, HasSubstr("fonts-dejavu-core"));
    EXPECT_EQ(std::ranges::count(answer.err, '\n'), 1) << answer.err;
    EXPECT_FALSE(std::filesystem::exists(program / "out.png"));
    EXPECT_THAT(hidden(), testing::IsEmpty());
}

TEST_F(Faults, WithoutAHomeEverythingWorks) {
    program.let_anybody_in();
    for (const std::string nowhere : {"env -u HOME -u XDG_CACHE_HOME -u XDG_CONFIG_HOME ",
                                      "env HOME=/nonexistent XDG_CACHE_HOME=/nonexistent "}) {
        const auto answer = program.shell(
            nowhere + "\"$FOGPROOF\" grid scan.tif --pack pack.toml -o out.png --force --quiet", true);
        EXPECT_EQ(answer.code, 0) << answer.err;
        EXPECT_EQ(answer.err, "");
    }
}

}  // namespace
}  // namespace fogproof::tests
