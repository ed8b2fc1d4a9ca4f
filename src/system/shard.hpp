// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A long list of scans: read off a file, and cut into parts that several machines work through.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

/// One path a line, relative to the list's own folder; blank lines and lines that begin with # are left out.
/// Throws Error(Fault::no_input) for a list that cannot be read, Error(Fault::data) for one without a path.
[[nodiscard]] std::vector<std::string> listed_paths(const std::filesystem::path& list);

/// The K-th of N parts of a list. Its members are dealt out in turn, so parts differ by at most one and a
/// run of large scans is spread over all of them; which part a scan is in depends on its place alone.
struct Shard {
    std::size_t number = 1, of = 1;

    /// "K/N" with K from 1 to N; Error(Fault::usage) otherwise.
    [[nodiscard]] static Shard in(std::string_view text, std::string_view place);
    [[nodiscard]] bool is_all() const { return of == 1; }
    [[nodiscard]] std::vector<std::string> part(const std::vector<std::string>& list) const;
};

}  // namespace fogproof::system
