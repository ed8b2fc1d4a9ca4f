// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The verbs and options as the command line knows them, for whatever is written about them: completion,
// manual.
#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <string>
#include <vector>

#include "fogproof/rooms.hpp"

namespace fogproof::cli {

struct Verb {
    std::vector<std::string> words;  ///< "pack", "fit"; none for the program itself
    const CLI::App* app;
};

/// The program and all its verbs, a verb before those nested in it.
[[nodiscard]] inline std::vector<Verb> all_verbs(const CLI::App& program) {
    std::vector<Verb> verbs{{{}, &program}};
    const std::function<void(Verb)> add_nested = [&](const Verb& verb) {
        for (const CLI::App* app : verb.app->get_subcommands([](const CLI::App*) { return true; })) {
            Verb nested{verb.words, app};
            nested.words.push_back(app->get_name());
            verbs.push_back(nested);
            add_nested(nested);
        }
    };
    add_nested(verbs.front());
    return verbs;
}

/// An option takes a value, a flag does not.
[[nodiscard]] inline bool takes_value(const CLI::Option& option) {
    return option.get_items_expected_max() > 0;
}

}  // namespace fogproof::cli
