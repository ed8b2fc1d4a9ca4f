// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Strips drawn on a scan and read again.
#pragma once

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <lcms2.h>
#include <sys/wait.h>
#include <array>
#include <fstream>
#include <functional>
#include <random>
#include <sstream>

#include "fogproof/base/error.hpp"
#include "fogproof/pack/readings.hpp"
#include "reading/cgats.hpp"
#include "reading/strip_labels.hpp"
#include "reading/strip_reading.hpp"
#include "scan/reflection_scan.hpp"
#include "support/program.hpp"
#include "support/rooms.hpp"
#include "support/strip_scan.hpp"
#include "system/whole_file.hpp"

namespace fogproof::tests {

using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::Not;
using ::testing::SizeIs;

// The promise of the command, for 8-bit scans too: 0.02 plus one percent of the density.
inline double promised(double density) {
    return 0.02 + 0.01 * density;
}
constexpr double kRounding = 1e-6;  // of densities that pass through text and double arithmetic

class Reads : public ::testing::Test {
  protected:
    TestFolder folder_;

    // The middle of the drawn patches, as a user would mark them.
    static StripRequest request_for(const StripScan& scan, std::optional<int> steps = {}) {
        StripRequest request;
        request.place = "scan";
        request.steps = steps;
        for (const auto& [at, density] : scan.patches)
            request.known.push_back({{at.left + 12, at.top + 12, at.width - 24, at.height - 24}, density});
        return request;
    }
    ScanReading read(const vips::VImage& picture, const StripRequest& request, bool as_jpeg = false) {
        const auto path = folder_ / (as_jpeg ? "scan.jpg" : "scan.tif");
        if (as_jpeg)
            picture.jpegsave(path.c_str(), vips::VImage::option()->set("Q", 85));
        else
            picture.tiffsave(path.c_str());
        Notes notes;
        return strips_read(reflection_scan(path, {}, kUsualMaxPixels, notes), request);
    }
    std::string refusal(const vips::VImage& picture, const StripRequest& request) {
        try {
            static_cast<void>(read(picture, request));
        } catch (const Error& error) {
            EXPECT_THAT(std::string(error.what()), Not(HasSubstr("\n")));
            return error.what();
        }
        ADD_FAILURE() << "was read";
        return {};
    }
    static void expect_densities(const std::vector<StepReading>& steps, std::vector<double> truth) {
        std::ranges::sort(truth, std::greater<>());
        ASSERT_THAT(steps, SizeIs(truth.size()));
        for (std::size_t i = 0; i < truth.size(); ++i) {
            EXPECT_EQ(steps[i].step, int(i) + 1);
            EXPECT_NEAR(steps[i].density.value, truth[i], promised(truth[i])) << "step " << i + 1;
        }
    }
};

inline StripScan plain_scan(std::vector<double> densities) {
    StripScan scan;
    scan.width = 900, scan.height = 400;
    DrawnStrip strip;
    strip.x = 440, strip.y = 150, strip.length = 760, strip.width = 120;
    strip.degrees = 1.3;
    strip.densities = std::move(densities);
    scan.strips.push_back(strip);
    scan.patches.push_back({{300, 300, 160, 80}, 0.12});
    scan.noise = 0.002, scan.dust = 40;
    return scan;
}

// Everything about it by chance, from one number.
inline StripScan wedge_by_chance(unsigned seed) {
    std::mt19937 random(seed);
    const auto between = [&](double low, double high) {
        return std::uniform_real_distribution<double>(low, high)(random);
    };
    StripScan scan = plain_scan({});
    scan.seed = seed;
    DrawnStrip& strip = scan.strips.front();
    strip.degrees = between(-3, 3);
    strip.length = between(680, 780), strip.width = between(90, 140), strip.y = between(140, 170);
    strip.white = between(0.08, 0.25);
    strip.densities =
        printed_wedge(21, 0.15, strip.white, between(1.6, 2.1), between(2, 4), between(1.2, 1.9));
    if (random() % 2 == 0) std::ranges::reverse(strip.densities);
    if (random() % 3 == 0) strip.margin = between(4, 16), strip.margin_density = strip.white;
    scan.patches.front() = {{int(between(60, 700)), 300, 160, 80}, between(0.1, 0.3)};
    scan.fall_towards = between(0, 6.28);
    scan.noise = between(0.0005, 0.003);
    scan.lid = between(0.04, 0.10);
    return scan;
}

// A file as an instrument's program would leave it, written by Little CMS.
inline std::string cgats(const std::vector<const char*>& columns,
                         const std::vector<std::vector<std::string>>& rows) {
    const cmsHANDLE table = cmsIT8Alloc(nullptr);
    cmsIT8SetSheetType(table, "CGATS.17");
    cmsIT8SetPropertyDbl(table, "NUMBER_OF_FIELDS", double(columns.size()));
    cmsIT8SetPropertyDbl(table, "NUMBER_OF_SETS", double(rows.size()));
    for (std::size_t i = 0; i < columns.size(); ++i) cmsIT8SetDataFormat(table, int(i), columns[i]);
    for (std::size_t row = 0; row < rows.size(); ++row)
        for (std::size_t i = 0; i < columns.size(); ++i)
            cmsIT8SetDataRowCol(table, int(row), int(i), rows[row][i].c_str());
    cmsUInt32Number size = 0;
    cmsIT8SaveToMem(table, nullptr, &size);
    std::string text(size, '\0');
    cmsIT8SaveToMem(table, text.data(), &size);
    cmsIT8Free(table);
    while (!text.empty() && text.back() == '\0') text.pop_back();
    return text;
}

}  // namespace fogproof::tests
