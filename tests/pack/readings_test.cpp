// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The readings file: what it may hold, what is refused, and that rows once there stay.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <thread>

#include "fogproof/base/error.hpp"
#include "fogproof/pack/readings.hpp"
#include "support/refusal.hpp"
#include "support/rooms.hpp"
#include "system/whole_file.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;

std::string readings_refusal(const std::string& text) {
    return words_of_refusal([&] { static_cast<void>(parse_readings(text, "strips.csv")); });
}

TEST(Readings, ColumnsGoByNameInAnyOrderAndOnlyDensityIsNeeded) {
    const auto bare = parse_readings("density\n0.42\n", "strips.csv");
    ASSERT_EQ(bare.size(), 1u);
    EXPECT_EQ(bare[0].density, 0.42);
    EXPECT_FALSE(bare[0].exposure_s || bare[0].filter || bare[0].develop_s || bare[0].bleach_parts);
    EXPECT_EQ(bare[0].bleach_s, 0);
    const auto turned = parse_readings(
        "# a comment\r\n\r\nfilter,density, bleach_s ,strip\r\n2,1.5,40,\"soft, \"\"half\"\"\"\r\n# "
        "another\r\n,0.1,,\r\n",
        "strips.csv");
    ASSERT_EQ(turned.size(), 2u);
    EXPECT_EQ(turned[0].strip, "soft, \"half\"");  // RFC 4180, 2.5 to 2.7
    EXPECT_EQ(turned[0].filter, 2.0);
    EXPECT_EQ(turned[0].bleach_s, 40);
    EXPECT_EQ(turned[0].line, 4);
    EXPECT_EQ(turned[1].filter, std::nullopt);
    EXPECT_EQ(turned[1].bleach_s, 0);
}

TEST(Readings, AllBadRowsAreRefusedByLineInOneGo) {
    const std::string message = readings_refusal(
        "strip,density,exposure_s\na,0.4,1\na,4.5,1\na,,1\n# fine\na,black,-1\na,0.3\na,nan,1\n");
    EXPECT_EQ(message,
              "strips.csv:3: density = \"4.5\"; expected: -0.05 to 4 D\n"
              "strips.csv:4: no density; expected: -0.05 to 4 D\n"
              "strips.csv:6: density = \"black\"; expected: -0.05 to 4 D\n"
              "strips.csv:6: exposure_s = \"-1\"; expected: 0 to 36000 s\n"
              "strips.csv:7: 2 cells; expected: 3, as the first line has\n"
              "strips.csv:8: density = \"nan\"; expected: -0.05 to 4 D");
}

// As spreadsheets leave them where lines and columns were emptied.
TEST(Readings, EmptiedLinesAndAnEmptiedLastColumnCountForNothing) {
    const auto read = parse_readings("strip,density,\na,0.4,\n,,\na,0.5,\n , ,\n", "strips.csv");
    ASSERT_EQ(read.size(), 2u);
    EXPECT_EQ(read[1].density, 0.5);
    EXPECT_EQ(read[1].line, 4);
    EXPECT_THAT(readings_refusal("strip,density,\na,0.4,12\n"), HasSubstr("unknown column \"\""));
    EXPECT_THAT(readings_refusal("strip,density\na,\n"), HasSubstr("no density"));
}

TEST(Readings, DensitiesInHundredthsAreToldOnceWithTheMend) {
    EXPECT_EQ(readings_refusal("strip,density\na,43\na,174\na,8\n"),
              "strips.csv:2: density = \"43\", and the same in 2 more rows; expected: -0.05 to 4 D; if these "
              "are hundredths, divide them by 100: 0.43");
    EXPECT_THAT(readings_refusal("strip,density\na,4.5\n"), testing::Not(HasSubstr("hundredths")));
    EXPECT_THAT(readings_refusal("strip,density\na,1740\n"), testing::Not(HasSubstr("hundredths")));
}

TEST(Readings, AWordForAFilterIsRefusedWithTheGradesThatAre) {
    EXPECT_EQ(readings_refusal("density,filter\n0.3,soft\n"),
              "strips.csv:2: filter = \"soft\"; expected: a grade, 00 to 6 (-1 is 00)");
}

TEST(Readings, HeadsThatCannotBeAreRefused) {
    EXPECT_THAT(readings_refusal(""), HasSubstr("has no rows"));
    EXPECT_THAT(readings_refusal("density\n"), HasSubstr("has no readings"));
    EXPECT_THAT(readings_refusal("strip\na\n"), HasSubstr("strips.csv:1: no column density"));
    EXPECT_THAT(readings_refusal("densty\n1\n"), HasSubstr("unknown column \"densty\"; expected: density"));
    EXPECT_THAT(readings_refusal("density,density\n1,1\n"), HasSubstr("column density twice"));
    EXPECT_THAT(readings_refusal("density\n\"1\n"), HasSubstr("never closed"));
}

