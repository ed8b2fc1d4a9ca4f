// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Completion scripts for shells, made from the verbs and options themselves.
#include <algorithm>
#include <iostream>
#include <memory>

#include "cli/choice.hpp"
#include "cli/verb_tree.hpp"
#include "cli/verbs.hpp"

namespace fogproof::cli {
namespace {

std::string joined(const std::vector<std::string>& words, const std::string& between) {
    std::string text;
    for (const auto& word : words) text += (text.empty() ? "" : between) + word;
    return text;
}

std::vector<std::string> nested_in(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::App* nested : app.get_subcommands([](const CLI::App*) { return true; }))
        names.push_back(nested->get_name());
    return names;
}

std::vector<std::string> long_options(const CLI::App& app) {
    std::vector<std::string> names;
    for (const CLI::Option* option : app.get_options())
        for (const auto& name : option->get_lnames()) names.push_back("--" + name);
    return names;
}

// Text inside single quotes of a shell, a quote by the way round that all three know.
std::string quoted(const std::string& text) {
    std::string out = "'";
    for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
    return out + "'";
}

// Names of files are left to the shell itself, which alone knows how to quote their blanks.
std::string in_bash(const CLI::App& program) {
    std::string cases;
    for (const Verb& verb : all_verbs(program))
        cases += "    '" + joined(verb.words, " ") + "') verbs='" + joined(nested_in(*verb.app), " ") +
                 "' options='" + joined(long_options(*verb.app), " ") + "' ;;\n";
    return "# Source this file, or put it where bash-completion looks.\n"
           "_fogproof() {\n"
           "  local word=${COMP_WORDS[COMP_CWORD]} verb='' verbs='' options='' i\n"
           "  for ((i = 1; i < COMP_CWORD; i++)); do\n"
           "    case ${COMP_WORDS[i]} in\n"
           "      -*) ;;\n"
           "      " +
           joined(nested_in(program), "|") +
           ") [ -z \"$verb\" ] && verb=${COMP_WORDS[i]} ;;\n"
           "      *) case \"$verb ${COMP_WORDS[i]}\" in\n"
           "           " +
           [&] {
               std::vector<std::string> deeper;
               for (const Verb& verb : all_verbs(program))
                   if (verb.words.size() == 2) deeper.push_back("'" + joined(verb.words, " ") + "'");
               return joined(deeper, "|");
           }() +
           ") verb+=\" ${COMP_WORDS[i]}\" ;;\n"
           "         esac ;;\n"
           "    esac\n"
           "  done\n"
           "  case $verb in\n" +
           cases +
           "  esac\n"
           "  [ \"${word:0:1}\" = - ] && verbs=$options\n"
           "  COMPREPLY=($(compgen -W \"$verbs\" -- \"$word\"))\n"
           "}\n"
           "complete -o default -F _fogproof fogproof\n";
}

std::string in_zsh(const CLI::App& program) {
    std::string text =
        "#compdef fogproof\n"
        "# Put this as _fogproof into a folder of $fpath.\n"
        "_fogproof() {\n"
        "  local verb=${words[2]}\n"
        "  [[ $verb = pack && CURRENT -gt 3 ]] && verb=\"pack ${words[3]}\"\n"
        "  case $verb in\n";
    for (const Verb& verb : all_verbs(program)) {
        if (verb.words.empty()) continue;
        text += "    " + quoted(joined(verb.words, " ")) + ")\n      _arguments";
        if (const auto nested = nested_in(*verb.app); !nested.empty())
            text += " '2:verb:(" + joined(nested, " ") + ")'";
        for (const CLI::Option* option : verb.app->get_options())
            for (const auto& name : option->get_lnames()) {
                std::string about = option->get_description();
                std::ranges::replace(about, '[', '(');
                std::ranges::replace(about, ']', ')');
                std::ranges::replace(about, ':', ',');
                text += " \\\n        " + quoted("--" + name + "[" + about + "]" +
                                                 (takes_value(*option) ? ":value:_files" : ""));
            }
        text += " '*:file:_files' ;;\n";
    }
    return text + "    *) _values verb " + joined(nested_in(program), " ") +
           " ;;\n"
           "  esac\n"
           "}\n"
           "_fogproof \"$@\"\n";
}

std::string in_fish(const CLI::App& program) {
    std::string text = "# Put this as fogproof.fish into ~/.config/fish/completions.\n";
    const std::string all = joined(nested_in(program), " ");
    for (const Verb& verb : all_verbs(program)) {
        if (verb.words.empty()) continue;
        const bool nested = verb.words.size() > 1;
        text += "complete -c fogproof -n '" +
                (nested ? "__fish_seen_subcommand_from " + verb.words.front()
                        : "not __fish_seen_subcommand_from " + all) +
                "' -a " + verb.words.back() + " -d " + quoted(verb.app->get_description()) + "\n";
        for (const CLI::Option* option : verb.app->get_options())
            for (const auto& name : option->get_lnames())
                text += "complete -c fogproof -n '__fish_seen_subcommand_from " + verb.words.back() +
                        "' -l " + name + (takes_value(*option) ? " -r" : "") + " -d " +
                        quoted(option->get_description()) + "\n";
    }
    return text;
}

}  // namespace

void add_completion(CLI::App& program, const Console&) {
    auto* verb = program.add_subcommand(
        "completion", "print a script with which bash, zsh or fish completes commands and options");
    const auto shell = std::make_shared<std::string>();
    verb->add_option("SHELL", *shell, "bash, zsh or fish")->required();
    verb->callback([shell, &program] {
        using Writer = std::string (*)(const CLI::App&);
        const auto writer =
            choice<Writer>({{"bash", in_bash}, {"zsh", in_zsh}, {"fish", in_fish}}, *shell, "completion");
        std::cout << writer(program);
    });
}

}  // namespace fogproof::cli
