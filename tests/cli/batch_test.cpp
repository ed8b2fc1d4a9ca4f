// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Many negatives at once, in parts and through the examples, held against one run after another. What is
// asked of them is our own; no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <csignal>
#include <nlohmann/json.hpp>
#include <thread>

#include "fogproof/base/error.hpp"
#include "scan/scan_memory.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using namespace std::chrono_literals;
using testing::AllOf;
using testing::HasSubstr;
namespace fs = std::filesystem;

const std::string kExamples = FOGPROOF_SOURCE_DIR "/examples/";
constexpr int kScans = 4;

void make_scan(const Program& program, const std::string& name, int kind, int wide = 120, int high = 80) {
    raster<std::uint16_t>(
        wide, high, 1,
        [&](int x, int y, int) {
            const double tone = double(x) / wide * (0.5 + 0.5 * y / high);
            return 60000 * std::pow(10.0, -(0.1 + 0.05 * kind + (1.3 - 0.1 * kind) * tone));
        },
        VIPS_INTERPRETATION_GREY16)
        .write_to_file((program / name).c_str());
}

// Scans that differ, named by a list and on the command line; a pack; folders for what comes of them.
struct Archive : Program {
    Archive() {
        fs::create_directory(*this / "roll");
        std::string list = "# roll 7\n";
        for (int i = 0; i < kScans; ++i) {
            const std::string name = "neg" + std::to_string(i) + ".tif";
            make_scan(*this, "roll/" + name, i);
            list += name + "\n";
            named += "roll/" + name + " ";
        }
        write("roll/list.txt", list);
        write("pack.toml", "fogproof_pack = 1\n[paper]\nwhite = 0.08\n[fog]\nblank = 0.35\n");
        write("text.tif", "not a picture\n");
        for (const char* folder : {"one", "many"}) fs::create_directory(*this / folder);
    }
    void works(const std::string& words) const {
        const auto answer = run(words);
        EXPECT_EQ(answer.code, 0) << words << "\n" << answer.err;
    }
    /// Pictures and sheets of a folder with their bytes; hidden files are left out.
    [[nodiscard]] std::map<std::string, std::string> in(const std::string& folder) const {
        std::map<std::string, std::string> found;
        for (const auto& [name, content] : files())
            if (name.starts_with(folder + "/") && name != folder + "/" && name[folder.size() + 1] != '.')
                found[name.substr(folder.size() + 1)] = content;
        return found;
    }
    void expect_same(std::size_t count) const {
        const auto one = in("one"), many = in("many");
        EXPECT_EQ(one.size(), count);
        ASSERT_EQ(many.size(), count);
        for (const auto& [name, content] : one)
            EXPECT_TRUE(many.contains(name) && many.at(name) == content) << name << " differs";
    }

    std::string named;
};

const std::string kPrint = "print --pack pack.toml --grade 2 ";

struct Printed : Archive {
    Printed() {
        for (int i = 0; i < kScans; ++i) works(kPrint + "-o one roll/neg" + std::to_string(i) + ".tif");
    }
};

TEST(Batch, ManyAtOnceAreAsOneAfterAnother) {
    const Printed archive;
    archive.works(kPrint + "-o many --jobs 4 " + archive.named);
    archive.expect_same(kScans);
}

TEST(Batch, PartsOfAListAreAsOneRun) {
    const Printed archive;
    for (const char* part : {"2/3", "3/3", "1/3"})
        archive.works(kPrint + "-o many --list roll/list.txt --shard " + part);
    archive.expect_same(kScans);
    EXPECT_EQ(archive.run(kPrint + "-o many --list roll/list.txt --shard 7/7").err, "");
    // A part without a negative is an answer without a print.
    EXPECT_THAT(archive.run(kPrint + "-o many --list roll/list.txt --shard 7/7 --json").out,
                HasSubstr("\"prints\": []"));
}

TEST(Batch, SheetsOfPartsAreThoseOfOneRunButForTheSession) {
    const Archive archive;
    const std::string three = "roll/neg0.tif roll/neg1.tif roll/neg2.tif ";
    archive.works("plan --pack pack.toml -o one --jobs 3 " + three);
    for (const char* part : {"1/2", "2/2"})
        EXPECT_THAT(archive.run("plan --pack pack.toml -o many " + three + "--shard " + part).err,
                    HasSubstr("no session"));
    for (const char* name : {"session.html", "session.txt"}) {
        EXPECT_FALSE(fs::exists(archive / "many" / name));
        EXPECT_TRUE(fs::remove(archive / "one" / name)) << name;
    }
    archive.expect_same(3 * 4);  // sheets as text and page, proofs, labels
}

