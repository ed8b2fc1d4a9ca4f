// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What was typed, and what the settings of the darkroom gave instead: both end up as the value of an option.
#pragma once

#include <CLI/CLI.hpp>
#include <algorithm>
#include <initializer_list>
#include <iterator>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "base/words.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::cli {

class CommandLine {
  public:
    CommandLine() = default;
    explicit CommandLine(const CLI::App& verb) : verb_(&verb) {}

    /// Whether the words of this command give the option, "--callier".
    [[nodiscard]] bool gives(const char* option) const {
        const CLI::Option* found = verb_ ? verb_->get_option_no_throw(option) : nullptr;
        return found && found->count() > 0;
    }
    /// Whether the settings' value of an option does not count, since another option is typed that brings a
    /// value of its own for it: --head brings --callier.
    [[nodiscard]] bool is_overruled(const char* option, const char* by) const {
        return gives(by) && !gives(option);
    }
    /// The first of these that it gives.
    [[nodiscard]] std::optional<std::string> first_of(std::initializer_list<const char*> options) const {
        for (const char* option : options)
            if (gives(option)) return option;
        return std::nullopt;
    }
    /// Those of these that it gives.
    [[nodiscard]] std::vector<std::string> all_of(std::initializer_list<const char*> options) const {
        std::vector<std::string> given;
        std::ranges::copy_if(options, std::back_inserter(given),
                             [this](const char* option) { return gives(option); });
        return given;
    }

  private:
    const CLI::App* verb_ = nullptr;
};

/// "--a changes nothing here", "--a, --b change nothing here".
[[nodiscard]] inline std::string change_nothing(std::span<const std::string> options) {
    return listed(options) + (options.size() == 1 ? " changes" : " change") + " nothing here";
}

}  // namespace fogproof::cli
