// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/sheet_border.hpp"

#include <cmath>

namespace fogproof::picture {

BorderWidths margins_of(const FrameOnSheet& frame, int picture_width, int picture_height) {
    const auto across = [&](double mm) { return int(std::lround(mm * picture_width / frame.width)); };
    const auto down = [&](double mm) { return int(std::lround(mm * picture_height / frame.height)); };
    return {across(frame.left), down(frame.top), across(frame.right_margin()), down(frame.bottom_margin())};
}

LevelGrid fog_over(const SheetFog& fog, const BorderWidths& border, int picture_width, int picture_height) {
    const FrameOnSheet& frame = fog.frame();
    const double across = frame.width / picture_width, down = frame.height / picture_height;
    const int width = picture_width + border.across(), height = picture_height + border.down();
    return fog.over(
        {frame.left - across * border.left, frame.top - down * border.top, across * width, down * height},
        grid_size(width, height));
}

std::vector<Lab> border_colours(const PrintModel& print) {
    constexpr int kSteps = 512;  // between which colours go straight within a hundredth of L*
    const TreatedSheet sheet = print.sheet().for_many_patches();
    std::vector<Lab> colours;
    for (int i = 0; i <= kSteps; ++i)
        colours.push_back(sheet.border({0, sheet.more_fog(double(i) / kSteps)}).lab);
    return colours;
}

PrintBorder print_border(const BorderWidths& widths, const SheetFog* fog, const PrintModel& print,
                         const ColourCoder& coder, int picture_width, int picture_height) {
    if (fog == nullptr || widths.is_none()) {
        const Lab paper = print.border().lab;
        return {widths, coder.bytes({&paper, 1})};
    }
    return {widths, std::make_shared<const LevelGrid>(fog_over(*fog, widths, picture_width, picture_height)),
            coder.in_16_bits().codes(border_colours(print)), coder.channels(), coder.bits()};
}

}  // namespace fogproof::picture
