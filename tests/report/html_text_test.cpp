// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Names that users give, inside a page's script.
#include "report/html_text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// A script element ends at the first "</script", whatever its content is (HTML Living Standard, 13.1.2.6).
TEST(HtmlText, NoNameEndsAScript) {
    const nlohmann::json told{{"name", "a</script><h1>x<!--"}};
    const std::string inside = html::within_script(told.dump());
    EXPECT_THAT(inside, testing::Not(testing::HasSubstr("<")));
    EXPECT_EQ(nlohmann::json::parse(inside), told);
}

}  // namespace
}  // namespace fogproof::tests