TEST(Batch, ThePlanIsTheSameForAnyNumberOfJobs) {
    const Archive archive;
    const auto one = archive.run("plan --pack pack.toml --json --jobs 1 roll/neg0.tif roll/neg1.tif");
    const auto many = archive.run("plan --pack pack.toml --json --jobs 2 roll/neg0.tif roll/neg1.tif");
    EXPECT_EQ(one.code, 0) << one.err;
    EXPECT_EQ(one.out, many.out);
    EXPECT_EQ(nlohmann::json::parse(one.out)["prints"].size(), 2u);
    const auto told = archive.run("plan --pack pack.toml --jobs 2 roll/neg1.tif roll/neg0.tif");
    const auto alone = archive.run("plan --pack pack.toml roll/neg1.tif");
    // Its own sheet comes first; what follows is the session of one print instead of two.
    const std::string sheet = alone.out.substr(0, alone.out.find("\n\nSession"));
    EXPECT_GT(sheet.size(), 500u);
    EXPECT_THAT(told.out, testing::StartsWith(sheet));
    EXPECT_THAT(told.out.substr(sheet.size()), HasSubstr("neg0"));
}

TEST(Batch, WhatIsSaidComesInTheOrderOfTheNegatives) {
    const Archive archive;
    const std::string scans = "roll/neg0.tif text.tif roll/neg1.tif missing.tif roll/neg2.tif";
    const auto one = archive.run(kPrint + "-o one --jobs 1 " + scans);
    const auto many = archive.run(kPrint + "-o one --force --jobs 5 " + scans);
    EXPECT_EQ(one.code, 65);  // of text.tif, the first that failed
    EXPECT_EQ(many.code, 65);
    EXPECT_EQ(one.err, many.err);
    EXPECT_THAT(one.err, HasSubstr("2 of 5 failed: text.tif, missing.tif\n"));
    EXPECT_EQ(archive.in("one").size(), 3u);
    const auto swapped = archive.run(kPrint + "-o one --force missing.tif text.tif roll/neg0.tif");
    EXPECT_EQ(swapped.code, 66);  // of missing.tif
}

TEST(Batch, ANegativeTooLargeForTheMemoryIsStillPrinted) {
    const Printed archive;
    archive.works(kPrint + "-o many --jobs 4 --memory 1 " + archive.named);
    archive.expect_same(kScans);
}

// PNG, section 8: interlaced lines come in seven passes, so the first is known when all are.
TEST(Batch, ANegativeThatTakesTooLongIsGivenUpAndTheLimitTold) {
    const Archive archive;
    const auto answer =
        archive.run(kPrint + "-o many --jobs 2 --time-limit 0.001 roll/neg0.tif roll/neg1.tif");
    EXPECT_EQ(answer.code, 69) << answer.err;
    EXPECT_THAT(answer.err, AllOf(HasSubstr("neg0.tif: was stopped after 0.001 s"),
                                  HasSubstr("a larger --time-limit"), HasSubstr("2 of 2 failed")));
    EXPECT_TRUE(archive.in("many").empty());
}

TEST(Batch, WhatIsHeldWholeAsksForItsWholeSize) {
    const Archive archive;
    const vips::VImage scan = vips::VImage::new_from_file((archive / "roll/neg0.tif").c_str());
    scan.pngsave((archive / "lines.png").c_str());
    scan.pngsave((archive / "passes.png").c_str(), vips::VImage::option()->set("interlace", true));
    constexpr std::uint64_t kBytes = 120 * 80 * 2;
    EXPECT_EQ(memory_to_read(archive / "passes.png"), memory_to_read(archive / "lines.png") + kBytes);
    EXPECT_THROW(static_cast<void>(memory_to_read(archive / "text.tif")), Error);
}

bool any_unfinished(const Program& program) {
    return std::ranges::any_of(fs::directory_iterator(program / "many"),
                               [](const auto& entry) { return entry.path().extension() == ".tmp"; });
}

// Files have no name until they are whole, so that a batch is known to work by its workers.
bool has_workers(pid_t process) {
    const std::string id = std::to_string(process);
    return !content_of("/proc/" + id + "/task/" + id + "/children").empty();
}

template <class Condition>
bool comes_true(const Condition& condition) {
    for (int i = 0; i < 2000; ++i, std::this_thread::sleep_for(5ms))
        if (condition()) return true;
    return false;
}

