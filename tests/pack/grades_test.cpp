// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Grades as filters: the table of ISO 6846 from memory, and filters on a curve drawn for the test.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <map>
#include <optional>
#include <random>
#include <set>

#include "fogproof/base/error.hpp"
#include "fogproof/emulsion/paper_numbers.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/pack/grades.hpp"
#include "pack/from_slips.hpp"
#include "pack/schema.hpp"
#include "support/packs.hpp"
#include "support/refusal.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

using testing::HasSubstr;

TEST(Grades, TableEndsAreThoseOfTheStandard) {
    // LER 0.50 to 1.70 cut into six grades: Focal Encyclopedia of Photography, p. 679. Inner limits 0.65 and
    // 1.40: ANSI PH2.2-1966, from memory. The middle of the end grades follows.
    EXPECT_DOUBLE_EQ(iso_range_of_grade(0), 100 * (1.40 + 1.70) / 2);
    EXPECT_DOUBLE_EQ(iso_range_of_grade(5), 100 * (0.50 + 0.65) / 2);
}

TEST(Grades, MiddlesLieBetweenTheirLimits) {
    // ANSI PH2.2-1966, from memory.
    constexpr double kLimits[] = {170, 140, 115, 95, 80, 65, 50};
    for (int grade = 0; grade <= 5; ++grade) {
        EXPECT_LT(iso_range_of_grade(grade), kLimits[grade]);
        EXPECT_GT(iso_range_of_grade(grade), kLimits[grade + 1]);
        for (const double range : {kLimits[grade] - 1, kLimits[grade + 1] + 1}) {
            Pack pack;
            pack.contrast = Contrast::graded;
            pack.iso_range = range;
            EXPECT_EQ(grades_of(pack, paper_model(pack)), std::vector<double>{double(grade)}) << range;
        }
    }
}

TEST(Grades, NumberAndRangeAreEachOthersInverse) {
    for (double grade = 0; grade <= 5; grade += 0.125)
        EXPECT_NEAR(grade_of_iso_range(iso_range_of_grade(grade)), grade, 1e-12);
    EXPECT_EQ(grade_of_iso_range(300), 0);
    EXPECT_EQ(grade_of_iso_range(10), 5);
}

TEST(Grades, DefaultPaperServesAllGrades) {
    for (const Surface surface : {Surface::gloss, Surface::semi_matt, Surface::matt}) {
        Slips slips{.white_density = 0.08, .blank_density = 0.2, .surface = surface};
        const Pack pack = pack_from_slips(slips);
        EXPECT_EQ(grades_of(pack, paper_model(pack)), (std::vector<double>{0, 1, 2, 3, 4, 5}))
            << surface_words()[std::size_t(surface)];
    }
}

TEST(Grades, FilterGivesTheRangeOfItsGradeOnADrawnCurve) {
    Pack pack;
    pack.blank_density = 0.45;  // fog must not disturb what a filter means
    const PaperModel model = paper_model(pack);
    for (double grade = 0; grade <= 5; grade += 0.5)
        EXPECT_NEAR(DrawnCurve(pack, model, filter_for(pack, model, grade)).iso_range(),
                    iso_range_of_grade(grade), kRange)
            << "grade " << grade;
}

TEST(Grades, SpeedPointStaysWhereThePackHasIt) {
    Pack pack;
    pack.speed_log_s = 0.9;
    pack.filter_set.hard_loss = 0;
    const PaperModel model = paper_model(pack);
    for (double grade = 0; grade <= 5; grade += 0.5)
        EXPECT_NEAR(DrawnCurve(pack, model, filter_for(pack, model, grade)).speed_point(), 0.9, kSpeed)
            << "grade " << grade;
}

// Filters that are matched in speed want the same time up to 3 1/2, and twice as much from 4 on (common
// practice, no source); sets that are not matched lose little there. Half of it is assumed.
TEST(Grades, HardFiltersLoseHalfOfWhatMatchedSetsLose) {
    Pack pack;
    pack.speed_log_s = 0.9;
    const PaperModel model = paper_model(pack);
    for (double grade = 0; grade <= 5; grade += 0.5)
        EXPECT_NEAR(DrawnCurve(pack, model, filter_for(pack, model, grade)).speed_point(),
                    grade < 4 ? 0.9 : 0.9 + std::log10(2) / 2, kSpeed + 0.001)
            << "grade " << grade;
}

TEST(Grades, HarderGradesPassRelativelyLessGreen) {
    const Pack pack;
    const PaperModel model = paper_model(pack);
    double before = std::numeric_limits<double>::infinity();
    for (double grade = 0; grade <= 5; grade += 0.25) {
        const Filter filter = filter_for(pack, model, grade);
        EXPECT_LT(filter.green / filter.blue, before) << "grade " << grade;
        before = filter.green / filter.blue;
    }
}

TEST(Grades, PackFiltersAreUsedAsMeasuredAndInterpolated) {
    Pack pack;
    pack.filters = {{1, 0.5, 0.0}, {2, 0.0, 0.1}, {4, -1.0, -0.2}};
    const PaperModel model = paper_model(pack);
    EXPECT_EQ(grades_of(pack, model), (std::vector<double>{1, 2, 4}));
    for (const auto& [grade, balance, speed] :
         {PackFilter{1, 0.5, 0.0}, PackFilter{2, 0.0, 0.1}, PackFilter{3, -0.5, -0.05}}) {
        const Filter filter = filter_for(pack, model, grade);
        EXPECT_NEAR(std::log10(filter.green / filter.blue), balance, 1e-9);
        // Faster paper reaches the speed point with less exposure.
        EXPECT_NEAR(DrawnCurve(pack, model, filter).speed_point(), pack.speed_log_s - speed, kSpeed);
    }
}

TEST(Grades, AGradeThePackLacksIsRefusedByItsRange) {
    Pack pack;
    const auto ask = [&](double grade) {
        return refusal([&] { static_cast<void>(filter_for(pack, paper_model(pack), grade)); });
    };
    EXPECT_STREQ(ask(6).what(), "grade: there is no grade 6; this pack has 00, 0 to 5");
    EXPECT_EQ(ask(6).fault(), Fault::usage);
    EXPECT_STREQ(ask(-0.5).what(), "grade: there is no grade -0.5; this pack has 00, 0 to 5");
    EXPECT_THAT(ask(std::nan("")).what(), HasSubstr("this pack has 00, 0 to 5"));
    pack.filters = {{1, 0.5, 0.0}, {4, -1.0, -0.2}};
    EXPECT_STREQ(ask(4.5).what(), "grade: there is no grade 4.5; this pack has 1 to 4");
    pack.filters.clear();
    pack.contrast = Contrast::graded;
    EXPECT_STREQ(ask(3).what(), "grade: there is no grade 3; this pack has grade 2 only, it is graded");
}

TEST(Grades, AnUnreachedGradeIsRefusedEvenInsideTheTable) {
    Pack pack;
    pack.grains.spread = 0.22;  // hardest about R 76
    const PaperModel model = paper_model(pack);
    EXPECT_EQ(grades_of(pack, model), (std::vector<double>{0, 1, 2, 3}));
    EXPECT_THAT(refusal([&] { static_cast<void>(filter_for(pack, model, 4)); }).what(),
                HasSubstr("grade 4; this pack has 00, 0 to 3."));
}

}  // namespace
}  // namespace fogproof::tests
