// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "render/frame_search.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <span>

#include "render/edge_line.hpp"

namespace fogproof {
namespace {

// Judgement, all of them: densities and shares that tell clear film, picture and holder apart on common
// scans.
constexpr double kClearTolerance = 0.05;  // density; unevenness of a scanner's light and grain
constexpr double kThinnestHolder = 1.6;   // density above the brightest part that a holder has at least
constexpr double kHolderSpread = 0.35;    // density; scanner noise and stray light on the holder
constexpr double kAgreeing = 0.5;         // share of a side's lines that must end on one straight line
constexpr double kSurrounding = 0.6;      // share of a side beyond which background of one kind must lie
constexpr double kThinnerInside = 0.01;   // share of the frame that may be thinner than clear film (pinholes)
constexpr double kSmallestFrame = 0.3;    // of the scan's width and height
constexpr double kDeepestMargin = 0.08;   // of the frame; clear edge wider than this is not of interest

constexpr double kNoDensity = std::numeric_limits<double>::infinity();

struct Background {
    double clear = -kNoDensity, holder = kNoDensity;
    [[nodiscard]] bool is_clear(double density) const { return std::abs(density - clear) <= kClearTolerance; }
    [[nodiscard]] bool is_holder(double density) const { return density >= holder; }
    [[nodiscard]] bool covers(double density) const {
        return density <= clear + kClearTolerance || is_holder(density);
    }
};

/// The scan looked at from one side: `along` runs on that side, `depth` away from it.
class SideView {
  public:
    SideView(const SmallScan& scan, Side side) : scan_(scan), side_(side) {}
    [[nodiscard]] int length() const { return side_ <= kBottom ? scan_.width : scan_.height; }
    [[nodiscard]] int depth() const { return side_ <= kBottom ? scan_.height : scan_.width; }
    [[nodiscard]] double at(int along, int depth) const {
        const int x = side_ <= kBottom ? along : side_ == kLeft ? depth : scan_.width - 1 - depth;
        const int y = side_ > kBottom ? along : side_ == kTop ? depth : scan_.height - 1 - depth;
        return scan_.density[std::size_t(y) * std::size_t(scan_.width) + std::size_t(x)];
    }

