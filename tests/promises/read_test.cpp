// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The verb read: rows appended, refusals that leave none.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <lcms2.h>
#include <sys/wait.h>
#include <array>
#include <fstream>
#include <functional>
#include <sstream>

#include "fogproof/base/error.hpp"
#include "fogproof/pack/readings.hpp"
#include "reading/cgats.hpp"
#include "reading/strip_labels.hpp"
#include "reading/strip_reading.hpp"
#include "scan/reflection_scan.hpp"
#include "support/program.hpp"
#include "support/read_strips.hpp"
#include "support/rooms.hpp"
#include "support/strip_scan.hpp"
#include "system/whole_file.hpp"

namespace fogproof::tests {
namespace {

using ::testing::HasSubstr;
using ::testing::SizeIs;

// The command as it is typed.
class ReadCommand : public ::testing::Test {
  protected:
    int run(const std::string& words) {
        const auto answer = program_.run("read " + words);
        said_ = answer.err;
        return answer.code;
    }
    [[nodiscard]] std::string said() const { return said_; }
    [[nodiscard]] std::string file(const std::string& name) const { return (program_ / name).string(); }
    void SetUp() override {
        StripScan scan = plain_scan(printed_wedge(21, 0.15, 0.12, 1.9));
        scan.strips[0].bleached = 0.7, scan.strips[0].white = 0.12;
        scan.linear().tiffsave(file("scan.tif").c_str());
    }
    Program program_;
    std::string said_;
};

constexpr const char* kKnown = " --white 312,312,136,56=0.12 ";

TEST_F(ReadCommand, AppendsRowsAndNeverTouchesThoseBefore) {
    const std::string words = file("scan.tif") + kKnown +
                              "--wedge 0.05,0.15,21 --halves --bleach 40 --parts 50" +
                              " --filter 2 --strip A -o " + file("readings.csv");
    ASSERT_EQ(run(words + " --picture " + file("seen.png")), 0) << said();
    const std::string first = read_whole(file("readings.csv"));
    const auto rows = parse_readings(first, "readings.csv");
    ASSERT_THAT(rows, SizeIs(42));
    EXPECT_EQ(rows[0].strip, "A-before");
    EXPECT_EQ(rows[41].strip, "A-bleached");
    EXPECT_EQ(rows[41].bleach_s, 40);
    EXPECT_EQ(vips::VImage::new_from_file(file("seen.png").c_str()).bands(), 3);
    std::string again = words;
    again.replace(again.find("--strip A"), 9, "--strip B");
    ASSERT_EQ(run(again), 0) << said();
    const std::string second = read_whole(file("readings.csv"));
    EXPECT_TRUE(second.starts_with(first));
    EXPECT_THAT(parse_readings(second, "readings.csv"), SizeIs(84));
}

TEST_F(ReadCommand, TakesCgatsAndCsvBesideScans) {
    std::ofstream(file("spots.txt")) << cgats({"SAMPLE_ID", "D_VIS"}, {{"1", "0.31"}, {"2", "1.50"}});
    std::ofstream(file("own.csv")) << "density,strip\n0.28,slip\n";
    ASSERT_EQ(run(file("spots.txt") + " " + file("own.csv") + " --strip spot --strip x --exposure 0 -o " +
                  file("readings.csv")),
              0)
        << said();
    const auto rows = parse_readings(read_whole(file("readings.csv")), "readings.csv");
    ASSERT_THAT(rows, SizeIs(3));
    EXPECT_EQ(rows[0].strip, "spot");
    EXPECT_EQ(rows[1].density, 1.5);
    EXPECT_EQ(rows[2].strip, "slip") << "what a row says of itself stays";
    EXPECT_EQ(rows[2].exposure_s, 0);
}

TEST_F(ReadCommand, RefusalsLeaveNoReadings) {
    std::ofstream(file("letter.txt")) << "Dear printer, here are my strips.\n";
    const std::string out = " -o " + file("readings.csv");
    EXPECT_EQ(run(file("letter.txt") + out), int(Fault::data));
    EXPECT_THAT(said(), HasSubstr("holds no readings"));
    EXPECT_EQ(run(file("nothing.tif") + out), int(Fault::no_input));
    EXPECT_EQ(run(file("scan.tif") + kKnown + "--steps 13" + out), int(Fault::data));
    EXPECT_EQ(run(file("scan.tif") + kKnown + out), int(Fault::data)) << "half-bleached, read as a whole";
    EXPECT_EQ(run(file("scan.tif") + " --halves" + out), int(Fault::usage));
    EXPECT_EQ(run(file("scan.tif") + " --wedge 0.05,0.15" + out), int(Fault::usage));
    EXPECT_EQ(run(file("scan.tif") + " --white 800,312,136,56=0.12" + out), int(Fault::usage));
    EXPECT_EQ(run(file("scan.tif") + kKnown + "--halves --bleach 40 --filter 40" + out), int(Fault::data));
    EXPECT_EQ(run(file("scan.tif") + kKnown + "--halves --bleach 40 --filter 1 --filter 2" + out),
              int(Fault::usage));
    EXPECT_FALSE(std::filesystem::exists(file("readings.csv")));
    EXPECT_EQ(run(file("scan.tif") + " -o " + file("scan.tif")), int(Fault::usage));
}

TEST_F(ReadCommand, AFolderThatIsNotThereIsNamedBeforeAnythingIsRead) {
    EXPECT_EQ(run(file("scan.tif") + kKnown + "--halves --bleach 40 -o " + file("none/readings.csv")),
              int(Fault::cannot_create));
    EXPECT_THAT(said(), HasSubstr("its folder does not exist"));
    EXPECT_EQ(std::ranges::count(said(), '\n'), 1) << said();
}

}  // namespace
}  // namespace fogproof::tests
