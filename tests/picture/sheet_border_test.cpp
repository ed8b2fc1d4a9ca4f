// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Fog of the edges as pictures have it, through grids and tables, against the laws asked in double precision
// at every place.
#include "picture/sheet_border.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <iostream>
#include <random>
#include <vector>

#include "fogproof/print/print_steps.hpp"
#include "support/examples.hpp"
#include "support/rooms.hpp"
#include "table/local_table.hpp"

namespace fogproof::tests {
namespace {

// L*; what is promised of every tone, a fiftieth of what an eye tells apart.
constexpr double kPromised = 0.02;
constexpr double kMeanTransmitted = 0.2;

// The sheet as if all of it were fogged as this place is.
TreatedSheet fogged_as(PaperModel paper, const PrintSteps& steps, double level) {
    paper.emulsion.fog.share += level * paper.emulsion.fog.edge;
    paper.emulsion.fog.edge = 0;
    return {paper, steps.develop, steps.finishing};
}

// erfc of what comes in from each of four edges, as it is written down.
double law(double reach, double x, double y, double wide, double high) {
    double left = 1;
    for (const double far : {x, y, wide - x, high - y})
        left *= 1 - std::erfc(1.16308715 * std::max(far, 0.0) / reach);
    return 1 - left;
}

TEST(SheetBorderTest, PictureAndBorderErrByLessThanPromisedOverRandomPacksTonesAndPlaces) {
    std::mt19937 random(31);
    const auto from = [&](double low, double high) {
        return std::uniform_real_distribution<>(low, high)(random);
    };
    double worst = 0, worst_border = 0;
    for (int each = 0; each < 25; ++each) {
        Pack pack = examples::random_pack(random);
        pack.edge_fog = {from(0.02, 0.5), from(4, 80), ""};
        const PaperModel paper = paper_model(pack);
        Recipe recipe;
        recipe.exposures = {{std::nullopt, Seconds{from(4, 30)}}};
        if (pack.contrast == Contrast::variable) recipe.exposures.front().grade = 2;
        recipe.bleach = Seconds{from(0, 60)};
        recipe.restrainer_ml_l = from(0, 20);
        recipe.develop_s = from(60, 240);
        const PrintSteps steps = print_steps(pack, paper, recipe, std::nullopt);
        const Enlarger& enlarger = pack.darkroom.enlarger;
        const LocalTable table(paper, enlarger, steps, kMeanTransmitted);
        const PrintModel print(paper, enlarger, steps, kMeanTransmitted);
        const FrameOnSheet frame = laid_on_sheet({240, 300, from(3, 30)}, 3000, 2000);
        const SheetFog fog(pack.edge_fog, std::nullopt, frame);
        const LevelGrid over_picture =
            fog.over({frame.left, frame.top, frame.width, frame.height}, grid_size(3000, 2000));
        const BorderWidths widths = margins_of(frame, 3000, 2000);
        const LevelGrid over_all = fog_over(fog, widths, 3000, 2000);
        // Margins are of whole pixels.
        const double mm = frame.width / 3000, left = frame.left - mm * widths.left,
                     top = frame.top - mm * widths.top;
        const std::vector<Lab> colours = border_colours(print);
        for (int tone = 0; tone < 40; ++tone) {
            // Half a cell of the grid, 0.07 mm, keeps the level of its middle at the sheet's very edge.
            constexpr double kCell = 1.0 / kMostLevels;
            const double density = from(0, 2.5), u = from(kCell, 1 - kCell), v = from(kCell, 1 - kCell);
            const double level = law(pack.edge_fog.reach_mm, frame.left + u * frame.width,
                                     frame.top + v * frame.height, frame.sheet_width, frame.sheet_height);
            const EaselLight light = light_at_easel({density}, kMeanTransmitted, enlarger, steps.exposures);
            const float here = float(over_picture.at(u, v)),
                        through = table.transmitted(NegativeDensity{density});
            const std::vector<const float*> rows{&here};
            float share = 0, dose = 0;
            table.find({&through, 1}, rows, {{&share, 1}, {&dose, 1}});
            worst = std::max(worst, std::abs(table.colour(double(share), double(dose)).l -
                                             fogged_as(paper, steps, level).lit(light).lab.l));

            const double at = over_all.at(u, v) * double(colours.size() - 1);
            const auto i = std::min(std::size_t(at), colours.size() - 2);
            const double drawn = colours[i].l + (at - double(i)) * (colours[i + 1].l - colours[i].l);
            const double on_sheet =
                law(pack.edge_fog.reach_mm, left + u * mm * (3000 + widths.across()),
                    top + v * mm * (2000 + widths.down()), frame.sheet_width, frame.sheet_height);
            worst_border =
                std::max(worst_border, std::abs(drawn - fogged_as(paper, steps, on_sheet).border().lab.l));
        }
    }
    std::cout << "1000 tones: worst " << worst << " L*, border " << worst_border << " L*\n";
    EXPECT_LT(worst, kPromised);
    EXPECT_LT(worst_border, kPromised);
}

}  // namespace
}  // namespace fogproof::tests
