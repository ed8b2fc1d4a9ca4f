// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Whatever is promised is listed once, with the tests that ask the program for it (reference/promises.txt):
// so that a promise without a test shows. Options are counted by the program's own help, README's promises by
// its sentences.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "base/words.hpp"
#include "support/folded.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

namespace fs = std::filesystem;

const fs::path kSource = FOGPROOF_SOURCE_DIR;
const std::string kNothing = "nothing promised";

struct Promise {
    int line;
    std::string where, what;
    std::vector<std::string> tests;
};

std::vector<Promise> promises() {
    std::ifstream file(kSource / "tests/reference/promises.txt");
    std::vector<Promise> all;
    int number = 0;
    for (std::string line; std::getline(file, line);) {
        ++number;
        if (line.empty() || line.front() == '#') continue;
        const auto fields = split(line, '|');
        if (fields.size() != 3) {
            ADD_FAILURE() << "line " << number << ": WHERE | WHAT | TESTS";
            continue;
        }
        Promise promise{number, folded(fields[0]), folded(fields[1]), {}};
        std::istringstream tests(fields[2]);
        if (folded(fields[2]) != kNothing)
            for (std::string test; tests >> test;) promise.tests.push_back(test);
        all.push_back(std::move(promise));
    }
    return all;
}

// Every test of the suite with its words.
std::map<std::string, std::string> tests_of_the_suite() {
    std::map<std::string, std::string> tests;
    const std::regex head(R"(^TEST(?:_F|_P)?\((\w+),\s*(\w+)\))");
    for (const auto& entry : fs::recursive_directory_iterator(kSource / "tests")) {
        if (!entry.path().string().ends_with("_test.cpp")) continue;
        std::ifstream file(entry.path());
        std::string name;
        for (std::string line; std::getline(file, line);) {
            std::smatch found;
            if (std::regex_search(line, found, head)) name = found[1].str() + "." + found[2].str();
            if (!name.empty()) tests[name] += line + "\n";
        }
    }
    // The browser's tests are one script, and so are those of the package.
    tests["pages.mjs"] = content_of(kSource / "tests/page/pages.mjs");
    tests["package.sh"] = content_of(kSource / "tests/package.sh");
    return tests;
}

bool names(const std::string& text, const std::string& option) {
    for (auto at = text.find(option); at != std::string::npos; at = text.find(option, at + 1)) {
        const char after = at + option.size() < text.size() ? text[at + option.size()] : ' ';
        if (after != '-' && !std::isalnum(static_cast<unsigned char>(after))) return true;
    }
    return false;
}

std::vector<std::string> verbs_in(const std::string& help) {
    std::vector<std::string> verbs;
    std::istringstream lines(help);
    bool listed = false;
    for (std::string line; std::getline(lines, line);) {
        if (line.starts_with("Examples")) break;
        if (listed && line.starts_with("  ")) verbs.push_back(line.substr(2, line.find(' ', 2) - 2));
        if (line.starts_with("Subcommands")) listed = true;
    }
    return verbs;
}

std::set<std::string> options_in(const std::string& help) {
    std::set<std::string> options;
    const std::regex option(R"(^  (?:-\w,)?(--[a-z][a-z-]*))");
    std::istringstream lines(help);
    for (std::string line; std::getline(lines, line);) {
        std::smatch found;
        if (std::regex_search(line, found, option)) options.insert(found[1]);
    }
    return options;
}

TEST(Promises, EachNamesTestsThatThereAre) {
    const auto tests = tests_of_the_suite();
    for (const Promise& promise : promises())
        for (const std::string& test : promise.tests)
            EXPECT_TRUE(tests.contains(test)) << "line " << promise.line << ": there is no test " << test;
}

