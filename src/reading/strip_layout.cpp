// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include "reading/strip_measure.hpp"

namespace fogproof::reading {
namespace {

// A strip this much longer than wide has its steps along it.
constexpr double kLongStrip = 2.0;
// Judgement, in density: an edge against the trend that ends the steps (the margin of the paper begins).
constexpr double kMarginEdge = 0.05;
// What one edge counts at most, in density: a black step against a white margin is no row of steps.
constexpr double kOneEdge = 0.1;
// Judgement, in density: nearer than this, a last tone may go over into the lid's.
constexpr double kNearLid = 0.4;
// Judgement, in density: nearer than this, further steps may hide in the lid.
constexpr double kLikeLid = 0.1;
constexpr double kNarrowest = 8;  // pixels

// The longest stretch of edges that go one way, and where the paper around it ends.
struct Trend {
    std::vector<Edge> edges;
    double start, end, weight = 0;
    bool at_start = false, at_end = false;  ///< the paper's own ends, not a margin's
};

Trend trend(const std::vector<Edge>& all, double start, double end, int sign) {
    Trend best{{}, start, end}, now{{}, start, end};
    now.at_start = true;
    const auto close = [&](double at, bool is_end) {
        now.end = at, now.at_end = is_end;
        if (now.weight > best.weight) best = now;
        now = Trend{{}, at, end};
    };
    for (const Edge& edge : all) {
        if (edge.rise * sign > 0)
            now.edges.push_back(edge), now.weight += std::min(std::abs(edge.rise), kOneEdge);
        else if (std::abs(edge.rise) > kMarginEdge)
            close(edge.u, false);
    }
    close(end, true);
    return best;
}

double mean_between(const Profile& along, double u0, double u1) {
    double sum = 0;
    int count = 0;
    for (std::size_t i = 0; i < along.density.size(); ++i)
        if (const double u = along.from + double(i) + 0.5; u >= u0 && u < u1)
            sum += along.density[i], ++count;
    return count > 0 ? sum / count : std::nan("");
}

// Pixels that the picture goes on beyond u, in the direction of `way`.
double picture_beyond(const ReflectionImage& image, const StripPlace& place, double u, double way) {
    for (double reach = 0;; reach += 1) {
        const auto [x, y] = place.at(u + way * reach, place.width / 2);
        if (x < 0 || y < 0 || x > image.width || y > image.height) return reach;
    }
}

class Search {
  public:
    Search(const ReflectionImage& image, const StripPlace& place, const PlaceRequest& request)
        : image_(image), place_(place), request_(request) {}

    [[nodiscard]] std::variant<StripLayout, LayoutFault> layout() {
        double reach = std::max(3.0, place_.length / 120), v0 = 0.25 * place_.width, v1 = 0.75 * place_.width;
        Trend steps = best_trend(v0, v1, reach);
        if (steps.edges.empty()) return LayoutFault{"no steps", "a strip with steps", true};
        std::tie(v0, v1) = width_with_edges(image_, place_, steps.edges, reach);
        if (v1 - v0 < kNarrowest) return LayoutFault{"steps narrower than 8 pixels", "a finer scan"};
        const double inset = 0.12 * (v1 - v0);
        steps = best_trend(v0 + inset, v1 - inset, reach);
        if (const auto row = regular_pitch(steps.edges); row && 0.3 * row->pitch > reach)
            steps = best_trend(v0 + inset, v1 - inset, 0.3 * row->pitch);
        const bool darkens = !steps.edges.empty() && steps.edges.front().rise > 0;
        if (steps.edges.empty() || (steps.edges.size() == 1 && request_.steps != 2))
            return LayoutFault{"no row of steps", "a strip with steps", true};
        auto bounds =
            step_bounds(steps.edges, run_of(steps, darkens, v0 + inset, v1 - inset), request_.steps);
        if (auto* fault = std::get_if<1>(&bounds)) return LayoutFault{fault->first, fault->second};
        return StripLayout{place_, std::get<Bounds>(bounds), v0, v1, darkens};
    }