  private:
    const SmallScan& scan_;
    Side side_;
};

/// Lines of a side between its two neighbours.
struct Stretch {
    int first, last;
    [[nodiscard]] int count() const { return last - first + 1; }
};

struct FrameSide {
    enum class Seen { nothing, clear, holder } seen = Seen::nothing;
    EdgeLine line;
};

using FrameSides = std::array<FrameSide, 4>;

/// Where background ends for good on every line, looking inwards from `start`.
std::vector<EdgePoint> ends_of_background(const SideView& view, const Background& background, Stretch stretch,
                                          int start) {
    const int lasting = std::max(3, int(0.02 * std::min(view.length(), view.depth())));
    std::vector<EdgePoint> ends;
    for (int along = stretch.first; along <= stretch.last; ++along) {
        int run = 0;
        for (int depth = start; depth < view.depth() * 6 / 10; ++depth) {
            run = background.covers(view.at(along, depth)) ? 0 : run + 1;
            if (run < lasting) continue;
            ends.push_back({double(along), double(depth + 1 - lasting)});
            break;
        }
    }
    return ends;
}

/// Depth of the innermost gap to a neighbouring picture; 0 without one.
int gap_before(const SideView& view, const Background& background, Stretch stretch) {
    for (int depth = view.depth() * 35 / 100; depth > 0; --depth) {
        int covered = 0;
        for (int along = stretch.first; along <= stretch.last; ++along)
            covered += background.covers(view.at(along, depth));
        if (covered > 0.92 * stretch.count()) return depth;
    }
    return 0;
}

/// What lies just outside a line, and whether enough of the side agrees on it.
FrameSide judged(const SideView& view, const Background& background, Stretch stretch, const EdgeLine& line,
                 std::span<const EdgePoint> ends) {
    const auto agreeing =
        std::count_if(ends.begin(), ends.end(), [&](const EdgePoint& end) { return lies_on(line, end); });
    if (double(agreeing) < kAgreeing * stretch.count()) return {};
    int clear = 0, holder = 0;
    for (int along = stretch.first; along <= stretch.last; ++along) {
        const int outside = int(std::lround(line.depth(along))) - 3;
        const double density = view.at(along, std::clamp(outside, 0, view.depth() - 1));
        clear += background.is_clear(density);
        holder += background.is_holder(density);
    }
    if (line.depth((stretch.first + stretch.last) / 2) < 2) return {};
    if (clear > kSurrounding * stretch.count()) return {FrameSide::Seen::clear, line};
    if (holder > kSurrounding * stretch.count()) return {FrameSide::Seen::holder, line};
    return {};
}

FrameSide side_of_frame(const SideView& view, const Background& background, Stretch stretch) {
    for (const int start : {0, gap_before(view, background, stretch)}) {
        const auto ends = ends_of_background(view, background, stretch, start);
        if (const auto line = edge_through(ends))
            if (const FrameSide side = judged(view, background, stretch, *line, ends);
                side.seen != FrameSide::Seen::nothing)
                return side;
    }
    return {};
}

double middle_depth(const FrameSide& side, const SideView& view) {
    return side.seen == FrameSide::Seen::nothing ? 0.0 : side.line.depth(0.5 * view.length());
}

/// The lines of a side that meet the frame: those between its neighbouring sides.
Stretch between(const SmallScan& scan, const FrameSides& sides, Side side) {
    const auto [before, after] = side <= kBottom ? std::pair{kLeft, kRight} : std::pair{kTop, kBottom};
    const SideView view(scan, side);
    const int first = int(std::ceil(middle_depth(sides[before], SideView(scan, before)))) + 2;
    const int last = view.length() - 3 - int(std::ceil(middle_depth(sides[after], SideView(scan, after))));
    return last - first >= 8 ? Stretch{first, last} : Stretch{0, view.length() - 1};
}

/// A first round over the middle half of each side finds about where they are, the second looks at all of
/// each.
FrameSides sides_of_frame(const SmallScan& scan, const Background& background) {
    FrameSides sides;
    for (const Side side : {kTop, kBottom, kLeft, kRight}) {
        const SideView view(scan, side);
        sides[side] = side_of_frame(view, background, {view.length() / 4, view.length() * 3 / 4});
    }
    const FrameSides about = sides;
    for (const Side side : {kTop, kBottom, kLeft, kRight})
        sides[side] = side_of_frame(SideView(scan, side), background, between(scan, about, side));
    return sides;
}

int count_seen(const FrameSides& sides, FrameSide::Seen seen) {
    return int(
        std::count_if(sides.begin(), sides.end(), [&](const FrameSide& each) { return each.seen == seen; }));
}

bool enclose(const FrameSides& sides) {
    const auto seen = [&](Side side) { return sides[side].seen != FrameSide::Seen::nothing; };
    return (seen(kTop) && seen(kBottom)) || (seen(kLeft) && seen(kRight));
}

/// Drawn in to the deeper end of an askew side and one mixed pixel further.
std::array<double, 4> insets(const SmallScan& scan, const FrameSides& sides) {
    std::array<double, 4> inset{};
    for (const Side side : {kTop, kBottom, kLeft, kRight}) {
        if (sides[side].seen == FrameSide::Seen::nothing) continue;
        const Stretch stretch = between(scan, sides, side);
        inset[side] =
            1 + std::max({0.0, sides[side].line.depth(stretch.first), sides[side].line.depth(stretch.last)});
    }
    return inset;
}

bool is_plausible(const SmallScan& scan, const std::array<double, 4>& inset, const Background& background) {
    const int left = int(inset[kLeft]), right = scan.width - int(inset[kRight]);
    const int top = int(inset[kTop]), bottom = scan.height - int(inset[kBottom]);
    if (right - left < kSmallestFrame * scan.width || bottom - top < kSmallestFrame * scan.height)
        return false;
    double thinner = 0;
    for (int y = top; y < bottom; ++y)
        for (int x = left; x < right; ++x)
            thinner += scan.density[std::size_t(y) * std::size_t(scan.width) + std::size_t(x)] <
                       background.clear - 2 * kClearTolerance;
    return thinner <= kThinnerInside * double(right - left) * double(bottom - top);
}

/// An opaque holder shows at the rim of the scan or not at all.
double holder_density(const SmallScan& scan, double brightest) {
    std::vector<float> rim, dark;
    const int deep = std::max(1, int(0.015 * std::min(scan.width, scan.height)));
    for (int y = 0; y < scan.height; ++y)
        for (int x = 0; x < scan.width; ++x) {
            if (std::min({x, y, scan.width - 1 - x, scan.height - 1 - y}) >= deep) continue;
            const float density = scan.density[std::size_t(y) * std::size_t(scan.width) + std::size_t(x)];
            rim.push_back(density);
            if (density > brightest + kThinnestHolder) dark.push_back(density);
        }
    if (double(dark.size()) < 0.03 * double(rim.size())) return kNoDensity;
    const auto middle = dark.begin() + std::ptrdiff_t(dark.size() / 2);
    std::nth_element(dark.begin(), middle, dark.end());
    return std::max(double(*middle) - kHolderSpread, brightest + kThinnestHolder);
}

/// Thin densities that occur often, the densest first.
std::vector<double> often_among_the_thin(const SmallScan& scan, double brightest) {
    constexpr int kBins = 130, kReach = 3;
    constexpr double kBin = 0.01;
    std::vector<int> count(kBins);
    for (const float density : scan.density)
        if (const int bin = int((density - brightest) / kBin); bin >= 0 && bin < kBins)
            ++count[std::size_t(bin)];
    const auto around = [&](int bin) {
        int sum = 0;
        for (int near = std::max(0, bin - 1); near <= std::min(kBins - 1, bin + 1); ++near)
            sum += count[std::size_t(near)];
        return sum;
    };
    std::vector<double> often;
    for (int bin = kBins - 1; bin >= 0; --bin) {
        bool is_peak = around(bin) > 0.002 * double(scan.density.size());
        for (int near = std::max(0, bin - kReach); near <= std::min(kBins - 1, bin + kReach); ++near)
            is_peak = is_peak && (near < bin ? around(near) < around(bin) : around(near) <= around(bin));
        if (is_peak) often.push_back(brightest + (bin + 0.5) * kBin);
    }
    return often;
}

double median_of_clear(const SmallScan& scan, const FrameSides& sides, const std::array<double, 4>& reach,
                       const Background& background) {
    std::vector<double> clear;
    for (const Side side : {kTop, kBottom, kLeft, kRight}) {
        if (sides[side].seen != FrameSide::Seen::clear) continue;
        const SideView view(scan, side);
        const Stretch stretch = between(scan, sides, side);
        for (int along = stretch.first; along <= stretch.last; ++along)
            for (int out = 2; out <= std::max(3, int(reach[side])); ++out) {
                const int depth = int(std::lround(sides[side].line.depth(along))) - out;
                if (depth >= 0 && background.is_clear(view.at(along, depth)))
                    clear.push_back(view.at(along, depth));
            }
    }
    if (clear.empty()) return background.clear;
    const auto middle = clear.begin() + std::ptrdiff_t(clear.size() / 2);
    std::nth_element(clear.begin(), middle, clear.end());
    return *middle;
}

std::optional<FoundFrame> frame_against(const SmallScan& scan, const Background& background) {
    const FrameSides sides = sides_of_frame(scan, background);
    const int clear = count_seen(sides, FrameSide::Seen::clear);
    if (!enclose(sides)) return std::nullopt;
    if (background.clear > -kNoDensity && clear < 2) return std::nullopt;
    FoundFrame found;
    found.inset = insets(scan, sides);
    if (!is_plausible(scan, found.inset, background)) return std::nullopt;
    double slopes = 0;
    for (const Side side : {kTop, kBottom, kLeft, kRight}) {
        if (sides[side].seen == FrameSide::Seen::nothing) continue;
        // A frame turned clockwise sinks to the right on top and rises from below, and so on around.
        slopes += (side == kTop || side == kRight) ? sides[side].line.slope : -sides[side].line.slope;
    }
    const int seen = clear + count_seen(sides, FrameSide::Seen::holder);
    found.degrees_askew = std::atan(slopes / seen) * 180 / std::numbers::pi;
    if (clear >= 2) {
        const auto reach = clear_around(scan, found.inset, background.clear);
        found.clear = median_of_clear(scan, sides, reach, background);
        found.clear_depth = clear_around(scan, found.inset, *found.clear);
    }
    return found;
}

}  // namespace

std::array<double, 4> clear_around(const SmallScan& scan, const std::array<double, 4>& inset, double clear) {
    constexpr double kMostlyClear = 0.9;
    const Background background{clear, kNoDensity};
    std::array<double, 4> reach{};
    for (const Side side : {kTop, kBottom, kLeft, kRight}) {
        const SideView view(scan, side);
        const auto [before, after] = side <= kBottom ? std::pair{kLeft, kRight} : std::pair{kTop, kBottom};
        const int first = std::max(0, int(inset[before]) + 1);
        const int last = std::min(view.length() - 1, view.length() - 2 - int(inset[after]));
        const int deepest = int(kDeepestMargin * std::max(scan.width, scan.height));
        int not_yet = 0;
        for (int out = 1; out <= deepest && int(inset[side]) - out >= 0; ++out) {
            int clear_here = 0;
            for (int along = first; along <= last; ++along)
                clear_here += background.is_clear(view.at(along, int(inset[side]) - out));
            if (clear_here > kMostlyClear * (last - first + 1)) reach[side] = out;
            // An askew frame leaves a wedge of picture just outside its inner rectangle.
            else if (reach[side] > 0 || ++not_yet > deepest / 2)
                break;
        }
    }
    return reach;
}

std::optional<FoundFrame> frame_in(const SmallScan& scan) {
    if (std::min(scan.width, scan.height) < 16) return std::nullopt;
    std::vector<float> sorted = scan.density;
    const auto thin = sorted.begin() + std::ptrdiff_t(sorted.size() / 500);
    std::nth_element(sorted.begin(), thin, sorted.end());
    const double brightest = *thin, holder = holder_density(scan, brightest);
    for (const double clear : often_among_the_thin(scan, brightest - 0.02))
        if (const auto found = frame_against(scan, {clear, holder})) return found;
    if (holder < kNoDensity) return frame_against(scan, {-kNoDensity, holder});
    return std::nullopt;
}

}  // namespace fogproof