TEST(Promises, EveryOptionOfEveryVerbHasATestThatGivesIt) {
    const Program program;
    std::map<std::string, std::set<std::string>> tested;  // options by verb
    const auto tests = tests_of_the_suite();
    for (const Promise& promise : promises()) {
        if (!promise.where.starts_with("option ")) continue;
        for (const auto& verb : split(promise.where.substr(7), ','))
            tested[folded(verb)].insert(promise.what);
        EXPECT_FALSE(promise.tests.empty()) << "line " << promise.line;
        for (const auto& test : promise.tests)
            if (tests.contains(test)) {
                EXPECT_TRUE(names(tests.at(test), promise.what))
                    << "line " << promise.line << ": " << test << " never says " << promise.what;
            }
    }
    std::vector<std::string> verbs{""};
    for (const auto& verb : verbs_in(program.run("--help").out)) {
        verbs.push_back(verb);
        for (const auto& below : verbs_in(program.run(verb + " --help").out))
            verbs.push_back(verb + " " + below);
    }
    EXPECT_GE(verbs.size(), 14U);
    for (const auto& verb : verbs) {
        const std::string name = verb.empty() ? "all" : verb;
        const auto options = options_in(program.run(verb + " --help").out);
        EXPECT_FALSE(options.empty()) << verb;
        for (const auto& option : options)
            EXPECT_TRUE(option == "--help" || tested[name].contains(option))
                << "reference/promises.txt has no row \"option " << name << " | " << option << " | TEST\"";
        for (const auto& option : tested[name])
            EXPECT_TRUE(options.contains(option)) << name << " has no option " << option;
    }
}

void add_sentences(const std::string& paragraph, std::vector<std::string>& sentences) {
    const std::string text = folded(paragraph) + " ";
    std::size_t from = 0;
    for (std::size_t at = 0; at + 1 < text.size(); ++at)
        if ((text[at] == '.' || text[at] == '?' || text[at] == '!') && text[at + 1] == ' ') {
            sentences.push_back(text.substr(from, at + 1 - from));
            from = at + 2;
        }
    if (from < text.size()) sentences.push_back(folded(text.substr(from)));
    std::erase(sentences, "");
}

// README's prose in sentences; headings, tables, pictures and indented commands aside.
std::vector<std::string> sentences_of_readme() {
    std::ifstream file(kSource / "README.md");
    std::vector<std::string> sentences;
    std::string paragraph;
    const auto close = [&] {
        add_sentences(paragraph, sentences);
        paragraph.clear();
    };
    for (std::string line; std::getline(file, line);) {
        const bool prose = !line.empty() && !line.starts_with("#") && !line.starts_with("|") &&
                           !line.starts_with("!") && !line.starts_with("    ");
        if (prose)
            paragraph += line + " ";
        else
            close();
    }
    close();
    return sentences;
}

// What the manual's pages describe, beyond their lists of options.
std::vector<std::string> sentences_of_manual() {
    const Program program;
    std::vector<std::string> sentences;
    fs::create_directory(program / "man");
    EXPECT_EQ(program.run("manual man").code, 0);
    for (const auto& entry : fs::directory_iterator(program / "man")) {
        std::string page = content_of(entry.path());
        std::erase(page, '\\');
        std::istringstream lines(page);
        bool is_description = false;
        for (std::string line; std::getline(lines, line);)
            if (line.starts_with(".SH"))
                is_description = line == ".SH DESCRIPTION";
            else if (is_description && line != ".PP")
                add_sentences(line, sentences);
    }
    return sentences;
}

void expect_rows_for(const std::vector<std::string>& sentences, const std::string& where) {
    std::vector<Promise> rows;
    for (const Promise& promise : promises())
        if (promise.where == where) rows.push_back(promise);
    std::set<int> used;
    for (const std::string& sentence : sentences) {
        bool found = false;
        for (const Promise& row : rows)
            if (sentence.find(row.what) != std::string::npos) found = true, used.insert(row.line);
        EXPECT_TRUE(found) << "reference/promises.txt has no row \"" << where << " | ...\" for: " << sentence;
    }
    for (const Promise& row : rows)
        EXPECT_TRUE(used.contains(row.line))
            << "line " << row.line << ": " << where << " no longer says: " << row.what;
}

TEST(Promises, EverySentenceOfReadmeIsHeldByATestOrPromisesNothing) {
    expect_rows_for(sentences_of_readme(), "README");
}

TEST(Promises, EverySentenceOfTheManualIsHeldByATestOrPromisesNothing) {
    const auto sentences = sentences_of_manual();
    EXPECT_GT(sentences.size(), 40u);
    expect_rows_for(sentences, "manual");
}

}  // namespace
}  // namespace fogproof::tests
