// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Readings of instruments, in CGATS.17 as they write it.
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

TEST(Cgats, VisualDensitiesComeAsTheInstrumentGaveThem) {
    const std::string text =
        cgats({"SAMPLE_ID", "D_RED", "D_VIS"}, {{"1", "0.11", "0.12"}, {"2", "1.20", "1.234"}});
    ASSERT_TRUE(is_cgats(text)) << text;
    const auto read = cgats_readings(text, "spots.txt");
    ASSERT_THAT(read.rows, SizeIs(2));
    EXPECT_NEAR(read.rows[0].density.value, 0.12, kRounding);
    EXPECT_NEAR(read.rows[1].density.value, 1.234, kRounding);
    EXPECT_EQ(read.rows[1].sample, "2");
    EXPECT_TRUE(read.notes.empty());
}

TEST(Cgats, LightnessAndLuminanceBecomeDensityWithANote) {
    // CIE 15: L* 49.4961 and Y 18 are the same grey, density 0.7447.
    for (const auto& [column, value] : {std::pair{"LAB_L", "49.4961"}, {"XYZ_Y", "18.0"}}) {
        const auto read = cgats_readings(cgats({"SAMPLE_ID", column}, {{"A1", value}}), "spots.txt");
        EXPECT_NEAR(read.rows.at(0).density.value, 0.7447, 1e-4) << column;
        EXPECT_THAT(read.notes, ::testing::Contains(HasSubstr("differs a little"))) << column;
    }
}

TEST(Cgats, WhatHoldsNoDensityIsRefused) {
    const auto refusal = [](const std::string& text) -> std::string {
        try {
            static_cast<void>(cgats_readings(text, "spots.txt"));
        } catch (const Error& error) {
            EXPECT_EQ(error.fault(), Fault::data);
            return error.what();
        }
        return "was read";
    };
    EXPECT_THAT(refusal(cgats({"SAMPLE_ID", "RGB_R"}, {{"1", "200"}})), HasSubstr("D_VIS, DENSITY"));
    EXPECT_THAT(refusal(cgats({"SAMPLE_ID", "D_VIS"}, {{"1", "dark"}})), HasSubstr("sample 1 is \"dark\""));
    EXPECT_THAT(refusal(cgats({"SAMPLE_ID", "D_VIS"}, {{"1", "9.9"}})), HasSubstr("-0.05 to 4"));
    EXPECT_THAT(refusal(cgats({"SAMPLE_ID", "XYZ_Y"}, {{"1", "0.8"}, {"2", "0.1"}})),
                HasSubstr("Y on the scale 0 to 100"));
    std::string broken = cgats({"SAMPLE_ID", "D_VIS"}, {{"1", "0.1"}, {"2", "0.2"}});
    broken.resize(broken.find("0.2"));
    EXPECT_THAT(refusal(broken), HasSubstr("sample 2"));
    EXPECT_THAT(refusal("CGATS.17\nBEGIN_DATA_FORMAT\n\"D_VIS\nEND_DATA_FORMAT\n"), HasSubstr("damaged"));
}

}  // namespace
}  // namespace fogproof::tests