// Ctrl-C reaches a whole process group, a batch system's SIGTERM perhaps the first process alone, and SIGKILL
// leaves its children without a parent. Whatever the moment, nothing is there that is not whole.
TEST(Batch, InterruptedItLeavesWholePicturesOnly) {
    vips_ready();
    const Archive archive;
    std::string scans;
    for (int i = 0; i < 6; ++i) {
        const std::string name = "large" + std::to_string(i) + ".tif";
        make_scan(archive, name, i, 1200, 800);
        scans += name + " ";
    }
    archive.works(kPrint + "-o one " + scans);
    const auto whole = archive.in("one");
    // True if the signal came before all was printed; a quick machine may be done by then.
    const auto interrupted = [&](int signal, std::chrono::milliseconds pause) {
        const pid_t process =
            archive.begun("exec \"$FOGPROOF\" " + kPrint + "-o many --force --jobs 3 " + scans, false);
        EXPECT_TRUE(comes_true([&] { return has_workers(process); })) << "it has not begun";
        std::this_thread::sleep_for(pause);
        EXPECT_EQ(::kill(process, signal), 0);
        const int code = archive.answer_of(process).code;
        const bool in_time = code != 0;
        EXPECT_EQ(code, in_time ? 128 + signal : 0);
        // Orphans are told by the system a moment later.
        if (signal == SIGKILL)
            EXPECT_TRUE(comes_true([&] { return !any_unfinished(archive); }));
        else
            EXPECT_FALSE(any_unfinished(archive)) << signal;
        for (const auto& [name, content] : archive.in("many"))
            EXPECT_TRUE(whole.at(name) == content) << name << " is not whole after signal " << signal;
        return in_time;
    };
    for (const int signal : {SIGTERM, SIGINT, SIGHUP, SIGKILL})
        for (const auto pause : {0ms, 40ms}) {
            int tries = 1;
            while (!interrupted(signal, pause) && tries < 20) ++tries;
            EXPECT_LT(tries, 20) << "never in time for signal " << signal;
        }
}

int ran(const Program& program, const std::string& line) {
    const auto answer = program.shell(line);
    program.write("said.txt", answer.out + answer.err);
    return answer.code;
}

TEST(Examples, GnuParallelSpreadsAnArchive) {
    const Printed archive;
    EXPECT_EQ(ran(archive, "'" + kExamples + "archive-parallel.sh' 3 roll/list.txt pack.toml many --grade 2"),
              0)
        << content_of(archive / "said.txt");
    archive.expect_same(kScans);
}

TEST(Examples, MakeSpreadsAnArchiveAndKnowsWhatIsDone) {
    const Printed archive;
    const std::string make =
        "make -j 2 -f '" + kExamples +
        "archive.mk' N=3 LIST=roll/list.txt PACK=pack.toml FOLDER=many RECIPE='--grade 2'";
    EXPECT_EQ(ran(archive, make), 0) << content_of(archive / "said.txt");
    archive.expect_same(kScans);
    EXPECT_EQ(ran(archive, make), 0);
    EXPECT_THAT(content_of(archive / "said.txt"), HasSubstr("Nothing to be done"));
    make_scan(archive, "roll/neg0.tif", 9);
    fs::last_write_time(archive / "roll/list.txt", fs::file_time_type::clock::now() + 1s);
    EXPECT_EQ(ran(archive, make), 0);
    EXPECT_NE(archive.in("many").at("neg0.tif"), archive.in("one").at("neg0.tif"));
}

TEST(Examples, MakeTakesNamesWithBlanks) {
    const Printed archive;
    fs::rename(archive / "roll/list.txt", archive / "roll/my list.txt");
    fs::rename(archive / "pack.toml", archive / "my pack.toml");
    const std::string make = "make -f '" + kExamples +
                             "archive.mk' N=2 LIST='roll/my list.txt' PACK='my pack.toml' FOLDER='my many' "
                             "RECIPE='--grade 2' && mv 'my many'/neg* many";
    EXPECT_EQ(ran(archive, make), 0) << content_of(archive / "said.txt");
    archive.expect_same(kScans);
}

// Slurm sets these variables for every task of an array; a cluster is not there in the suite.
TEST(Examples, ASlurmArraySpreadsAnArchive) {
    const Printed archive;
    EXPECT_EQ(ran(archive,
                  "for task in 3 1 2; do SLURM_ARRAY_TASK_ID=$task SLURM_CPUS_PER_TASK=2 "
                  "SLURM_MEM_PER_NODE=2048 '" +
                      kExamples + "archive.sbatch' 3 roll/list.txt pack.toml many --grade 2 || exit; done"),
              0)
        << content_of(archive / "said.txt");
    archive.expect_same(kScans);
}

}  // namespace
}  // namespace fogproof::tests