TEST(Readings, WhatIsWrittenIsReadBack) {
    Reading full{"a \"b\", # c", -0.02, 12.5, 3.5, 7, 120, 45, 30, 15, 1.23, 0};
    Reading empty;
    empty.density = 0.31;
    const std::vector<Reading> rows{full, empty};
    auto back = parse_readings(readings_text(rows, "two\nlines"), "strips.csv");
    for (auto& reading : back) reading.line = 0;
    EXPECT_EQ(back, rows);
}

class Folder {
  public:
    Folder() { std::filesystem::create_directories(path_); }
    ~Folder() { std::filesystem::remove_all(path_); }
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

  private:
    std::filesystem::path path_ =
        std::filesystem::temp_directory_path() / ("fogproof_readings_" + std::to_string(::getpid()));
};

void append(const std::filesystem::path& file, std::vector<Reading> rows, const std::string& origin) {
    append_readings(file, std::vector<OriginalRows>{{origin, std::move(rows)}});
}

Reading patch(const std::string& strip, double density) {
    Reading reading;
    reading.strip = strip;
    reading.density = density;
    return reading;
}

TEST(Readings, AppendedRowsLeaveEarlierOnesAsTheyWere) {
    const Folder folder;
    const auto file = folder / "strips.csv";
    append(file, {patch("", 0.2)}, "first");
    const std::string before = read_whole(file);
    append(file, {patch("", 0.3)}, "second");
    const std::string after = read_whole(file);
    EXPECT_TRUE(after.starts_with(before));
    EXPECT_THAT(after, HasSubstr("# origin: second\n"));
    EXPECT_EQ(read_readings_file(file).size(), 2u);
}

TEST(Readings, RowsGoBelowColumnsOfAnyOrderAndNewColumnsBelowAHeadOfTheirOwn) {
    const Folder folder;
    const auto file = folder / "other.csv";
    const std::string before = "density,strip\n1,a";
    write_whole(file, before, WholeFile::Replace::never);
    Reading row = patch("b", 0.5);
    row.filter = 3, row.common_error = 0.02, row.instrument = "densitometer, \"old\"";
    append(file, {row}, "later");
    EXPECT_TRUE(read_whole(file).starts_with(before + "\n"));
    append(file, {patch("c", 0.7)}, "last");
    auto rows = read_readings_file(file);
    ASSERT_EQ(rows.size(), 3u);
    for (auto& each : rows) each.line = 0;
    EXPECT_EQ(rows[0], patch("a", 1));
    EXPECT_EQ(rows[1], row);
    EXPECT_EQ(rows[2], patch("c", 0.7));
}

TEST(Readings, NoFileGrowsBeyondWhatCanBeRead) {
    const Folder folder;
    const auto file = folder / "strips.csv";
    std::vector<Reading> rows;
    for (int i = 0; i < 19999; ++i) rows.push_back(patch(std::to_string(i), 0.5));
    append(file, rows, "many");
    const std::string before = read_whole(file);
    EXPECT_THAT(words_of_refusal([&] {
                    append(file, {patch("a", 0.5), patch("b", 0.5)}, "more");
                }),
                HasSubstr("20001 readings; expected: up to 20000"));
    EXPECT_EQ(read_whole(file), before);
}

TEST(Readings, RowsAppendedByManyAtOnceAreAllThereAndWhole) {
    const Folder folder;
    const auto file = folder / "strips.csv";
    constexpr int kWriters = 8, kTimes = 10;
    std::vector<std::thread> writers;
    for (int w = 0; w < kWriters; ++w)
        writers.emplace_back([&, w] {
            for (int i = 0; i < kTimes; ++i)
                append(file, std::vector<Reading>(5, patch("strip " + std::to_string(kTimes * w + i), 1.234)),
                       "writer");
        });
    for (auto& writer : writers) writer.join();
    EXPECT_EQ(read_readings_file(file).size(), std::size_t(kWriters * kTimes * 5));
}

TEST(Readings, AReplacedFileKeepsWhoMayReadAndWriteIt) {
    const Folder folder;
    append(folder / "all.csv", {patch("one", 0.3)}, "first");
    const auto theirs = std::filesystem::perms::owner_read | std::filesystem::perms::owner_write |
                        std::filesystem::perms::group_read | std::filesystem::perms::group_write;
    std::filesystem::permissions(folder / "all.csv", theirs);
    append(folder / "all.csv", {patch("two", 0.3)}, "second");
    EXPECT_EQ(std::filesystem::status(folder / "all.csv").permissions(), theirs);
    EXPECT_EQ(read_readings_file(folder / "all.csv").size(), 2u);
}

// The column's name tells its unit; "0 to 36000 s" alone reads as if 8s were meant.
TEST(Readings, NumbersWithUnitsAreAskedForAlone) {
    EXPECT_EQ(readings_refusal("strip,density,exposure_s\na,0.4,8s\na,0.4,1/4 stop\n"),
              "strips.csv:2: exposure_s = \"8s\"; expected: 0 to 36000 s, written as a number alone\n"
              "strips.csv:3: exposure_s = \"1/4 stop\"; expected: 0 to 36000 s, written as a number alone");
}

}  // namespace
}  // namespace fogproof::tests
