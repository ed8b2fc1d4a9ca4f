// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/usage_fault.hpp"

#include <algorithm>
#include <optional>
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

// "pack show", the verb as it is typed.
std::string typed_verb(const CLI::App& program) {
    std::string words;
    for (const CLI::App* app = &program; !app->get_subcommands().empty();) {
        app = app->get_subcommands().front();
        words.append(words.empty() ? "" : " ").append(app->get_name());
    }
    return words;
}

// What CLI11 says, as found and allowed; its wording is that of version 2.1 to 2.3.
std::string in_our_words(const CLI::ParseError& fault) {
    std::string said = fault.what();
    std::ranges::replace(said, '\n', ' ');
    const std::string kind = fault.get_name(), option = said.substr(0, said.find_first_of(" :"));
    const auto after = [&](std::string_view words) -> std::optional<std::string> {
        const auto at = said.find(words);
        if (at == std::string::npos) return std::nullopt;
        return said.substr(at + words.size());
    };
    if (const auto rest = after("Could not convert: ")) {
        const auto equals = rest->find(" = ");
        return rest->substr(0, equals) + ": \"" + rest->substr(std::min(equals + 3, rest->size())) +
               "\" does not fit; a number, a decimal point in it at most";
    }
    if (kind == "RequiredError") return option + ": is missing; it is required";
    if (said.ends_with("missing")) return option + ": has no value; it is followed by one";
    if (const auto most = after(": At Most "))
        return option + ": is given " + said.substr(said.rfind(' ') + 1) + " times; at most " +
               most->substr(0, most->find(' '));
    if (const auto other = after(" excludes "))
        return option + ": together with " + *other + "; one of the two";
    if (kind == "ArgumentMismatch") return option + ": has a value; it stands alone";
    return option + ": " + said + "; see --help";
}

}  // namespace

std::string usage_fault(const CLI::App& program, const CLI::ParseError& fault) {
    const CLI::App& app = innermost(program);
    const std::string verb = typed_verb(program), place = verb.empty() ? "" : verb + ": ",
                      help = "fogproof " + verb + (verb.empty() ? "" : " ") + "--help";
    const auto verbs = verbs_of(app);
    const bool wants_verb = !verbs.empty() && app.get_subcommands().empty();
    // A word nobody knows is the likelier slip than what is missing because of it.
    if (const auto strangers = program.remaining(true); !strangers.empty()) {
        const std::string word = strangers.front().substr(0, strangers.front().find('='));
        const auto near = nearest_word(word, known_words(app));
        return (wants_verb && !word.starts_with('-') ? place + "verb: " : place + "words: ") +
               "unknown word \"" + word + "\"" + (near ? ", perhaps " + *near : "") + "; " +
               (wants_verb && !word.starts_with('-') ? listed(verbs) + "; " : "") + "see " + help;
    }
    if (wants_verb) return place + "verb: a verb is missing; " + listed(verbs);
    return place + in_our_words(fault);
}

}  // namespace fogproof::cli
