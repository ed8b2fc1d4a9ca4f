// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Manual pages in man(7) macros, made from what --help knows.
#include <algorithm>
#include <filesystem>
#include <memory>

#include "base/version.hpp"
#include "cli/run_inputs.hpp"
#include "cli/verb_tree.hpp"
#include "cli/verb_words.hpp"
#include "cli/verbs.hpp"
#include "fogproof/base/error.hpp"
#include "report/reading_columns_words.hpp"
#include "system/input_file.hpp"
#include "system/output_folder.hpp"
#include "system/output_set.hpp"
#include "system/whole_file.hpp"

namespace fogproof::cli {
namespace {

namespace fs = std::filesystem;

// Backslashes, hyphens and quotes as roff wants them; a line must not begin with a control character.
std::string roff(const std::string& text) {
    std::string out;
    for (const char c : text) {
        if (c == '\\')
            out += "\\e";
        else if (c == '-')
            out += "\\-";
        else if (c == '"')
            out += "\\(dq";
        else
            out += c;
    }
    return !out.empty() && (out.front() == '.' || out.front() == '\'') ? "\\&" + out : out;
}

std::string name_of(const Verb& verb) {
    std::string name = "fogproof";
    for (const auto& word : verb.words) name += "-" + word;
    return name;
}

std::string called(const Verb& verb) {
    std::string words = "fogproof";
    for (const auto& word : verb.words) words += " " + word;
    return words;
}

const VerbWords& words_of(const Verb& verb) {
    const std::string words = called(verb);
    return words_of_verb(std::string_view(words).substr(
        words.find(' ') == std::string::npos ? words.size() : words.find(' ') + 1));
}

std::string description(const Verb& verb) {
    std::string text = ".SH DESCRIPTION\n";
    std::string_view left = words_of(verb).description;
    for (auto end = left.find("\n\n"); !left.empty(); end = left.find("\n\n")) {
        text += ".PP\n" + roff(std::string(left.substr(0, end))) + "\n";
        left = end == std::string_view::npos ? std::string_view{} : left.substr(end + 2);
    }
    return text;
}

std::string columns_of_readings(const Verb& verb) {
    if (!words_of(verb).tells_columns) return "";
    std::string text = ".SH READINGS\n" + roff(kReadingColumnsHead) + "\n";
    for (const auto& [name, meaning] : reading_columns_words())
        text += ".TP\n.B " + roff(name) + "\n" + roff(meaning) + "\n";
    return text;
}

std::string examples(const Verb& verb) {
    std::string text = ".SH EXAMPLES\nIn a folder with the demo (fogproof demo .):\n";
    for (const Example& example : words_of(verb).examples)
        text +=
            ".TP\n.B " + roff(std::string(example.command)) + "\n" + roff(std::string(example.what)) + "\n";
    return text;
}

std::string option_entry(const CLI::Option& option) {
    std::string heads;
    for (const auto& name : option.get_snames())
        heads += (heads.empty() ? "" : ", ") + ("\\fB\\-" + name + "\\fR");
    for (const auto& name : option.get_lnames())
        heads += (heads.empty() ? "" : ", ") + ("\\fB\\-\\-" + roff(name) + "\\fR");
    if (heads.empty()) heads = "\\fI" + roff(option.get_name(true)) + "\\fR";
    return ".TP\n" + heads + (takes_value(option) && !option.get_lnames().empty() ? " \\fIVALUE\\fR" : "") +
           "\n" + roff(option.get_description()) + (option.get_required() ? " (required)" : "") + "\n";
}

std::string page(const Verb& verb, const std::vector<Verb>& all) {
    const CLI::App& app = *verb.app;
    std::string about = app.get_description();
    if (!about.empty() && about.back() == '.') about.pop_back();
    std::string text = ".TH " + name_of(verb) + " 1 \"\" \"fogproof " + version() +
                       "\" \"Darkroom\"\n.SH NAME\n" + roff(name_of(verb)) + " \\- " + roff(about) +
                       "\n.SH SYNOPSIS\n.B " + called(verb) + "\n";
    const bool branches = !app.get_subcommands([](const CLI::App*) { return true; }).empty();
    text += branches ? "\\fIVERB\\fR [\\fIOPTION\\fR ...]\n" : "[\\fIOPTION\\fR ...]";
    for (const CLI::Option* option : app.get_options())
        if (option->get_lnames().empty() && option->get_snames().empty())
            text += " \\fI" + roff(option->get_name(true)) + "\\fR" +
                    (option->get_items_expected_max() > 1 ? " ..." : "");
    text += "\n" + description(verb);
    if (branches) {
        text += ".SH VERBS\n";
        for (const Verb& nested : all)
            if (nested.words.size() == verb.words.size() + 1 &&
                std::equal(verb.words.begin(), verb.words.end(), nested.words.begin()))
                text += ".TP\n.B " + nested.words.back() + "\n" + roff(nested.app->get_description()) + "\n";
    }
    std::vector<std::string> groups;
    for (const CLI::Option* option : app.get_options())
        if (std::ranges::find(groups, option->get_group()) == groups.end())
            groups.push_back(option->get_group());
    text += ".SH OPTIONS\n";
    for (const auto& group : groups) {
        if (group != "ManualOptions" && !group.empty()) text += ".SS " + roff(group) + "\n";
        for (const CLI::Option* option : app.get_options())
            if (option->get_group() == group) text += option_entry(*option);
    }
    return text + columns_of_readings(verb) + examples(verb) +
           ".SH EXIT STATUS\n0, or a code of sysexits.h: 64 command line, 65 content of an input, 66 input "
           "missing, "
           "69 something the machine lacks, 70 a defect, 73 output not to be made, 74 reading or writing "
           "failed, 78 a pack, recipe or settings that contradict themselves or are missing; 130 "
           "interrupted.\n"
           ".SH CAUTION\nPotassium ferricyanide, developers, fixers and toners are dangerous chemicals. Keep "
           "ferricyanide and sulphide toner away from acids. Wear gloves and eye protection, and have fresh "
           "air. Used baths go to collection. Labels, safety data sheets, local rules and licensed practice "
           "come before anything the program says.\n";
}

}  // namespace

void add_manual(CLI::App& program, const Console& console) {
    auto* verb = program.add_subcommand("manual", "write the manual pages, one for each command");
    const auto folder = std::make_shared<std::string>();
    const auto force = std::make_shared<bool>(false);
    verb->add_option("DIR", *folder, "folder to write into; made if it does not exist")->required();
    verb->add_flag("--force", *force, "replace existing files");
    verb->callback([folder, force, &program, &console] {
        const auto all = all_verbs(program);
        const auto replace = *force ? WholeFile::Replace::allowed : WholeFile::Replace::never;
        require_folder_can_be(*folder);
        const bool is_there = is_folder(*folder);
        RunFiles files = run_that_reads({});
        for (const Verb& one : all) {
            const fs::path target = fs::path(*folder) / (name_of(one) + ".1");
            files.writes(target, "the page " + name_of(one));
            if (is_there) WholeFile::refuse_unwritable(target, replace);
        }
        make_folder(*folder);
        OutputSet pages;
        for (const Verb& one : all)
            pages.write(fs::path(*folder) / (name_of(one) + ".1"), page(one, all), replace);
        pages.place();
        console.notes({std::to_string(all.size()) + " manual pages written"}, *folder);
    });
}

}  // namespace fogproof::cli
