// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/blank_sheet.hpp"

#include <algorithm>
#include <cmath>

#include "base/quantile.hpp"
#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "reading/light_density.hpp"

namespace fogproof::reading {
namespace {

constexpr int kMapSide = 240;  // cells: a millimetre or so of a sheet, and fog is softer
constexpr double kBlursLeftOut =
    2;  // blurs of the scan that are left out at the outline, whose shadow they hold
constexpr double kSmallestSheet = 60;
// D; less is the scanner's, judgement.
constexpr double kLeastEdge = 0.03;
// D; by which the middle may differ from the pack's blank before it is told.
constexpr double kMiddleApart = 0.05;
constexpr double kEdgeDoubt = 0.03;
// D; by which nine tenths of the middle of a sheet may differ: fog is even there, a picture is not.
// Judgement.
constexpr double kMiddleDiffers = 0.1;
constexpr double kMostFogged = 0.998;  // share of the cells below what counts as the edge's fog

struct SheetCells {
    int width, height;
    std::vector<double> value;
    [[nodiscard]] double& at(int x, int y) {
        return value[std::size_t(y) * std::size_t(width) + std::size_t(x)];
    }
    [[nodiscard]] double at(int x, int y) const {
        return value[std::size_t(y) * std::size_t(width) + std::size_t(x)];
    }
};

const ScanPiece& sheet_on(const CalibratedScan& scan, const std::string& place) {
    const ScanPiece* largest = nullptr;
    const auto area = [](const ScanPiece& piece) { return piece.place.length * piece.place.width; };
    for (const ScanPiece& piece : scan.pieces.all) {
        const bool is_known = std::ranges::any_of(
            scan.known, [&](const KnownPlace& known) { return known.patch.piece == piece.number; });
        if (!is_known && (largest == nullptr || area(piece) > area(*largest))) largest = &piece;
    }
    if (largest == nullptr || std::min(largest->place.length, largest->place.width) < kSmallestSheet)
        throw Error(Fault::data, place, "shows no sheet",
                    "one sheet developed without exposure, on a lid that it stands out from");
    return *largest;
}

// With u across the scan, so that the map lies as the sheet did.
StripPlace as_it_lay(StripPlace place) {
    constexpr double kHalfWay = 0.70710678;
    for (int turn = 0; turn < 3 && std::cos(place.angle) < kHalfWay - 1e-9; ++turn) place = place.turned();
    return place;
}

// Mean density of the pixels of every cell.
SheetCells cell_densities(const CalibratedScan& scan, const StripPlace& place) {
    const double longer = std::max(place.length, place.width), cell = std::max(1.0, longer / kMapSide);
    SheetCells cells{std::max(1, int(std::lround(place.length / cell))),
                     std::max(1, int(std::lround(place.width / cell))),
                     {}};
    const double rim = kBlursLeftOut * std::max(1.0, scan.pieces.blur);
    const int looks = std::clamp(int(std::ceil(cell)), 1, 12);
    for (int y = 0; y < cells.height; ++y)
        for (int x = 0; x < cells.width; ++x) {
            double light = 0;
            for (int j = 0; j < looks; ++j)
                for (int i = 0; i < looks; ++i) {
                    const double u = (x + (i + 0.5) / looks) * place.length / cells.width,
                                 v = (y + (j + 0.5) / looks) * place.width / cells.height;
                    const auto [px, py] = place.at(std::clamp(u, rim, place.length - rim),
                                                   std::clamp(v, rim, place.width - rim));
                    light += double(scan.image.light_at(std::clamp(int(px), 0, scan.image.width - 1),
                                                        std::clamp(int(py), 0, scan.image.height - 1)));
                }
            cells.value.push_back(density_of_light(scan.scale.reflectance(light / (looks * looks))));
        }
    return cells;
}

// Medians of five by five outvote dust, means of as many take noise off.
template <class Of>
SheetCells over_neighbours(const SheetCells& cells, const Of& of) {
    constexpr int kAround = 2;
    SheetCells result = cells;
    std::vector<double> near;
    for (int y = 0; y < cells.height; ++y)
        for (int x = 0; x < cells.width; ++x) {
            near.clear();
            for (int j = std::max(0, y - kAround); j <= std::min(cells.height - 1, y + kAround); ++j)
                for (int i = std::max(0, x - kAround); i <= std::min(cells.width - 1, x + kAround); ++i)
                    near.push_back(cells.at(i, j));
            result.at(x, y) = of(near);
        }
    return result;
}

SheetCells smoothed_cells(const SheetCells& cells) {
    const auto mean = [](const std::vector<double>& values) {
        double sum = 0;
        for (const double value : values) sum += value;
        return sum / double(values.size());
    };
    return over_neighbours(over_neighbours(cells, base::median<double>), mean);
}

// Of the middle half, each way.
std::vector<double> inner_cells(const SheetCells& cells) {
    std::vector<double> values;
    for (int y = cells.height / 4; y < (3 * cells.height + 3) / 4; ++y)
        for (int x = cells.width / 4; x < (3 * cells.width + 3) / 4; ++x) values.push_back(cells.at(x, y));
    return values;
}

}  // namespace

BlankSheet blank_sheet(const CalibratedScan& scan, const Pack& pack, const std::string& place) {
    const ScanPiece& piece = sheet_on(scan, place);
    const SheetCells cells = smoothed_cells(cell_densities(scan, as_it_lay(piece.place)));
    const Sheet sheet(pack.sheet);
    const double black = sheet.layer_showing({pack.black_density}).value,
                 blank = sheet.layer_showing({pack.blank_density}).value;
    const double white = sheet.white().value;
    const auto share_of = [&](double density) {
        return sheet.layer_showing({std::clamp(density, white, pack.black_density)}).value / black;
    };
    BlankSheet read{{cells.width, cells.height, {}}, base::median(inner_cells(cells)), 0, piece.number, {}};
    std::vector<double> middle = inner_cells(cells);
    const double lightest = base::quantile(middle, 0.05), darkest = base::quantile(middle, 0.95);
    if (const double apart = darkest - lightest; apart > kMiddleDiffers)
        throw Error(Fault::data, place,
                    "its largest piece is no blank sheet: its middle differs by " + fixed(apart, 2) + " D",
                    "a whole sheet developed without exposure, whose middle is even to " +
                        decimal(kMiddleDiffers, 2) + " D");
    const double in_middle = share_of(read.middle);
    std::vector<double> more, apart;
    for (const double density : cells.value) more.push_back(share_of(density) - in_middle);
    for (const double density : inner_cells(cells)) apart.push_back(std::abs(share_of(density) - in_middle));
    std::vector<double> ranked = more;
    const double most = std::min(base::quantile(ranked, kMostFogged), 1 - blank / black);
    read.edge_density = sheet.density({blank + std::max(0.0, most) * black}).value - pack.blank_density;
    if (read.edge_density < kLeastEdge)
        throw Error(Fault::data, place,
                    "its edges are no more fogged than its middle (" + fixed(read.edge_density, 3) + " D)",
                    decimal(kLeastEdge, 2) + " D or more; such a pack needs no map");
    // What the middle itself differs by is the scanner's and the coating's.
    const double noise = 2 * kMadToSigma * base::median(apart);
    for (const double each : more) {
        const double counts = noise > 0 ? std::clamp((each - noise) / noise, 0.0, 1.0) : 1;
        read.map.level.push_back(
            std::uint16_t(std::lround(65535 * std::clamp(counts * each / most, 0.0, 1.0))));
    }
    if (std::abs(read.middle - pack.blank_density) > kMiddleApart)
        read.notes.push_back("the middle of the sheet reads " + fixed(read.middle, 2) +
                             ", the pack's blank is " + fixed(pack.blank_density, 2) +
                             ": only what the edges have more is taken; develop as the blank, name a known "
                             "patch (--known), or mend the pack");
    return read;
}

Pack with_edge_map(Pack pack, const BlankSheet& read, const std::string& map) {
    pack.edge_fog = {to_thousandths(read.edge_density), EdgeFog{}.reach_mm, map};
    pack.knowledge["edge_fog.density"] = {Origin::measured, kEdgeDoubt};
    pack.knowledge.erase("edge_fog.reach_mm");
    return pack;
}

}  // namespace fogproof::reading
