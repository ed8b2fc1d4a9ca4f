// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What one run writes as several files that belong together: all of them appear, or none; where that cannot
// be, what is there and what is missing is named. What is asked is our own; no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <string>
#include <thread>

#include "support/patches.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/typed_files.hpp"
#include "system/interruption.hpp"
#include "system/unfinished.hpp"

namespace fogproof::tests {
namespace {

namespace fs = std::filesystem;
using testing::AllOf;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

class OutputSets : public testing::Test {
  protected:
    void SetUp() override { make_typed_files(program); }
    /// What lies in the folder, hidden names too.
    [[nodiscard]] std::map<std::string, std::uintmax_t> sizes_in(const std::string& folder) const {
        std::map<std::string, std::uintmax_t> sizes;
        for (const auto& entry : fs::directory_iterator(program / folder))
            sizes[entry.path().filename()] = entry.file_size();
        return sizes;
    }
    /// Begins with an empty folder of the name.
    void clear(const std::string& folder) const {
        fs::remove_all(program / folder);
        fs::create_directory(program / folder);
    }
    const Program program{};
};

class EverySet : public OutputSets, public testing::WithParamInterface<const char*> {
  protected:
    void SetUp() override {
        OutputSets::SetUp();
        clear("set");
        const auto whole = program.run("--quiet " + job);
        ASSERT_EQ(whole.code, 0) << whole.err;
        sizes = sizes_in("set");
        ASSERT_GT(sizes.size(), 1u);
        clear("set");
    }
    static void expect_our_lines(const std::string& err) {
        std::istringstream said(err);
        for (std::string line; std::getline(said, line);)
            EXPECT_THAT(line, StartsWith("fogproof: ")) << "a line of a library";
    }
    const std::string job = GetParam();
    std::map<std::string, std::uintmax_t> sizes;
};

// A limit on the size of files stands for a disk that is full. The smallest stops the first file, the largest
// the longest one, wherever in the order that is; the demo begins with its longest.
TEST_P(EverySet, AppearsWhollyOrNotAtAllWhenAFileCannotBeWritten) {
    std::uintmax_t least = UINTMAX_MAX, most = 0;
    for (const auto& [name, size] : sizes) {
        if (size > 1024) least = std::min(least, (size - 1) / 512);
        most = std::max(most, (size - 1) / 512);
    }
    if (job.starts_with("demo")) least = most;
    for (const auto limit : std::set<std::uintmax_t>{least, most}) {
        const auto cut =
            program.shell("ulimit -f " + std::to_string(limit) + " && \"$FOGPROOF\" --quiet " + job);
        SCOPED_TRACE(std::to_string(limit * 512) + " bytes a file");
        EXPECT_EQ(cut.code, 74) << cut.err;
        EXPECT_THAT(sizes_in("set"), IsEmpty());
        expect_our_lines(cut.err);
        EXPECT_THAT(cut.err, AllOf(HasSubstr("fogproof: set/"), HasSubstr("File too large")));
        clear("set");
    }
}

// A file system that has room for one file fewer than the set has. The sheets and the labels of a
// negative are one, the session another.
TEST_P(EverySet, AppearsWhollyOrNotAtAllWhenThereIsNoRoomForTheLastFile) {
    if (program.shell("unshare -rm mount -t tmpfs none set").code != 0)
        GTEST_SKIP() << "no file system may be mounted here";
    const auto files = job.starts_with("plan") ? 4 : sizes.size();
    const auto full =
        program.shell("unshare -rm sh -c 'mount -t tmpfs -o nr_inodes=" + std::to_string(files) +
                      " none set && \"$FOGPROOF\" --quiet " + job + "; code=$?; ls -A set; exit $code'");
    EXPECT_THAT(full.code, testing::AnyOf(73, 74)) << full.err;
    EXPECT_EQ(full.out, "");
    expect_our_lines(full.err);
    EXPECT_THAT(full.err, AllOf(HasSubstr("fogproof: set/"), HasSubstr("No space left on device")));
}

INSTANTIATE_TEST_SUITE_P(
    OutputSets, EverySet,
    testing::Values("grid scan.tif --pack pack.toml -o set/out.png --cell 80 --html",
                    "demo set --megapixels 0.3", "manual set", "plan scan.tif --pack pack.toml -o set",
                    "pack fit readings.csv --pack pack.toml -o set/fitted.toml --curves set/fit.svg",
                    "read strip.tif -o set/all.csv --picture set/strip.png"),
    [](const auto& of) {
        const std::string job = of.param;
        return job.substr(0, job.find(' '));
    });

TEST_F(OutputSets, AFileMadeInTheMeantimeKeepsTheOthersAway) {
    int refused = 0;
    for (int moment = 0; moment < 6; ++moment) {
        clear("set");
        const pid_t child = program.begun(
            "exec \"$FOGPROOF\" --quiet grid scan.tif --pack pack.toml -o set/out.png --cell 200 --html",
            false);
        std::this_thread::sleep_for(std::chrono::milliseconds(60 * moment));
        if (!fs::exists(program / "set/out.png.html")) program.write("set/out.png.html", "mine");
        const auto answer = program.answer_of(child);
        if (answer.code == 0) continue;
        ++refused;
        EXPECT_EQ(answer.err, "fogproof: set/out.png.html: exists already; --force replaces it\n");
        EXPECT_EQ(sizes_in("set"), (std::map<std::string, std::uintmax_t>{{"out.png.html", 4}}));
    }
    EXPECT_GT(refused, 0);
}

TEST_F(OutputSets, AFolderThatVanishesTakesAllOrNone) {
    for (int moment = 0; moment < 4; ++moment) {
        clear("set");
        fs::remove_all(program / "gone");
        const pid_t child = program.begun(
            "exec \"$FOGPROOF\" --quiet grid scan.tif --pack pack.toml -o set/out.png --cell 200 --html",
            false);
        std::this_thread::sleep_for(std::chrono::milliseconds(80 * moment));
        fs::rename(program / "set", program / "gone");
        const auto answer = program.answer_of(child);
        EXPECT_EQ(sizes_in("gone").size(), answer.code == 0 ? 3u : 0u) << moment << "\n" << answer.err;
        if (answer.code == 0) continue;
        EXPECT_THAT(answer.err, AllOf(StartsWith("fogproof: set/out.png"), HasSubstr("folder")))
            << answer.code;
    }
}

TEST_F(OutputSets, MayHoldMoreFilesThanAreUsuallyOpen) {
    std::string words = "read";
    constexpr int kScans = 34;
    for (int i = 0; i < kScans; ++i) {
        const std::string name = "strip" + std::to_string(i) + ".tif";
        fs::copy_file(program / "strip.tif", program / name);
        words += " " + name;
    }
    clear("set");
    const auto answer = program.shell("ulimit -S -n 36; \"$FOGPROOF\" --quiet " + words +
                                      " -o set/all.csv --picture set/seen.png");
    EXPECT_EQ(answer.code, 0) << answer.err;
    EXPECT_EQ(sizes_in("set").size(), std::size_t(kScans) + 1);
}

// Ctrl-C between two names would leave a part of the set: it waits for the last one.
TEST(OutputSetEndings, WaitUntilAllNamesAreGiven) {
    const TestFolder folder;
    const pid_t child = ::fork();
    if (child == 0) {
        leave_nothing_when_interrupted();
        {
            const EndingsHeld held;
            ::raise(SIGINT);
            std::ofstream(folder / "after") << "named";
        }
        ::_exit(0);
    }
    int status = 0;
    ASSERT_EQ(::waitpid(child, &status, 0), child);
    EXPECT_TRUE(WIFSIGNALED(status) && WTERMSIG(status) == SIGINT);
    EXPECT_EQ(content_of(folder / "after"), "named");
}

// In a folder like /tmp nobody replaces what is another's (the restricted deletion flag, POSIX.1-2017,
// XBD 4.3): that comes to light only when the name is given.
class SharedFolder : public OutputSets {
  protected:
    void SetUp() override {
        if (::geteuid() != 0) GTEST_SKIP() << "needs files of two users";
        OutputSets::SetUp();
        program.let_anybody_in();
        clear("set");
        fs::permissions(program / "set", fs::perms::all | fs::perms::sticky_bit);
    }
    void foreign(const std::string& name) const {
        program.write("set/" + name, "of another");
        fs::permissions(program / ("set/" + name), fs::perms(0644));
    }
};

TEST_F(SharedFolder, ASetThatStaysIncompleteIsNamedFileByFile) {
    foreign("out.png.html");
    const auto answer = program.run_as_anybody(
        "--quiet grid scan.tif --pack pack.toml -o set/out.png --cell 80 --html --force");
    EXPECT_EQ(answer.code, 74);
    EXPECT_EQ(
        answer.err,
        "fogproof: set/out.png.html: cannot be given its name: Operation not permitted; incomplete: written "
        "set/out.png, set/out.png.json; missing set/out.png.html\n");
    EXPECT_EQ(sizes_in("set").size(), 3u);
    EXPECT_EQ(content_of(program / "set/out.png.html"), "of another");
}

TEST_F(SharedFolder, ASessionThatCannotBeWrittenIsNamedBesideTheSheetsThatAreAndTheNegativesThatFailed) {
    foreign("session.html");
    const auto answer =
        program.run_as_anybody("--quiet plan scan.tif other.tif text.tif --pack pack.toml -o set --force");
    EXPECT_EQ(answer.code, 65) << answer.err;
    EXPECT_THAT(answer.err,
                HasSubstr("fogproof: set/session.html: cannot be given its name: Operation not permitted; "
                          "incomplete: written set/session.txt; missing set/session.html; "
                          "negatives whose worksheets are written: 2\n"));
    EXPECT_THAT(answer.err, HasSubstr("fogproof: plan: not all negatives could be planned; 1 of 3 failed: "
                                      "text.tif\n"));
    EXPECT_EQ(sizes_in("set").count("scan-proofs.html"), 1u);
    EXPECT_EQ(sizes_in("set").count("other.html"), 1u);
}

TEST(PrintFolder, IsMadeForSeveralNegativesOrWhereASlashAsksForOne) {
    const PatchPrints prints;
    save_patches(prints.program, "other.tif", PatchPrints::kLight);
    const std::string made = "print --pack pack.toml --whole --clear 1 ";
    ASSERT_EQ(prints.program.run(made + "neg.tif other.tif -o prints/evening").code, 0);
    for (const char* name : {"neg.tif", "other.tif"})
        EXPECT_TRUE(std::filesystem::exists(prints.program / "prints/evening" / name)) << name;
    ASSERT_EQ(prints.program.run(made + "neg.tif --output alone/ --format png").code, 0);
    EXPECT_TRUE(std::filesystem::exists(prints.program / "alone/neg.png"));
    // Nothing is made of a name that may be a picture's.
    EXPECT_EQ(prints.program.run(made + "neg.tif -o typo").code, 64);
    EXPECT_EQ(prints.program.run(made + "neg.tif other.tif -o both.tif").code, 64);
    EXPECT_FALSE(std::filesystem::exists(prints.program / "typo"));
}

}  // namespace
}  // namespace fogproof::tests
