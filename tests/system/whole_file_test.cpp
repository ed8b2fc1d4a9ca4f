// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Files as the program leaves them: their rights and owners, long names, links, folders shared with others.
// What is asked of them is our own; rights are those of POSIX.1-2017.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <iostream>
#include <set>
#include <string>
#include <thread>

#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/typed_files.hpp"

namespace fogproof::tests {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;
using testing::IsEmpty;

constexpr uid_t kNobody = 65534;

unsigned rights_of(const fs::path& path) {
    struct stat facts {};
    return ::stat(path.c_str(), &facts) == 0 ? facts.st_mode & 07777 : 0;
}

class OutputFiles : public testing::Test {
  protected:
    void SetUp() override { make_typed_files(program); }
    /// Where /proc is hidden no file without a name can be made, as on file systems that know none. Under
    /// AddressSanitizer no program works without it.
    [[nodiscard]] std::string named_only() const {
        const std::string hides = "unshare -rm sh -c 'mount -t tmpfs none /proc && exec \"$@\"' sh ";
        const bool may = program.shell(hides + "\"$FOGPROOF\" --version").code == 0;
        if (!may) std::cout << "/proc cannot be hidden here\n";
        return may ? hides : "";
    }
    [[nodiscard]] std::vector<std::string> hidden(const std::string& folder) const {
        std::vector<std::string> names;
        for (const auto& entry : fs::directory_iterator(program / folder))
            if (entry.path().filename().string().starts_with('.')) names.push_back(entry.path().filename());
        return names;
    }
    const Program program{};
    const std::string print = "print scan.tif --pack pack.toml --quiet -o ";
};

TEST_F(OutputFiles, FilesOfOthersThatLookTemporaryStay) {
    const std::string ended = program.shell("sh -c 'echo -n $$'").out;
    std::map<std::string, std::string> kept;
    for (const std::string& name : {".out.tif." + ended + ".0.tmp", ".notes." + ended + ".7.tmp",
                                    ".fogproof-" + ended + "-0-1.tmp", ".fogproof-" + ended + "-0.tmp"})
        program.write("folder/" + name, kept[name] = "of somebody else");
    ASSERT_EQ(program.run(print + "folder/out.tif").code, 0);
    for (const auto& [name, content] : kept) EXPECT_EQ(content_of(program / ("folder/" + name)), content);
}

TEST_F(OutputFiles, ALinkSwappedInWhileAFileIsWrittenLeadsItNowhereElse) {
    program.write("victim.txt", "precious");
    // tests/faults.sh asks for more of them.
    const char* const told = std::getenv("FOGPROOF_SWAPS");
    const int runs = told == nullptr ? 3 : std::atoi(told);
    int written = 0, refused = 0;
    for (const std::string& mode : std::set<std::string>{"", named_only()})
        for (const std::string& job : {print + "folder/out.tif", print + "folder/out.png",
                                       std::string("pack new --white 0.1 --blank 0.3 -o folder/new.toml")}) {
            std::atomic<bool> over = false;
            std::thread other([&] {
                const fs::path link = program / "link";
                while (!over)
                    for (const auto& name : hidden("folder")) {
                        std::error_code fault;
                        fs::create_symlink("../victim.txt", link, fault);
                        fs::rename(link, program / ("folder/" + name), fault);
                    }
            });
            for (int run = 0; run < runs; ++run) {
                const auto answer = program.shell(mode + "\"$FOGPROOF\" " + job + " --force");
                EXPECT_TRUE(answer.code == 0 || answer.code == 74) << answer.code << answer.err;
                (answer.code == 0 ? written : refused) += 1;
                EXPECT_TRUE(content_of(program / "victim.txt") == "precious") << job;
                EXPECT_FALSE(answer.code == 0 && fs::is_symlink(program / job.substr(job.find("folder/"))));
            }
            over = true;
            other.join();
            for (const auto& name : hidden("folder")) fs::remove(program / ("folder/" + name));
        }
    std::cout << written << " runs wrote their file, " << refused << " found that it had been swapped\n";
}

TEST_F(OutputFiles, WhereEveryFileHasANameAllIsWrittenAndWhatIsKilledIsSweptUp) {
    const std::string mode = named_only();
    if (mode.empty()) return;
    ASSERT_EQ(program.run(print + "usual.tif").code, 0);
    EXPECT_EQ(program.shell(mode + "\"$FOGPROOF\" " + print + "folder/out.tif --verify").code, 0);
    EXPECT_TRUE(content_of(program / "folder/out.tif") == content_of(program / "usual.tif"));
    EXPECT_EQ(program.shell(mode + "\"$FOGPROOF\" " + print + "folder/out.tif").code, 73);
    EXPECT_EQ(program.shell(mode + "\"$FOGPROOF\" " + print + "folder/out.png --verify").code, 0);
    EXPECT_EQ(program.shell("umask 027; " + mode + "\"$FOGPROOF\" " + print + "folder/tight.tif").code, 0);
    EXPECT_EQ(rights_of(program / "folder/tight.tif"), 0640u);
    EXPECT_THAT(hidden("folder"), IsEmpty());
    // Killed as soon as the file is there.
    const auto slope = [](int x, int y, int) { return 60000 * std::pow(10.0, -1e-3 * x) - (x * y) % 97; };
    raster<std::uint16_t>(2000, 1500, 1, slope, VIPS_INTERPRETATION_GREY16)
        .write_to_file((program / "large.tif").c_str());
    fs::create_directory(program / "folder/attic");
    const pid_t child = program.begun(
        "exec " + mode + "\"$FOGPROOF\" print large.tif --pack pack.toml -o folder/attic/out.png", false);
    ASSERT_GT(child, 0);
    std::string seen;
    unsigned rights = 0;
    for (int wait = 0; wait < 10000 && rights == 0; ++wait) {
        // The file gets its second name, which ends in its inode, as soon as it is there; only that is swept
        // up.
        for (const auto& name : hidden("folder/attic"))
            if (std::ranges::count(name, '-') == 3)
                rights = rights_of(program / "folder/attic" / (seen = name));
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
    EXPECT_THAT(seen, testing::MatchesRegex("\\.fogproof-[0-9]+-[0-9]+-[0-9]+\\.tmp"));
    EXPECT_EQ(rights, 0600u);
    ::kill(child, SIGKILL);
    static_cast<void>(program.answer_of(child));
    EXPECT_EQ(program.run("pack new --white 0.1 --blank 0.3 -o folder/attic/new.toml").code, 0);
    EXPECT_THAT(hidden("folder/attic"), IsEmpty());
}

TEST_F(OutputFiles, NewFilesHaveTheRightsOfTheMaskAndReplacedOnesKeepTheirs) {
    const std::string run = "\"$FOGPROOF\" " + print;
    for (const char* const name : {"out.tif", "out.png"}) {
        ASSERT_EQ(program.shell("umask 027; " + run + name).code, 0);
        EXPECT_EQ(rights_of(program / name), 0640u) << name;
        fs::permissions(program / name, fs::perms(0604));
        ASSERT_EQ(program.shell("umask 077; " + run + name + " --force").code, 0);
        EXPECT_EQ(rights_of(program / name), 0604u) << name;
    }
    if (::geteuid() != 0) return;
    ASSERT_EQ(::chown((program / "out.tif").c_str(), kNobody, kNobody), 0);
    ASSERT_EQ(program.shell(run + "out.tif --force").code, 0);
    struct stat facts {};
    ASSERT_EQ(::stat((program / "out.tif").c_str(), &facts), 0);
    EXPECT_EQ(facts.st_uid, kNobody) << "a superuser does not take the file away";
    EXPECT_EQ(facts.st_gid, kNobody);
    EXPECT_EQ(facts.st_mode & 07777, 0604u);
}

TEST_F(OutputFiles, AFolderThatMayBeWrittenIntoButNotReadTakesThem) {
    program.let_anybody_in();
    fs::permissions(program / "folder", fs::perms(0333));
    for (const std::string& job : {print + "folder/out.tif", print + "folder/out.png",
                                   std::string("pack new --white 0.1 --blank 0.3 -o folder/new.toml")}) {
        const auto answer = program.run_as_anybody(job);
        EXPECT_EQ(answer.code, 0) << job << "\n" << answer.err;
    }
    fs::permissions(program / "folder", fs::perms(0755));
    EXPECT_TRUE(fs::exists(program / "folder/out.tif"));
}

TEST_F(OutputFiles, TheLongestNameWorksAndALongerOneIsRefusedFirst) {
    constexpr std::size_t kLongest = 255;  // NAME_MAX of Linux
    const auto named = [](std::size_t length, const std::string& suffix) {
        return std::string(length - suffix.size(), suffix[1]) + suffix;
    };
    for (const std::size_t length : {244u, 250u, 255u})
        for (const std::string suffix : {".tif", ".png"})
            EXPECT_EQ(program.run(print + named(length, suffix)).code, 0) << length << suffix;
    const auto before = program.files();
    const std::string grid = "grid scan.tif --pack pack.toml --quiet --html -o ";
    for (const auto& job : {print + named(kLongest + 1, ".tif"), grid + named(kLongest - 4, ".png")}) {
        const auto answer = program.run(job);
        EXPECT_EQ(answer.code, 73);
        EXPECT_THAT(answer.err, HasSubstr("File name too long"));
    }
    EXPECT_TRUE(program.files() == before);
    EXPECT_EQ(program.run(grid + named(kLongest - 5, ".jpg")).code, 0);
}

// Pango has nothing to draw for them; a stem may be blank, a name of a pack long.
TEST_F(OutputFiles, ScansAndPacksOfAnyNameAreDrawn) {
    program.write(
        "long.toml",
        content_of(program / "pack.toml").replace(0, 0, "name = \"" + std::string(10000, 'w') + "\"\n"));
    for (const std::string stem : {" ", "\u3000"}) {
        fs::copy_file(program / "scan.tif", program / (stem + ".tif"));
        const auto answer =
            program.run("grid '" + stem + ".tif' --pack pack.toml --quiet --cell 80 --force -o out.png");
        EXPECT_EQ(answer.code, 0) << "\"" << stem << "\" " << answer.err;
        EXPECT_EQ(program.run("plan '" + stem + ".tif' --pack pack.toml --quiet -o folder --force").code, 0);
    }
    for (const std::string_view each :
         {"grid scan.tif --cell 80", "start scan.tif --ladder ladder.png", "print scan.tif"}) {
        const std::string job(each);
        const auto answer = program.run(job + " --pack long.toml --quiet --force" +
                                        (job.starts_with("start") ? "" : " -o out.png"));
        EXPECT_EQ(answer.code, 0) << job << " " << answer.err.substr(0, 300);
    }
}

TEST_F(OutputFiles, ALinkThatLeadsNowhereIsRefusedAndStays) {
    fs::create_symlink("nowhere/out.tif", program / "link.tif");
    for (const std::string force : {"", " --force"}) {
        const auto answer = program.run(print + "link.tif" + force);
        EXPECT_EQ(answer.code, 73);
        EXPECT_THAT(answer.err, HasSubstr("link.tif: is a link that leads nowhere; "));
        EXPECT_TRUE(fs::is_symlink(program / "link.tif"));
    }
}

}  // namespace
}  // namespace fogproof::tests
