// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Every test that runs the program asks whether the inputs are kept: the fixture that runs it does, and there
// is no other way. What is asked is our own; no source.
#include <gmock/gmock.h>
#include <gtest/gtest-spi.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <regex>
#include <string>

#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

namespace fs = std::filesystem;

// What gtest runs to see it fail may name nothing local.
const Program& program() {
    static const Program only;
    only.let_anybody_in();
    only.write("scan.tif", "kept");
    only.write("roll.txt", "scan.tif\n");
    return only;
}

TEST(KeptInputs, AreAskedForWhicheverWayTheProgramIsRun) {
    const std::string kChanged = "the input scan.tif was changed by: ";
    EXPECT_NONFATAL_FAILURE(static_cast<void>(program().run("--version; : scan.tif; echo x >>scan.tif")),
                            kChanged);
    EXPECT_NONFATAL_FAILURE(static_cast<void>(program().shell("echo x >scan.tif; : 'scan.tif'")), kChanged);
    EXPECT_NONFATAL_FAILURE(static_cast<void>(program().run_as_anybody("--version; rm -f scan.tif")),
                            kChanged);
    EXPECT_NONFATAL_FAILURE(
        static_cast<void>(program().run_and_kill("--version >scan.tif; : scan.tif", std::chrono::seconds(1))),
        kChanged);
    EXPECT_NONFATAL_FAILURE(static_cast<void>(program().shell(": --list=roll.txt; rm *.tif")), kChanged);
    EXPECT_NONFATAL_FAILURE(static_cast<void>(program().shell(": roll.txt; rm *.tif")), kChanged);
    EXPECT_NONFATAL_FAILURE(
        {
            const Program forgetful;
            static_cast<void>(forgetful.begun("exit 0", false));
        },
        "not asked whether its inputs were kept: exit 0");
}

TEST(KeptInputs, AreNotWhatALineNamesAsItsOutputs) {
    static_cast<void>(program().shell("echo x >scan.tif; : -o scan.tif --picture='scan.tif'"));
    static_cast<void>(program().shell("echo x > scan.tif"));
}

TEST(KeptInputs, NoTestStartsAProcessInAnotherWay) {
    const fs::path tests = fs::path(FOGPROOF_SOURCE_DIR) / "tests";
    const std::regex other(R"(\b(system|popen|posix_spawnp?|execv?e?p?e?|execl[ep]?) ?\(|FOGPROOF_PROGRAM)");
    EXPECT_TRUE(std::regex_search("std::system(\"fogproof\")", other));
    EXPECT_TRUE(std::regex_search("::execl(\"/bin/sh\"", other));
    std::vector<std::string> found;
    for (const auto& entry : fs::recursive_directory_iterator(tests)) {
        const auto name = fs::relative(entry.path(), tests).string(),
                   suffix = entry.path().extension().string();
        if ((suffix != ".cpp" && suffix != ".hpp") || name == "promises/kept_inputs_test.cpp") continue;
        if (std::regex_search(content_of(entry.path()), other)) found.push_back(name);
    }
    EXPECT_THAT(found, testing::ElementsAre("support/program.cpp"));
}

}  // namespace
}  // namespace fogproof::tests
