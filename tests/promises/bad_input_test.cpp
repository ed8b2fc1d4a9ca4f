// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Every wrong turn we could think of, out of a table: what the program must say to it, with which exit code,
// and that nothing is left behind.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <algorithm>
#include <set>
#include <sstream>

#include "base/words.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/typed_files.hpp"
#include "support/wrong_files.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;
using testing::StartsWith;

constexpr std::size_t kFewestCases = 200;

struct Case {
    std::string name, made, words, typed;
    int code = 0;
    int lines = 1;  ///< of the message; readings tell all their faults in one go
};

std::vector<Case> cases() {
    std::istringstream table(
        content_of(std::filesystem::path(FOGPROOF_SOURCE_DIR) / "tests/reference/bad_input.txt"));
    std::vector<Case> all;
    for (std::string line; std::getline(table, line);) {
        if (line.empty() || line.starts_with('#')) continue;
        const auto parts = split(line, '|');
        if (parts.size() != 5) throw std::invalid_argument(line);
        const auto part = [&](int i) { return std::string(trimmed(parts[std::size_t(i)])); };
        Case each{part(0), part(1), part(3), part(4), 0, 1};
        const auto code = split(part(2), 'x');
        each.code = std::stoi(code[0]);
        if (code.size() > 1) each.lines = std::stoi(code[1]);
        all.push_back(each);
    }
    return all;
}

/// Away with what a case has left, so that the next one does not meet it.
void clean(const Program& program, const std::map<std::string, std::string>& contents) {
    std::set<std::filesystem::path> wanted;
    for (const auto& [name, content] : contents) wanted.insert((program / name).lexically_normal());
    std::vector<std::filesystem::path> strangers;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(program / ""))
        if (!wanted.contains(entry.path()) && !wanted.contains(entry.path() / ""))
            strangers.push_back(entry.path());
    for (const auto& path : strangers) std::filesystem::remove_all(path);
}

/// Names, sizes, inodes and times of change: enough to see that something was touched.
std::string listing(const std::filesystem::path& folder) {
    std::set<std::string> lines;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(
             folder, std::filesystem::directory_options::skip_permission_denied)) {
        struct stat facts {};
        ::lstat(entry.path().c_str(), &facts);
        std::ostringstream line;
        line << entry.path().string() << ' ' << facts.st_ino;
        if (!S_ISDIR(facts.st_mode))
            line << ' ' << facts.st_size << ' ' << facts.st_mtim.tv_sec << ' ' << facts.st_mtim.tv_nsec;
        lines.insert(line.str());
    }
    std::string text;
    for (const auto& line : lines) text += line + "\n";
    return text;
}

// A share of the table, so that several can run at once.
class BadInput : public testing::TestWithParam<std::size_t> {};
constexpr std::size_t kRowShares = 4;

TEST(BadInputTable, HoldsEnoughCasesEachOfItsOwnName) {
    const auto table = cases();
    EXPECT_GE(table.size(), kFewestCases);
    std::set<std::string> names;
    for (const auto& each : table) EXPECT_TRUE(names.insert(each.name).second) << each.name;
}

TEST_P(BadInput, EndsWithOneLineItsExitCodeAndNothingLeftBehind) {
    const Program program;
    make_typed_files(program);
    program.let_anybody_in();
    const auto contents = program.files();
    const auto table = cases();
    for (std::size_t at = GetParam(); at < table.size(); at += kRowShares) {
        const Case& each = table[at];
        SCOPED_TRACE(each.name + " | " + each.made + " | " + each.typed);
        if (HasFailure()) clean(program, contents);
        const WrongFile wrong(program, each.made);
        const std::string before = listing(program / "");
        const std::string typed = "--quiet " + each.typed;
        const auto answer = wrong.needs_plain_rights() ? program.run_as_anybody(typed) : program.run(typed);
        EXPECT_EQ(answer.code, each.code) << answer.err;
        for (const auto& words : split(each.words, '&'))
            EXPECT_THAT(answer.err, HasSubstr(std::string(trimmed(words))));
        EXPECT_THAT(answer.err, StartsWith("fogproof: "));
        EXPECT_EQ(std::ranges::count(answer.err, '\n'), each.lines) << answer.err;
        EXPECT_TRUE(answer.err.ends_with('\n'));
        // A place, what was found there, and what is allowed instead.
        EXPECT_THAT(answer.err.substr(std::min<std::size_t>(10, answer.err.size())), HasSubstr(": "));
        EXPECT_THAT(answer.err, HasSubstr("; "));
        EXPECT_EQ(answer.out, "");
        EXPECT_EQ(listing(program / ""), before) << "left something behind or changed an input";
    }
    EXPECT_TRUE(program.files() == contents);
}

INSTANTIATE_TEST_SUITE_P(Share, BadInput, testing::Range<std::size_t>(0, kRowShares));

}  // namespace
}  // namespace fogproof::tests
