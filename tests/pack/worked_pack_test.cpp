// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Packs that a pack may be, worked out beside it: each is what it would be by itself.
#include "pack/worked_pack.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>

#include "support/rooms.hpp"

namespace fogproof::tests {
namespace {

// Tables of shares err by 1e-5 of the grains where a paper departs from the laws; log10 exposure.
constexpr double kLight = 2e-4;

TEST(WorkedPack, EveryMovedPackHasThePaperAndTheFiltersOfItsOwn) {
    Pack pack;
    pack.blank_density = 0.4;
    const WorkedPacks worked(pack);
    const auto grades = grades_of(pack, paper_model(pack));
    ASSERT_EQ(worked.likeliest().grades(), grades);
    std::size_t asked = 0, absent = 0;
    const auto as_by_itself = [&](const WorkedPack& moved) {
        const PaperModel paper = paper_model(moved.pack());
        EXPECT_EQ(moved.paper().emulsion.grains, paper.emulsion.grains);
        EXPECT_EQ(moved.paper().emulsion.fog.share, paper.emulsion.fog.share);
        EXPECT_EQ(moved.paper().sheet.white(), paper.sheet.white());
        const FilterSet own(moved.pack(), paper);
        for (std::size_t i = 0; i < grades.size(); ++i) {
            if (!moved.filter(i)) {
                EXPECT_ANY_THROW(static_cast<void>(own.at(grades[i])));
                ++absent;
                continue;
            }
            const Filter there = *moved.filter(i), here = own.at(grades[i]);
            EXPECT_NEAR(std::log10(there.blue / here.blue), 0, kLight) << grades[i];
            EXPECT_NEAR(std::log10(there.green / here.green), 0, kLight) << grades[i];
        }
        return asked++;
    };
    static_cast<void>(worked.asked(as_by_itself));
    EXPECT_GT(asked, 100u);
    EXPECT_LT(absent, asked / 10);
}

TEST(WorkedPack, AnswersOfMovedPacksAddUpAsThoseOfPacksAskedOneByOne) {
    Pack pack;
    pack.blank_density = 0.4;
    const auto share = [](const PaperModel& paper) { return paper.emulsion.fog.share; };
    const auto together = WorkedPacks(pack).asked([&](const WorkedPack& w) { return share(w.paper()); });
    const Doubted<double> alone(pack, [&](const Pack& p) { return share(paper_model(p)); });
    EXPECT_GT(alone.deviation(std::identity()), 0);
    EXPECT_EQ(together.deviation(std::identity()), alone.deviation(std::identity()));
}

}  // namespace
}  // namespace fogproof::tests
