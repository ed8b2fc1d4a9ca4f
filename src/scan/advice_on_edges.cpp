// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/advice_on_edges.hpp"

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>
#include <vector>

#include "choose/tonal_extent.hpp"
#include "fogproof/base/error.hpp"
#include "pack/schema.hpp"
#include "pack/uncertainty.hpp"
#include "table/local_table.hpp"

namespace fogproof::scan {
namespace {

// Less is not worth another way of laying the sheet. Judgement.
constexpr double kWorthTurning = 0.2, kShareWorthTurning = 0.15;
constexpr double kMostOfSide = 0.4;  // that a margin may take of the shorter side, as --margin has it

SheetPart picture_of(const FrameOnSheet& frame) {
    return {frame.left, frame.top, frame.width, frame.height};
}

class Cost {
  public:
    Cost(const Printing& printing, const PaperModel& paper, PrintSteps steps, const SmallNegative& negative)
        : negative_(negative) {
        steps.local.clear();
        const LocalTable table(paper, printing.pack().darkroom.enlarger, steps,
                               printing.light().mean_transmitted());
        const PrintModel print(paper, printing.pack().darkroom.enlarger, steps,
                               printing.light().mean_transmitted());
        // Lightness of each tone by the level of the fog.
        lights_ = printing.frame().quantile(kDenseEnd);
        const TreatedSheet& sheet = print.sheet();
        for (int i = 0; i <= kLevels; ++i)
            by_level_.push_back(
                sheet.lit(print.projection().light(lights_), {0, sheet.more_fog(double(i) / kLevels)}).lab.l);
        through_ = table.transmitted(negative.density);
        plain_ = lightness(table, std::vector<float>(through_.size(), 0));
        table_ = std::make_unique<LocalTable>(table);
    }
    /// Of the picture's lights at a level of the fog.
    [[nodiscard]] double of_lights(double level) const {
        const double at = level * kLevels;
        const auto i = std::min(std::size_t(at), std::size_t(kLevels - 1));
        const double here = by_level_[i] + (at - double(i)) * (by_level_[i + 1] - by_level_[i]);
        return by_level_.front() - here;
    }
    /// rms L* over the picture.
    [[nodiscard]] double of_picture(const SheetFog& fog) const {
        const LevelGrid grid = levels(fog);
        std::vector<float> level;
        for (const std::uint16_t code : grid.level) level.push_back(float(code) / 65535.0f);
        const std::vector<double> fogged = lightness(*table_, level);
        double sum = 0;
        for (std::size_t i = 0; i < fogged.size(); ++i) sum += std::pow(fogged[i] - plain_[i], 2);
        return std::sqrt(sum / double(fogged.size()));
    }
    [[nodiscard]] double of_lights_at_worst(const SheetFog& fog) const {
        return of_lights(std::ranges::max(levels(fog).level) / 65535.0);
    }

  private:
    static constexpr int kLevels = 256;

    [[nodiscard]] LevelGrid levels(const SheetFog& fog) const {
        return fog.over(picture_of(fog.frame()), {negative_.width, negative_.height});
    }
    [[nodiscard]] std::vector<double> lightness(const LocalTable& table,
                                                const std::vector<float>& level) const {
        std::vector<float> share(through_.size()), dose(through_.size());
        const std::vector<const float*> rows{level.data()};
        table.find(through_, rows, {share, dose});
        std::vector<double> found;
        found.reserve(share.size());
        for (std::size_t i = 0; i < share.size(); ++i)
            found.push_back(table.colour(double(share[i]), double(dose[i])).l);
        return found;
    }

