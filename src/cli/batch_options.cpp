// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/batch_options.hpp"

#include <filesystem>
#include <set>

#include "cli/choice.hpp"

namespace fogproof::cli {
namespace {

constexpr int kMostJobs = 256;
constexpr double kBytesInMb = 1e6;

}  // namespace

void BatchOptions::add_to(CLI::App& app) {
    app.add_option("NEG", named, "scanned negatives or digital pictures");
    const std::string group = "Many negatives";
    app.add_option("--list", list,
                   "a text file with one scan on each line, its path relative to that file; # at the start "
                   "of a line or after "
                   "a blank begins a "
                   "remark")
        ->group(group);
    app.add_option("--shard", shard, "K/N: divide the negatives into N parts and work on part K only")
        ->group(group);
    app.add_option("--jobs", jobs, "how many negatives to work on at once [as many as processors]")
        ->group(group);
    app.add_option("--memory", memory_mb,
                   "MB for all of them together; a negative that needs more waits until it is alone "
                   "[half of the machine's]")
        ->group(group);
    app.add_option("--time-limit", seconds, "seconds allowed for each of several negatives [1200]")
        ->group(group);
}

std::vector<std::string> BatchOptions::all() const {
    std::vector<std::string> scans = named;
    if (!list.empty())
        for (auto& path : listed_paths(list)) scans.push_back(std::move(path));
    if (scans.empty()) throw Error(Fault::usage, "NEG", "no negative is named", "scans, or --list FILE");
    std::set<std::string> names;
    for (const auto& scan : scans)
        if (!names.insert(std::filesystem::path(scan).stem().string()).second)
            throw Error(Fault::usage, scan, "a second negative of this name",
                        "negatives of different names for one folder");
    return scans;
}

Shard BatchOptions::part() const {
    return shard.empty() ? Shard{} : Shard::in(shard, "--shard");
}

WorkLimits BatchOptions::limits() const {
    WorkLimits limits = usual_work_limits();
    if (jobs) limits.jobs = std::size_t(within(*jobs, 1, kMostJobs, "--jobs"));
    if (memory_mb) limits.memory = std::uint64_t(within(*memory_mb, 1, 1e9, "--memory") * kBytesInMb);
    if (seconds) limits.seconds = within(*seconds, 0.001, 1e6, "--time-limit");
    return limits;
}

}  // namespace fogproof::cli
