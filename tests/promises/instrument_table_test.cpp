// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// `read TABLE`: what a row tells of itself stays, empty cells take what is typed. Asked of the program; no
// published source.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "fogproof/pack/readings.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::Not;
using testing::SizeIs;

constexpr char kTable[] =
    "strip,exposure_s,filter,develop_s,restrainer_ml_l,bleach_s,density\n"
    "half-before,10,2,90,,0,0.9\n"
    "half-bleached,10,2,90,,40,0.5\n"
    ",10,2,90,,,0.3\n";

class InstrumentTable : public ::testing::Test {
  protected:
    std::vector<Reading> rows(const std::string& inputs) {
        std::filesystem::remove(program_ / "rows.csv");
        const auto answer = program_.run("read " + inputs + " -o rows.csv");
        EXPECT_EQ(answer.code, 0) << answer.err;
        said_ = answer.err;
        return answer.code == 0 ? parse_readings(content_of(program_ / "rows.csv"), "rows.csv")
                                : std::vector<Reading>();
    }
    Program program_;
    std::string said_;
};

TEST_F(InstrumentTable, ZeroInACellIsNotAnEmptyCell) {
    program_.write("spots.csv", kTable);
    const auto read = rows("spots.csv --bleach 25s --parts 50");
    ASSERT_THAT(read, SizeIs(3));
    EXPECT_EQ(read[0].bleach_s, 0);
    EXPECT_EQ(read[1].bleach_s, 40);
    EXPECT_EQ(read[2].bleach_s, 25);
    for (const Reading& row : read) EXPECT_EQ(row.bleach_parts, 50);
}

TEST_F(InstrumentTable, OptionsThatEveryRowTellsItselfAreNamed) {
    program_.write("spots.csv", kTable);
    const auto read = rows("spots.csv --filter 5 --develop 120 --restrainer 20 --strip mine");
    ASSERT_THAT(read, SizeIs(3));
    for (const Reading& row : read) {
        EXPECT_EQ(row.filter, 2);
        EXPECT_EQ(row.develop_s, 90);
        EXPECT_EQ(row.restrainer_ml_l, 20);
    }
    EXPECT_EQ(read[0].strip, "half-before");
    EXPECT_EQ(read[2].strip, "mine");
    EXPECT_THAT(said_, AllOf(HasSubstr("every row tells its own filter, develop_s"),
                             Not(HasSubstr("own restrainer"))));
}

TEST_F(InstrumentTable, FilesOfOneNameAreTwoStrips) {
    for (const auto& [folder, densities] : {std::pair{"first", "0.9\n0.5\n"}, {"second", "0.8\n0.45\n"}}) {
        std::filesystem::create_directory(program_ / folder);
        program_.write(std::string(folder) + "/spots.csv", std::string("density\n") + densities);
    }
    const auto read = rows("first/spots.csv second/spots.csv --exposures 4,8");
    ASSERT_THAT(read, SizeIs(4));
    EXPECT_EQ(read[0].strip, read[1].strip);
    EXPECT_EQ(read[2].strip, read[3].strip);
    EXPECT_NE(read[0].strip, read[2].strip);
}

TEST_F(InstrumentTable, RowsThatBecomeCommentsAreCounted) {
    program_.write(
        "spots.csv",
        "strip,exposure_s,density\na,10,0.5\n#1,10,0.6\n#2,10,0.7\n# made by hand, twice, today\n");
    EXPECT_THAT(rows("spots.csv"), SizeIs(1));
    EXPECT_THAT(said_, HasSubstr("2 lines begin with #"));
    EXPECT_THAT(program_.run("pack fit spots.csv -o new.toml").err, HasSubstr("2 lines begin with #"));
    program_.write("spots.csv", "strip,exposure_s,density\na,10,0.5\n\"#1\",10,0.6\n");
    EXPECT_THAT(rows("spots.csv"), SizeIs(2));
    EXPECT_THAT(said_, Not(HasSubstr("begin")));
}

}  // namespace
}  // namespace fogproof::tests
