// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Kills, full disks, too little memory, inputs that change, many writers at once.
// tests/faults.sh asks for more moments and sizes than the suite takes time for.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
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

// The last line: warnings of a scan may stand before it.
std::string refusal_in(const std::string& said) {
    const auto end = said.rfind('\n', said.size() - 2);
    return end == std::string::npos ? said : said.substr(end + 1);
}

int asked(const char* variable, int usual) {
    const char* const told = std::getenv(variable);
    return told == nullptr ? usual : std::atoi(told);
}

TEST_F(Faults, KilledAtAnyMomentLeavesOldFilesOrNewOnes) {
    const int moments = asked("FOGPROOF_MOMENTS", 8);
    const auto all_hidden = [this] { return hidden(); };
    const std::string print = "print large.tif --pack pack.toml -o out.tif --force --quiet";
    sweep(program, print, {"out.tif"}, time_of(print), moments, all_hidden);
    const std::string grid =
        "grid large.tif --pack pack.toml -o out.png --cell 100 --across grade=1,2 --down bleach=0 --force "
        "--html --quiet";
    sweep(program, grid, {"out.png", "out.png.json", "out.png.html"}, time_of(grid), moments, all_hidden);
    const std::string demo = "demo attic --megapixels 0.3 --quiet";
    ASSERT_EQ(program.run(demo).code, 0);
    // The prior is another file, and the fit keeps a numbered copy of what it replaces.
    const std::string fit =
        "pack fit attic/readings.csv --pack attic/pack.toml -o attic/fitted.toml --force --quiet";
    sweep(program, fit, {"attic/fitted.toml"}, time_of(fit), moments, all_hidden);
}

TEST_F(Faults, KilledWhileAppendingLeavesReadingsThatCanBeRead) {
    const int moments = asked("FOGPROOF_MOMENTS", 8);
    std::string rows = "density\n";
    for (int row = 0; row < 1000; ++row) rows += "0." + std::to_string(1000 + row) + "\n";
    program.write("many.csv", rows);
    const auto whole = time_of("read many.csv -o all.csv --strip first --quiet");
    for (int moment = 0; moment < moments; ++moment) {
        const auto before = read_readings_file(program / "all.csv").size();
        static_cast<void>(
            program.run_and_kill("read many.csv -o all.csv --strip x --quiet", whole * moment / moments));
        const auto now = read_readings_file(program / "all.csv").size();
        EXPECT_TRUE(now == before || now == before + 1000) << now << " readings after " << before;
    }
}

TEST_F(Faults, NoRoomIsSaidAndLeavesNothing) {
    const int sizes = asked("FOGPROOF_SIZES", 6);
    const bool mounts = may_mount();
    ASSERT_EQ(program.run("print large.tif --pack pack.toml --compress -o whole.tif --quiet").code, 0);
    const auto needed = std::filesystem::file_size(program / "whole.tif");
    program.write("out.tif", "the old file");
    for (int i = 0; i < sizes; ++i) {
        // How much deflated strips will take nobody knows before, so they do meet the end of the disk.
        const std::string print =
            std::string("\"$FOGPROOF\" print large.tif --pack pack.toml --force --quiet ") +
            (i % 2 == 0 ? "--compress " : "") + "-o ";
        // Limits of a file's size are counted in 512 bytes, those of a tmpfs in pages of 4096 with some for
        // the folder.
        const auto size = std::max<std::size_t>(needed * std::size_t(i) / std::size_t(sizes), 4096);
        const auto limited =
            program.shell("ulimit -f " + std::to_string(size / 512) + " && " + print + "out.tif");
        EXPECT_EQ(limited.code, 74) << limited.err;
        EXPECT_THAT(refusal_in(limited.err),
                    AllOf(StartsWith("fogproof: out.tif: cannot be written"), HasSubstr("; ")));
        EXPECT_EQ(content_of(program / "out.tif"), "the old file");
        EXPECT_THAT(hidden(), testing::IsEmpty());
        if (!mounts) continue;
        const auto full = program.shell(
            "unshare -rm sh -c 'mount -t tmpfs -o size=" + std::to_string(std::max<std::size_t>(size, 8192)) +
            " none folder && echo old > folder/out.tif; " + print +
            "folder/out.tif; code=$?; ls -A folder; cat folder/out.tif; exit $code'");
        EXPECT_EQ(full.code, 74) << full.err;
        EXPECT_THAT(refusal_in(full.err), StartsWith("fogproof: folder/out.tif: "));
        EXPECT_THAT(full.out, testing::EndsWith("out.tif\nold\n")) << full.err;
    }
    const auto readings = content_of(program / "readings.csv");
    const auto cut =
        program.shell("ulimit -f 1 && \"$FOGPROOF\" read instrument.txt -o readings.csv --quiet" +
                      std::string(" --strip ") + std::string(190, 'n'));
    static_cast<void>(cut);
    const auto grown = content_of(program / "readings.csv");
    EXPECT_TRUE(cut.code == 74 ? grown == readings : grown.starts_with(readings)) << cut.err;
    std::cout << (mounts ? "on a tmpfs of its own, and" : "no tmpfs may be mounted here;")
              << " by RLIMIT_FSIZE as its stand-in: " << sizes << " sizes\n";
}

