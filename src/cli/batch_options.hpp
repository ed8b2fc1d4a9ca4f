// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Which negatives a command takes, and how many of them at once.
#pragma once

#include <CLI/CLI.hpp>
#include <optional>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"
#include "system/shard.hpp"
#include "system/workers.hpp"

namespace fogproof::cli {

struct BatchOptions {
    std::vector<std::string> named;
    std::string list, shard;
    std::optional<int> jobs;
    std::optional<double> memory_mb, seconds;

    void add_to(CLI::App&);
    /// Those on the command line, then those of the list. Refuses two of one name, whose outputs would be
    /// the same, even where the shards would keep them apart.
    [[nodiscard]] std::vector<std::string> all() const;
    /// Everything unless a part was asked for.
    [[nodiscard]] Shard part() const;
    [[nodiscard]] WorkLimits limits() const;
};

}  // namespace fogproof::cli
