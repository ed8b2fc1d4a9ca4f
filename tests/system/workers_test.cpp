// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Lists, parts of lists and workers side by side. What is asked of them is our own; no source.
#include "system/workers.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <csignal>
#include <fstream>
#include <iostream>
#include <new>
#include <thread>
#include <vector>

#include "fogproof/base/error.hpp"
#include "support/film_scan.hpp"
#include "support/rooms.hpp"
#include "system/interruption.hpp"
#include "system/shard.hpp"

namespace fogproof::tests {
namespace {

using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;
using testing::ElementsAre;

std::vector<std::string> numbered(std::size_t count) {
    std::vector<std::string> list;
    for (std::size_t i = 0; i < count; ++i) list.push_back(std::to_string(i));
    return list;
}

TEST(Shard, PartsTogetherAreTheListAndDifferByOneAtMost) {
    for (const std::size_t count : {0u, 1u, 7u, 8u, 100u})
        for (const std::size_t of : {1u, 2u, 3u, 8u, 11u}) {
            std::vector<std::string> together;
            for (std::size_t number = 1; number <= of; ++number) {
                const auto part = Shard{number, of}.part(numbered(count));
                EXPECT_GE(part.size(), count / of);
                EXPECT_LE(part.size(), (count + of - 1) / of);
                together.insert(together.end(), part.begin(), part.end());
            }
            EXPECT_THAT(together, testing::UnorderedElementsAreArray(numbered(count)));
        }
    EXPECT_THAT((Shard{3, 8}.part(numbered(20))), ElementsAre("2", "10", "18"));
}

TEST(Shard, AnythingButKOfNIsRefused) {
    EXPECT_EQ(Shard::in("3/8", "--shard").number, 3u);
    EXPECT_EQ(Shard::in("3/8", "--shard").of, 8u);
    for (const char* text : {"", "3", "0/8", "9/8", "/8", "3/", "-1/8", "+1/8", "3/8/9", "3 /8", "3/8x",
                             "1/0", "1/100001", "1/99999999999999999999"})
        EXPECT_THROW(static_cast<void>(Shard::in(text, "--shard")), Error) << text;
}

TEST(List, PathsAreReadFromWhereTheListLies) {
    const TestFolder folder;
    std::ofstream(folder / "scans.txt", std::ios::binary)
        << "\xEF\xBB\xBF# roll 7\n\n  roll 7/a b#1.tif \r\n\t# not this\n/elsewhere/c.tif";
    EXPECT_THAT(listed_paths(folder / "scans.txt"),
                ElementsAre((folder / "roll 7/a b#1.tif").string(), "/elsewhere/c.tif"));
    std::ofstream(folder / "none.txt") << "# nothing\n";
    EXPECT_THROW(static_cast<void>(listed_paths(folder / "none.txt")), Error);
    EXPECT_THROW(static_cast<void>(listed_paths(folder / "missing.txt")), Error);
}

// Numbers that all workers see.
struct Common {
    std::atomic<int> working{0}, most{0};
    std::atomic<std::uint64_t> used{0}, most_used{0};
    std::atomic<bool> alone{true};
};
struct Shared {
    Common* const common =
        new (::mmap(nullptr, sizeof(Common), PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0))
            Common;
    ~Shared() { ::munmap(common, sizeof(Common)); }
    Common* operator->() const { return common; }
};

template <class Number>
void raise_to(std::atomic<Number>& most, Number now) {
    for (Number before = most; before < now && !most.compare_exchange_weak(before, now);) {
    }
}

TEST(Workers, TellInOrderWhoeverEndsFirst) {
    std::vector<std::size_t> told;
    std::string out, err;
    std::vector<int> codes;
    work_side_by_side(
        6, {3, 100},
        [](std::size_t number, const Turn&) {
            std::this_thread::sleep_for(number == 0 ? 100ms : 1ms);
            std::cout << "out" << number;
            std::cerr << "err" << number;
            return int(number);
        },
        [&](std::size_t number, const WorkerEnd& end) {
            told.push_back(number);
            codes.push_back(end.code);
            out += end.out;
            err += end.err;
        });
    EXPECT_THAT(told, ElementsAre(0, 1, 2, 3, 4, 5));
    EXPECT_THAT(codes, ElementsAre(0, 1, 2, 3, 4, 5));
    EXPECT_EQ(out, "out0out1out2out3out4out5");
    EXPECT_EQ(err, "err0err1err2err3err4err5");
}

TEST(Workers, NoMoreWorkAtOnceThanAsked) {
    const Shared shared;
    work_side_by_side(
        12, {3, 100},
        [&](std::size_t, const Turn&) {
            raise_to(shared->most, ++shared->working);
            // Processes of a busy machine begin late: until all that may work at once do.
            for (const auto late = Clock::now() + 20s; shared->most < 3 && Clock::now() < late;)
                std::this_thread::sleep_for(1ms);
            std::this_thread::sleep_for(20ms);
            --shared->working;
            return 0;
        },
        [](std::size_t, const WorkerEnd& end) { EXPECT_EQ(end.code, 0); });
    EXPECT_EQ(shared->most, 3);
}

TEST(Workers, StayWithinTheirMemoryAndALargeOneIsAlone) {
    constexpr std::uint64_t kLimit = 100;
    const std::vector<std::uint64_t> asked{60, 30, 10, 500, 60, 60, 100, 1, 99, ~std::uint64_t{0}, 50, 50};
    const Shared shared;
    std::size_t ended = 0;
    work_side_by_side(
        asked.size(), {8, kLimit},
        [&](std::size_t number, const Turn& turn) {
            turn.wait_for_memory(asked[number]);
            const int working = ++shared->working;
            if (asked[number] > kLimit) {
                if (working != 1) shared->alone = false;
            } else {
                raise_to(shared->most_used, shared->used += asked[number]);
            }
            std::this_thread::sleep_for(50ms);
            if (asked[number] > kLimit && shared->working != 1) shared->alone = false;
            if (asked[number] <= kLimit) shared->used -= asked[number];
            --shared->working;
            return 0;
        },
        [&](std::size_t, const WorkerEnd& end) { ended += end.code == 0 && end.signal == 0; });
    EXPECT_EQ(ended, asked.size());
    EXPECT_LE(shared->most_used, kLimit);
    EXPECT_GT(shared->most_used, 60u) << "nothing ran side by side";
    EXPECT_TRUE(shared->alone);
}

TEST(Workers, OneThatCrashesTakesNobodyAlongAndKeepsItsLastWords) {
    std::vector<int> signals;
    std::string words;
    work_side_by_side(
        4, {2, 100},
        [](std::size_t number, const Turn& turn) {
            turn.wait_for_memory(100);
            std::cerr << number;
            if (number == 1) ::raise(SIGKILL);
            return 0;
        },
        [&](std::size_t, const WorkerEnd& end) {
            signals.push_back(end.signal);
            words += end.err;
        });
    EXPECT_THAT(signals, ElementsAre(0, SIGKILL, 0, 0));
    EXPECT_EQ(words, "0123");
}

TEST(Workers, AreSeenOffWhenTheirEndIsNotWanted) {
    const Shared shared;
    const auto work = [&](std::size_t number, const Turn&) {
        ++shared->working;
        std::this_thread::sleep_for(number == 0 ? 0s : 60s);
        return 0;
    };
    const auto done = [](std::size_t, const WorkerEnd&) { throw Error(Fault::io, "disk", "full"); };
    const auto before = Clock::now();
    EXPECT_THROW(work_side_by_side(3, {2, 100}, work, done), Error);
    EXPECT_LT(Clock::now() - before, 30s);
    EXPECT_EQ(::waitpid(-1, nullptr, WNOHANG), -1) << "a worker is left";
}

TEST(Workers, EndWithTheProcessThatStartedThem) {
    const Shared shared;
    ASSERT_EQ(::prctl(PR_SET_CHILD_SUBREAPER, 1), 0);  // orphans come to this process
    const pid_t starter = ::fork();
    if (starter == 0) {
        const auto sleep = [&](std::size_t, const Turn&) {
            ++shared->working;
            std::this_thread::sleep_for(60s);
            return 0;
        };
        work_side_by_side(1, {1, 100}, sleep, [](std::size_t, const WorkerEnd&) {});
        ::_exit(0);
    }
    while (shared->working == 0) std::this_thread::sleep_for(1ms);
    ASSERT_EQ(::kill(starter, SIGKILL), 0);
    ASSERT_EQ(::waitpid(starter, nullptr, 0), starter);
    int status = 0;
    EXPECT_GT(::waitpid(-1, &status, 0), 0);
    EXPECT_TRUE(WIFSIGNALED(status) && WTERMSIG(status) == SIGTERM);
}

TEST(Workers, NoWorkIsDoneAtOnce) {
    work_side_by_side(
        0, {2, 100}, [](std::size_t, const Turn&) { return 1; },
        [](std::size_t, const WorkerEnd&) { FAIL() << "nobody worked"; });
}

ino_t inode_of(const std::filesystem::path& path) {
    struct stat facts {};
    EXPECT_EQ(::stat(path.c_str(), &facts), 0);
    return facts.st_ino;
}

TEST(Interruption, OnlyWhatEndedProcessesLeftIsSweptUp) {
    const TestFolder folder;
    const pid_t ended = ::fork();
    if (ended == 0) ::_exit(0);
    ASSERT_EQ(::waitpid(ended, nullptr, 0), ended);
    const std::string theirs = std::to_string(ended), ours = std::to_string(::getpid());
    // As the program signs its files: with the process and with the file's own inode.
    const auto made = [&](const std::string& beginning, const std::string& ending) {
        const auto draft = folder / "draft";
        std::ofstream(draft) << "x";
        std::string name = beginning + std::to_string(inode_of(draft)) + ending;
        std::filesystem::rename(draft, folder / name);
        return name;
    };
    // Another's inode: the folder's, which no file made here can be given.
    const auto foreign = std::to_string(inode_of(folder / ""));
    const std::string kept[] = {made(".fogproof-" + ours + "-0-", ".tmp"),
                                made("fogproof-" + theirs + "-0-", ".tmp"),
                                ".fogproof-" + theirs + "-0-" + foreign + ".tmp",
                                made(".fogproof-" + theirs + "-0-", ".tif"),
                                made(".print.tif." + theirs + ".", ".tmp"),
                                ".print.tif." + theirs + ".0.tmp",
                                ".fogproof-" + theirs + "-0.tmp"};
    for (const auto& name : kept) std::ofstream(folder / name) << "x";
    made(".fogproof-" + theirs + "-0-", ".tmp");
    made(".fogproof-" + theirs + "-7-", ".tmp");
    sweep_leftovers(folder / "");
    std::vector<std::string> left;
    for (const auto& entry : std::filesystem::directory_iterator(folder / ""))
        left.push_back(entry.path().filename().string());
    EXPECT_THAT(left, testing::UnorderedElementsAreArray(kept));
}

}  // namespace
}  // namespace fogproof::tests