TEST_F(Faults, AnInputThatShrinksWhileItIsReadIsRefused) {
    const int moments = asked("FOGPROOF_MOMENTS", 8);
    const std::string print = "print shrinking.tif --pack pack.toml -o out.tif --force --quiet";
    std::filesystem::copy_file(program / "large.tif", program / "shrinking.tif");
    const auto whole = time_of(print);
    const std::string wanted = content_of(program / "out.tif");
    for (int moment = 0; moment < moments; ++moment) {
        std::filesystem::remove(program / "out.tif");
        std::filesystem::copy_file(program / "large.tif", program / "shrinking.tif",
                                   std::filesystem::copy_options::overwrite_existing);
        const pid_t child = program.begun("exec \"$FOGPROOF\" " + print, false, "shrinking.tif");
        std::this_thread::sleep_for(whole * moment / moments);
        std::filesystem::resize_file(program / "shrinking.tif", 100000);
        const auto answer = program.answer_of(child);
        EXPECT_TRUE(answer.code == 0 || answer.code == 65) << answer.code << "\n" << answer.err;
        if (answer.code == 0)
            EXPECT_EQ(content_of(program / "out.tif"), wanted);
        else
            EXPECT_FALSE(std::filesystem::exists(program / "out.tif"));
        EXPECT_THAT(hidden(), testing::IsEmpty());
    }
}

#ifndef __SANITIZE_ADDRESS__  // it reserves terabytes, so that no limit leaves anything to run
TEST_F(Faults, TooLittleMemoryIsSaid) {
    // In KB, from where the program can just be loaded to where it works.
    int refused = 0, worked = 0;
    for (int limit = 120000; limit <= 600000; limit += 480000 / asked("FOGPROOF_SIZES", 6))
        for (const std::string job :
             {"print large.tif --pack pack.toml -o out.tif", "grid scan.tif --pack pack.toml -o out.png",
              "pack show pack.toml --curves out.png"}) {
            const std::string limited = "ulimit -v " + std::to_string(limit) + " && ";
            if (program.shell(limited + "\"$FOGPROOF\" --version").code != 0) continue;
            const auto answer = program.shell(limited + "\"$FOGPROOF\" --quiet " + job);
            EXPECT_TRUE(answer.code == 0 || answer.code == 69) << limit << " KB: " << job << "\n"
                                                               << answer.err;
            (answer.code == 0 ? worked : refused) += 1;
            if (answer.code != 0) {
                EXPECT_THAT(answer.err, AllOf(HasSubstr("memory"), HasSubstr("; ")));
            }
            for (const char* output : {"out.tif", "out.png", "out.png.json"}) {
                EXPECT_TRUE(answer.code == 0 || !std::filesystem::exists(program / output));
                std::filesystem::remove(program / output);
            }
            EXPECT_THAT(hidden(), testing::IsEmpty());
        }
    EXPECT_GT(refused, 0);
    EXPECT_GT(worked, 0);
}
#endif

TEST_F(Faults, ReadingsAppendedByManyAtOnceAreAllThere) {
    constexpr int kProcesses = 8, kRuns = 5, kRows = 200;
    for (int process = 0; process < kProcesses; ++process)
        for (int run = 0; run < kRuns; ++run) {
            std::string rows = "strip,wedge_density,density\n";
            for (int row = 0; row < kRows; ++row)
                rows += std::to_string(process) + "," + decimal(0.001 * (run * kRows + row), 3) + ",0.5\n";
            program.write("rows-" + std::to_string(process) + "-" + std::to_string(run) + ".csv", rows);
        }
    const auto answer = program.shell(
        "for p in 0 1 2 3 4 5 6 7; do (for r in 0 1 2 3 4; do \"$FOGPROOF\" read rows-$p-$r.csv -o all.csv "
        "--strip $p --quiet >/dev/null || echo lost; done) & done; wait");
    EXPECT_EQ(answer.out + answer.err, "");
    std::set<std::pair<std::string, long>> rows;
    for (const auto& reading : read_readings_file(program / "all.csv"))
        rows.emplace(reading.strip, std::lround(1000 * reading.wedge_density.value_or(-1)));
    EXPECT_EQ(rows.size(), std::size_t(kProcesses * kRuns * kRows));
}

}  // namespace
}  // namespace fogproof::tests