  private:
    Trend best_trend(double v0, double v1, double reach) {
        const double margin = request_.lid ? 3 * request_.blur + reach : 0;
        along_ = profile(image_, place_, -margin, place_.length + margin, v0, v1);
        std::vector<Edge> all = edges(along_, reach);
        double start = 0, end = place_.length;
        if (request_.lid) {
            start = outline(all, 0, reach);
            end = outline(all, place_.length, reach);
        }
        std::erase_if(all, [&](const Edge& edge) { return edge.u < start + reach || edge.u > end - reach; });
        const Trend lighter = trend(all, start, end, -1), darker = trend(all, start, end, 1);
        return lighter.weight >= darker.weight ? lighter : darker;
    }

    // Where the paper ends: the strongest edge near the coarse outline, if there is one.
    [[nodiscard]] double outline(const std::vector<Edge>& all, double coarse, double reach) const {
        double at = coarse, strongest = 0;
        for (const Edge& edge : all)
            if (std::abs(edge.u - coarse) <= 2 * request_.blur + reach && std::abs(edge.rise) > strongest)
                at = edge.u, strongest = std::abs(edge.rise);
        return at;
    }

    [[nodiscard]] Run run_of(const Trend& steps, bool darkens, double v0, double v1) const {
        Run run{steps.start, steps.end};
        if (!request_.lid) return run;
        const double inside = std::max(3.0, (run.end - run.start) / 100), skip = 2;
        // A half that was bleached has its own tones: both halves must lead over.
        const double side = 0.3 * (v1 - v0);
        std::array halves{along_of(v0, v0 + side), along_of(v1 - side, v1)};
        const auto leads_over = [&](double from, double to, bool outward_darkens, double near) {
            return std::ranges::all_of(halves, [&](const Profile& half) {
                const double to_lid = *request_.lid - mean_between(half, from, to);
                return std::abs(to_lid) < near && (outward_darkens ? to_lid > 0 : to_lid < 0);
            });
        };
        // White paper and a white lid are nearly alike; that a black is a card's by chance, nothing says.
        const auto near = [&](bool outward_darkens) { return outward_darkens ? kLikeLid : kNearLid; };
        const auto at_start = [&](double distance) {
            return leads_over(run.start + skip, run.start + skip + inside, !darkens, distance);
        };
        const auto at_end = [&](double distance) {
            return leads_over(run.end - skip - inside, run.end - skip, darkens, distance);
        };
        run.open_start = steps.at_start && at_start(near(!darkens));
        run.open_end = steps.at_end && at_end(near(darkens));
        run.hidden = (run.open_start && at_start(kLikeLid)) || (run.open_end && at_end(kLikeLid));
        run.reach_start = picture_beyond(image_, place_, run.start, -1);
        run.reach_end = picture_beyond(image_, place_, run.end, 1);
        return run;
    }

    [[nodiscard]] Profile along_of(double v0, double v1) const {
        return profile(image_, place_, 0, place_.length, v0, v1);
    }

    const ReflectionImage& image_;
    const StripPlace& place_;
    const PlaceRequest& request_;
    Profile along_{};
};

}  // namespace

std::variant<StripLayout, LayoutFault> strip_layout(const ReflectionImage& image, const StripPlace& found,
                                                    const PlaceRequest& request) {
    StripPlace along = found.length >= found.width ? found : found.turned();
    if (request.steps == 1) {
        const StripPlace whole = along;
        return StripLayout{whole, {{0, whole.length}, 0, true}, 0, whole.width, false};
    }
    along = straightened(image, along, request.turn);
    if (along.length < kLongStrip * along.width) {
        const StripPlace across = straightened(image, along.turned(), request.turn);
        if (change_along(image, across) > change_along(image, along)) along = across;
    }
    return Search(image, along, request).layout();
}

}  // namespace fogproof::reading
