// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Graded paper keeps the number on its box, whatever a fit finds, and its contrast is as doubtful as every
// other's. Common practice, no source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "fogproof/pack/file.hpp"
#include "support/own_strips.hpp"
#include "support/patches.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;

const std::string kAllOfScan = " --whole --clear 1 ";

class GradedPaper : public ::testing::Test {
  protected:
    std::string said(const std::string& line) const {
        const auto answer = prints.program.run(line);
        EXPECT_EQ(answer.code, 0) << line << "\n" << answer.err;
        return answer.out;
    }
    const PatchPrints prints;
};

TEST_F(GradedPaper, IsAsDoubtfulInContrastAtEveryGrade) {
    for (const char* grade : {"1", "2", "3", "4"}) {
        said("pack new --white 0.08 --blank 0.31 --head diffuser --graded " + std::string(grade) +
             " -o g.toml --force");
        const json shown = json::parse(said("pack show g.toml --json"));
        ASSERT_EQ(shown["grades"].size(), 1);
        const json& row = shown["grades"].front();
        EXPECT_EQ(row["grade"], std::stod(grade));
        const double half = (double(row["iso_range_fresh_high"]) - double(row["iso_range_fresh_low"])) / 2;
        EXPECT_GT(half, 12) << grade;
        EXPECT_LT(half, 28) << grade;
    }
}

TEST_F(GradedPaper, IsCalledByItsBoxAfterAFitThatFindsAnotherRange) {
    said("pack new --white 0.08 --blank 0.31 --head diffuser --graded 2 -o box.toml");
    Pack harder = read_pack(prints.program / "box.toml");
    harder.iso_range = 75;
    const auto rows = own::read(harder, own::patches_of({"wedge", 21, 20, 2, 0}, harder.contrast), 0.01, 3);
    append_readings(prints.program / "wedge.csv", std::array{OriginalRows{"wedge", rows}});
    said("start neg.tif --pack box.toml --black-time 8s --recipe-out box-recipe.toml" + kAllOfScan);
    said("pack fit wedge.csv --pack box.toml -o read.toml");
    const json shown = json::parse(said("pack show read.toml --json"));
    EXPECT_EQ(shown["grades"].front()["grade"], 2);
    EXPECT_LT(double(shown["grades"].front()["iso_range_fresh"]), 90) << "the paper is harder than its box";
    said("print neg.tif --pack read.toml --recipe box-recipe.toml -o own.tif" + kAllOfScan);
    said("start neg.tif --pack read.toml --grade 2" + kAllOfScan);
}

}  // namespace
}  // namespace fogproof::tests
