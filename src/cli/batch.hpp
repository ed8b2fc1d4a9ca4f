// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The same work on many negatives, side by side, told as if it were done one after the other.
#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "cli/console.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/rooms.hpp"
#include "system/workers.hpp"

namespace fogproof::cli {

struct Batch {
    std::string verb, done_word;                               ///< "print", "printed"
    std::vector<std::string> scans;                            ///< in the order in which they are told of
    std::filesystem::path folder;                              ///< they write to; empty for none
    std::function<std::string(const std::string& scan)> work;  ///< its result as bytes
    std::function<void(const std::string& result)> take;       ///< in order, of those that succeed
};

/// Works through the batch; a negative alone in this very process, whose error is then thrown. Of several,
/// one bad one does not keep the others from it: what each has to say appears in their order, and the answer
/// is an error with the first fault's code that names those that failed.
[[nodiscard]] std::optional<Error> worked_through(const Batch&, const WorkLimits&);

}  // namespace fogproof::cli
