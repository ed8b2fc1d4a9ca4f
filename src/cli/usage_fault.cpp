// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/usage_fault.hpp"

#include <algorithm>
#include <vector>

#include "fogproof/base/words.hpp"

namespace fogproof::cli {
namespace {

const CLI::App& innermost(const CLI::App& app) {
    const auto called = app.get_subcommands();
    return called.empty() ? app : innermost(*called.front());
}

std::vector<std::string> verbs_of(const CLI::App& app) {
    std::vector<std::string> verbs;
    for (const auto* verb : app.get_subcommands([](const CLI::App*) { return true; }))
        verbs.push_back(verb->get_name());
    return verbs;
}

std::vector<std::string> known_words(const CLI::App& app) {
    std::vector<std::string> words = verbs_of(app);
    for (const auto* option : app.get_options())
        for (const auto& name : option->get_lnames()) words.push_back("--" + name);
    return words;
}

}  // namespace

std::string usage_fault(const CLI::App& program, const CLI::ParseError& fault) {
    const CLI::App& app = innermost(program);
    const std::string verb = &app == &program ? "" : app.get_name();
    const std::string place = verb.empty() ? "" : verb + ": ";
    // A word nobody knows is the likelier slip than what is missing because of it.
    if (const auto strangers = program.remaining(true); !strangers.empty()) {
        const std::string word = strangers.front().substr(0, strangers.front().find('='));
        const auto near = nearest_word(word, known_words(app));
        return place + "unknown word \"" + word + "\"" + (near ? ", perhaps " + *near : "") +
               "; see fogproof " + verb + (verb.empty() ? "" : " ") + "--help";
    }
    const auto verbs = verbs_of(app);
    if (!verbs.empty() && app.get_subcommands().empty()) return place + "a verb is missing; " + listed(verbs);
    std::string what = fault.what();
    std::ranges::replace(what, '\n', ' ');
    return place + what;
}

}  // namespace fogproof::cli
