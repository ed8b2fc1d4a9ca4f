// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// libvips is opened when it is first used, and the linker lets its functions open. What else is missing it
// would no longer tell, so that is looked for here.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <regex>
#include <sstream>
#include <string>
#include <vector>

#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::Each;
using testing::HasSubstr;
using testing::IsEmpty;

// What the dynamic linker finds nowhere, with such variables of the environment.
std::vector<std::string> open_symbols(const Program& in, const std::string& variables) {
    const auto answer = in.shell(variables + " ldd -r \"$FOGPROOF\" 2>&1");
    EXPECT_EQ(answer.code, 0) << answer.out;
    std::vector<std::string> found;
    std::istringstream lines(answer.out);
    static const std::regex kMissing(R"(undefined symbol: (\S+))");
    for (std::string line; std::getline(lines, line);)
        if (std::smatch match; std::regex_search(line, match, kMissing)) found.push_back(match[1]);
    return found;
}

TEST(OpenedLibrary, NothingIsLeftOpenButTheFunctionsOfLibvips) {
    const Program program;
    EXPECT_THAT(open_symbols(program, ""), Each(HasSubstr("vips")));
    EXPECT_THAT(open_symbols(program, "LD_PRELOAD=" FOGPROOF_VIPS_LIBRARY), IsEmpty());
}

}  // namespace
}  // namespace fogproof::tests