    const SmallNegative& negative_;
    NegativeDensity lights_{};
    std::vector<double> by_level_, plain_;
    std::vector<float> through_;
    std::unique_ptr<LocalTable> table_;
};

SheetFog with_margin(const SheetFog& fog, double margin, const SmallNegative& negative) {
    const FrameOnSheet& frame = fog.frame();
    SheetLayout sheet{frame.sheet_width, frame.sheet_height, margin};
    if (frame.quarter_turns % 2 == 1) std::swap(sheet.width, sheet.length);
    return fog.laid(
        laid_on_sheet(sheet, negative.width, negative.height, {fog.frame().quarter_turns, std::nullopt}));
}

// What the picture loses, within what is known of the fog: each number moved by its deviation.
Interval lost_within(const Printing& printing, const PrintSteps& steps, const SheetFog& fog,
                     const SmallNegative& negative, double likeliest) {
    double squared = 0;
    for (const char* name : {"edge_fog.density", "edge_fog.reach_mm"}) {
        const PackNumber& row = *pack_number(name);
        if (!applies(printing.pack(), row)) continue;
        const double deviation = deviation_of(printing.pack(), row);
        const auto moved_by = [&](double by) {
            Pack pack = printing.pack();
            row.in(pack) = std::clamp(row.of(pack) + by, row.minimum, row.maximum);
            if (!pack.edge_fog.is_there()) return 0.0;
            try {
                return Cost(printing, paper_model(pack), steps, negative).of_picture(fog.with(pack.edge_fog));
            } catch (const Error&) {
                return likeliest;  // no such paper
            }
        };
        const double change = (moved_by(deviation) - moved_by(-deviation)) / 2;
        squared += change * change;
    }
    const double half = kWithin95Percent * std::sqrt(squared);
    return {likeliest, std::max(0.0, likeliest - half), likeliest + half};
}

// Nothing where no margin helps.
std::optional<EdgeAdvice::Margin> better_margin(const Cost& cost, const SheetFog& fog,
                                                const SheetLayout& sheet, const SmallNegative& negative) {
    constexpr double kExact = 0.5;  // mm; nobody sets an easel finer
    double near = sheet.margin, far = kMostOfSide * std::min(sheet.width, sheet.length);
    const auto is_enough = [&](double margin) {
        return cost.of_lights_at_worst(with_margin(fog, margin, negative)) <= kSeenInLights;
    };
    if (far <= near || !is_enough(far)) return std::nullopt;
    while (far - near > kExact) {
        const double middle = (near + far) / 2;
        (is_enough(middle) ? far : near) = middle;
    }
    const double margin = std::ceil(far);
    const SheetFog moved = with_margin(fog, margin, negative);
    return EdgeAdvice::Margin{margin, moved.frame().width, moved.frame().height, cost.of_picture(moved)};
}

// The other ways in which the sheet can lie: half round, which leaves the picture where it is; and by a
// quarter where that leaves the picture its size, as on a square sheet.
std::vector<SheetFog> turned_alike(const SheetFog& fog, const SheetLayout& sheet,
                                   const SmallNegative& negative) {
    constexpr double kSameSize = 0.99;
    const FrameOnSheet& frame = fog.frame();
    std::vector<SheetFog> ways;
    for (const int by : {2, 1, 3}) {
        FrameOnSheet turned = frame;
        turned.quarter_turns = (frame.quarter_turns + by) % 4;
        if (by % 2 == 1)
            turned =
                laid_on_sheet(sheet, negative.width, negative.height, {turned.quarter_turns, std::nullopt});
        if (turned.width >= kSameSize * frame.width) ways.push_back(fog.laid(turned));
    }
    return ways;
}

}  // namespace

EdgeAdvice advice_on_edges(const Printing& printing, const PrintSteps& steps, const SheetFog& fog,
                           const SheetLayout& sheet, const SmallNegative& negative) {
    const Cost cost(printing, printing.paper(), steps, negative);
    EdgeAdvice advice{lost_within(printing, steps, fog, negative, cost.of_picture(fog)),
                      cost.of_lights_at_worst(fog)};
    if (advice.lights_lost > kSeenInLights) advice.margin = better_margin(cost, fog, sheet, negative);
    double least = advice.lost.value - std::max(kWorthTurning, kShareWorthTurning * advice.lost.value);
    for (const SheetFog& turned : turned_alike(fog, sheet, negative)) {
        const double lost = cost.of_picture(turned);
        if (lost >= least) continue;
        least = lost;
        advice.turn = {turned.frame().quarter_turns, lost};
    }
    return advice;
}

}  // namespace fogproof::scan
