// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/usage_fault.hpp"

#include <algorithm>
#include <optional>
#include <vector>

#include "base/markup.hpp"
#include "base/words.hpp"

namespace fogproof::cli {
namespace {

constexpr std::size_t kLongest = 800;  // bytes; the words that were typed stand in it

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

std::string lower_case(std::string word) {
    for (char& c : word)
        if (c >= 'A' && c <= 'Z') c = char(c - 'A' + 'a');
    return word;
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

std::string value_of(const CLI::App& app, const std::string& option) {
    const auto* const found = app.get_option_no_throw(option);
    if (found == nullptr || found->get_items_expected_max() == 0) return "no value";
    return found->get_type_name() == "FLOAT" ? "a number, as 2 or 2.5" : "a whole number";
}

// What CLI11 says, as found and allowed; its wording is that of version 2.1 to 2.3.
std::string in_our_words(const CLI::App& app, const CLI::ParseError& fault) {
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
        const std::string named = rest->substr(0, equals),
                          value = equals == std::string::npos ? std::string() : rest->substr(equals + 3);
        return named + ": \"" + value + "\" does not fit; expected: " + value_of(app, named);
    }
    if (kind == "ValidationError") return said;  // in our words already: typed_values.cpp
    if (kind == "RequiredError") return option + ": is missing; it is required";
    if (said.ends_with("missing")) return option + ": has no value; it is followed by one";
    if (const auto most = after(": At Most "))
        return option + ": is given " + said.substr(said.rfind(' ') + 1) + " times; at most " +
               most->substr(0, most->find(' '));
    if (const auto other = after(" excludes "))
        return option + ": cannot go together with " + *other + "; give one of the two";
    if (kind == "ArgumentMismatch") return option + ": has a value; it stands alone";
    return option + ": " + said + "; see --help";
}

std::string told(const CLI::App& program, const CLI::ParseError& fault) {
    const CLI::App& app = innermost(program);
    const std::string verb = typed_verb(program), place = verb.empty() ? "" : verb + ": ",
                      help = "fogproof " + verb + (verb.empty() ? "" : " ") + "--help";
    const auto verbs = verbs_of(app);
    const bool wants_verb = !verbs.empty() && app.get_subcommands().empty();
    // A word nobody knows is the likelier slip than what is missing because of it.
    auto strangers = program.remaining(true);
    std::erase(strangers, "--");  // which CLI11 leaves there although it has done what it asks
    if (!strangers.empty()) {
        const std::string word = strangers.front().substr(0, strangers.front().find('='));
        const auto known = known_words(app);
        auto near = nearest_word(word, known);
        if (!near) near = nearest_word(lower_case(word), known);
        return (wants_verb && !word.starts_with('-') ? place + "verb: " : place + "words: ") +
               "unknown word \"" + word + "\"" + (near ? ", perhaps " + *near : "") + "; " +
               (wants_verb && !word.starts_with('-') ? "expected: " + listed(verbs) + "; " : "") + "see " +
               help;
    }
    if (wants_verb) return place + "verb: a verb is missing; expected: " + listed(verbs);
    return place + in_our_words(app, fault);
}

}  // namespace

std::string usage_fault(const CLI::App& program, const CLI::ParseError& fault) {
    return shortened(plain_line(told(program, fault)), kLongest);
}

}  // namespace fogproof::cli
