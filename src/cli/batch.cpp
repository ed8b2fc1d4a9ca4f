// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/batch.hpp"

#include <csignal>
#include <cstring>
#include <iostream>

#include "base/words.hpp"
#include "cli/ending.hpp"
#include "cli/progress_line.hpp"
#include "picture/picture_libraries.hpp"
#include "scan/scan_memory.hpp"
#include "system/interruption.hpp"
#include "system/progress.hpp"

namespace fogproof::cli {
namespace {

constexpr std::size_t kMostNamed = 8;

// The fault of a worker that could not even say what went wrong.
Error ended_by(int signal, const std::string& scan) {
    if (signal == SIGKILL)
        return Error(Fault::unavailable, scan, "was stopped by the system, perhaps because memory ran out",
                     "fewer --jobs or less --memory");
    return Error(Fault::internal, scan, std::string("internal defect: ended by ") + ::strsignal(signal));
}

Error stopped_after(double seconds, const std::string& scan) {
    return Error(Fault::unavailable, scan,
                 "was stopped after " + decimal(seconds, 3) + " s, the limit for one of several negatives",
                 "a larger --time-limit");
}

std::string in_words(const std::vector<std::string>& failed, std::size_t all) {
    std::vector<std::string> named(failed.begin(), failed.begin() + std::min(failed.size(), kMostNamed));
    if (named.size() < failed.size()) named.push_back("...");
    return std::to_string(failed.size()) + " of " + std::to_string(all) + " failed: " + listed(named);
}

}  // namespace

std::optional<Error> worked_through(const Batch& batch, const WorkLimits& limits) {
    if (batch.scans.size() == 1) {
        batch.take(batch.work(batch.scans.front()));
        return std::nullopt;
    }
    const auto work = [&](std::size_t number, const Turn& turn) {
        return ending_of([&] {
            turn.wait_for_memory(memory_to_read(batch.scans[number]));
            std::cout << batch.work(batch.scans[number]);
            return 0;
        });
    };
    imaging_ready();
    std::optional<Fault> first;
    std::vector<std::string> failed;
    WorkSteps steps(batch.verb + " of " + std::to_string(batch.scans.size()) + " negatives",
                    batch.scans.size());
    const auto done = [&](std::size_t number, const WorkerEnd& end) {
        const std::string& scan = batch.scans[number];
        steps.done();
        if (!end.err.empty()) erase_progress();
        std::cerr << end.err;
        if (end.code == 0 && end.signal == 0) return batch.take(end.out);
        Fault fault = Fault(end.code);
        if (end.signal != 0) {
            const Error error =
                end.is_late ? stopped_after(limits.seconds, scan) : ended_by(end.signal, scan);
            Console::fault(error.what());
            fault = error.fault();
            if (!batch.folder.empty()) sweep_leftovers(batch.folder);
        }
        if (!first) first = fault;
        failed.push_back(std::filesystem::path(scan).filename().string());
    };
    work_side_by_side(batch.scans.size(), limits, work, done);
    if (!first) return std::nullopt;
    return Error(*first, batch.verb, "not all negatives could be " + batch.done_word,
                 Advice{in_words(failed, batch.scans.size())});
}

}  // namespace fogproof::cli
