// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/local_masks.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pixels/passes.hpp"
#include "pixels/placed_codes.hpp"
#include "scan/fogged_sheet.hpp"
#include "scan/scan_channel.hpp"
#include "scan/scan_file.hpp"
#include "scan/scan_pixels.hpp"

namespace fogproof::scan {
namespace {

// Proportions that round to whole pixels, or lose one to an editor, are still the frame's.
constexpr double kSameProportions = 0.01;
// A card held some centimetres above the paper and kept moving leaves a half shadow of a centimetre or two on
// a print of 24 x 30 cm, and hardly ever less than one. Judgement.
constexpr double kSharpestByHand = 3;  // percent of the longer side

std::string proportions(double width, double height) {
    return decimal(width / height, 3) + " to 1";
}

void require_grey(const ScanFile& file, const LevelWords& words) {
    const auto refuse = [&](const std::string& found) {
        throw Error(Fault::data, file.path().string(), std::string("is no ") + words.picture + ": " + found,
                    std::string("grey of 8 or 16 bits, ") + words.white + ", without alpha");
    };
    if (file.pages() > 1) refuse("it holds " + std::to_string(file.pages()) + " pages");
    const auto format = file.format();
    if (format != VIPS_FORMAT_UCHAR && format != VIPS_FORMAT_USHORT)
        refuse(std::string("samples of type ") + vips_enum_nick(VIPS_TYPE_BAND_FORMAT, format));
    if (file.bands() == 2) refuse("it has an alpha channel");
    if (file.bands() != 1) refuse("it is in colour, of " + std::to_string(file.bands()) + " channels");
    if (file.interpretation() != VIPS_INTERPRETATION_B_W &&
        file.interpretation() != VIPS_INTERPRETATION_GREY16)
        refuse(std::string("its samples are ") +
               vips_enum_nick(VIPS_TYPE_INTERPRETATION, file.interpretation()));
}

// ", such as 24x30cm": a trade size of this shape, the longer side over the shorter.
std::string trade_sheet(double shape) {
    struct Trade {
        int width, length;  // cm
    };
    for (const auto& [width, length] :
         {Trade{18, 24}, Trade{24, 30}, Trade{13, 18}, Trade{50, 60}, Trade{9, 13}})
        if (std::abs(std::log(shape * width / length)) <= kSameProportions)
            return ", such as " + std::to_string(width) + "x" + std::to_string(length) + "cm";
    return "";
}

void require_proportions(const ScanFile& file, int frame_width, int frame_height, const LevelWords& words) {
    const double mask = double(file.width()) / file.height(), wanted = double(frame_width) / frame_height;
    const double rounding = 0.5 / std::min(file.width(), file.height());
    const auto fits = [&](double ratio) {
        return std::abs(std::log(ratio / wanted)) <= kSameProportions + rounding;
    };
    if (fits(mask) || (words.either_way && fits(1 / mask))) return;
    if (words.either_way)
        throw Error(Fault::data, file.path().string(),
                    "was made for sheets of another shape: " + proportions(std::max(mask, 1 / mask), 1) +
                        ", " + words.over + " " + proportions(std::max(wanted, 1 / wanted), 1),
                    "--sheet of its shape" + trade_sheet(std::max(mask, 1 / mask)));
    const std::string over = words.over, wanted_words = over + "'s proportions";
    throw Error(Fault::data, file.path().string(),
                "is " + proportions(file.width(), file.height()) + ", " + over + " " +
                    proportions(frame_width, frame_height),
                fits(1 / mask) ? wanted_words + "; this " + words.picture + " is turned on its side"
                               : wanted_words + ", at any size: " + std::to_string(frame_width) + " x " +
                                     std::to_string(frame_height) + " pixels or fewer");
}

bool is_black(const LevelGrid& grid) {
    return std::ranges::all_of(grid.level, [](std::uint16_t level) { return level == 0; });
}

// A soft rim needs few cells.
LevelGrid drawn_levels(const MaskShape& shape, const Region& frame) {
    constexpr double kCellsOfRim = 64;
    const double wanted = kCellsOfRim / std::max(shape.soft / 100, kCellsOfRim / kMostLevels);
    constexpr double kFewestLevels = 256;
    return shape_levels(shape, grid_size(frame.width, frame.height, int(std::max(wanted, kFewestLevels))));
}

}  // namespace

LevelGrid picture_levels(const std::string& path, int frame_width, int frame_height, double max_pixels,
                         const LevelWords& words) {
    const ScanFile file(path, max_pixels);
    require_grey(file, words);
    require_proportions(file, frame_width, frame_height, words);
    ScanChannel channel;
    const std::size_t codes = file.format() == VIPS_FORMAT_UCHAR ? 256 : 65536;
    for (std::size_t code = 0; code < codes; ++code)
        channel.light.push_back(65535.0 * double(code) / double(codes - 1));
    const GridSize size = grid_size(file.width(), file.height());
    const ScanPixels pixels{file, channel};
    const auto source = source_of(pixels, pixels.all());
    const CellSums seen = cell_sums(*source, channel.light, fractional_cells(file.width(), size.width),
                                    fractional_cells(file.height(), size.height), Counting::off);
    LevelGrid grid{size.width, size.height, {}};
    const double area = double(file.width()) / size.width * (double(file.height()) / size.height);
    grid.level.reserve(seen.sums.size());
    for (const double sum : seen.sums)
        grid.level.push_back(std::uint16_t(std::clamp(std::lround(sum / area), 0l, 65535l)));
    if (is_black(grid))
        throw Error(Fault::data, path, std::string("is a ") + words.picture + " that is black everywhere",
                    std::string(words.white) + ", or no such " + words.picture);
    return grid;
}

Masks local_masks(const Recipe& recipe, const Scan& scan, const SheetFog* fog) {
    Masks masks;
    const Region frame = scan.frame();
    for (const LocalWork& work : recipe.local) {
        if (const auto* picture = std::get_if<MaskPicture>(&work.where)) {
            masks.push_back(picture_levels(picture->path, frame.width, frame.height));
            continue;
        }
        masks.push_back(drawn_levels(std::get<MaskShape>(work.where), frame));
        if (is_black(masks.back()))
            throw Error(Fault::data, "local work " + std::to_string(masks.size()) + " (" + called(work) + ")",
                        "its shape lies outside of the frame",
                        "a shape that reaches into it; the frame's sides are at 0 and 100 %");
    }
    if (fog != nullptr) masks.push_back(fog_levels(*fog, scan));
    return masks;
}

PlacedTones placed_tones(const Scan& scan, std::shared_ptr<const Masks> masks) {
    const PlacedCodes codes(scan.frame_pixels(), std::move(masks));
    return {Tones(counted(codes), scan.scale()), codes.levels()};
}

std::vector<std::string> rim_warnings(const Recipe& recipe, const Masks& masks) {
    std::vector<std::string> warnings;
    for (std::size_t i = 0; i < recipe.local.size(); ++i) {
        const LocalWork& work = recipe.local[i];
        if (work.kind == LocalWork::Kind::bleach) continue;
        const double rim = sharpest_rim(masks[i]);
        if (rim >= kSharpestByHand) continue;
        warnings.push_back("the rim of local work " + std::to_string(i + 1) + " (" + called(work) +
                           ") goes from full to nothing within " + two_digits(std::max(rim, 1.0)) +
                           " % of the longer side; a moving hand or card leaves " +
                           decimal(kSharpestByHand, 0) +
                           " % or more, so blur the mask or give the shape a softer rim");
    }
    return warnings;
}

std::vector<std::string> dodge_warnings(const PrintSteps& steps, const Masks& masks) {
    constexpr int kLooks = 128;  // across the frame
    const double exposure = exposed(steps).value;
    double most = 0;
    int overheld = 0;
    const auto is_dodge = [](const LocalStep& step) { return step.kind == LocalWork::Kind::dodge; };
    if (std::ranges::none_of(steps.local, is_dodge)) return {};
    for (int y = 0; y < kLooks; ++y)
        for (int x = 0; x < kLooks; ++x) {
            double held = 0;
            for (std::size_t i = 0; i < masks.size(); ++i)
                if (is_dodge(steps.local[i]))
                    held +=
                        local_time(steps, steps.local[i], masks[i].at((x + 0.5) / kLooks, (y + 0.5) / kLooks))
                            .value;
            overheld += held >= exposure * (1 - 1e-9);
            most = std::max(most, held);
        }
    if (overheld == 0) return {};
    return {
        "dodges hold back " + two_digits(most / exposure * 100) +
        " % of the exposure where they meet, over " + two_digits(100.0 * overheld / (kLooks * kLooks)) +
        " % of the frame: nothing but burns reaches the paper there, so shorten them or part their masks"};
}

std::vector<std::string> mask_files(const Recipe& recipe) {
    std::vector<std::string> files;
    for (const LocalWork& work : recipe.local)
        if (const auto* picture = std::get_if<MaskPicture>(&work.where)) files.push_back(picture->path);
    return files;
}

}  // namespace fogproof::scan
