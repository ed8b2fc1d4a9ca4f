// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/one_strip.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <variant>

#include "reading/strip_measure.hpp"

namespace fogproof::reading {
namespace {

// Judgement, in density: what a step may be denser than the one before it and still count as equal.
constexpr double kStepNoise = 0.02, kStepNoiseShare = 0.02;
// Times the way from one step to the next that a further step may lie off, towards the end of a curve.
constexpr double kMostOfBefore = 1.5;
// Judgement, in density: halves that differ by less are not one bleached and one unbleached.
constexpr double kBleachShows = 0.01;

double total(const std::vector<StepReading>& steps) {
    double sum = 0;
    for (const auto& step : steps) sum += step.density.value;
    return sum;
}

StepDoubt step_doubt(const StripLayout& layout) {
    const Bounds& bounds = layout.bounds;
    const int count = int(bounds.at.size()) - 1;
    StepDoubt doubt;
    for (const StepRange& range : bounds.alike)
        doubt.alike.emplace_back(layout.darkens ? count - range.last : range.first + 1,
                                 layout.darkens ? count - range.first : range.last + 1);
    std::ranges::sort(doubt.alike);
    doubt.exact = bounds.exact;
    doubt.elsewhere = bounds.elsewhere;
    doubt.like_lid = bounds.beyond;
    doubt.dark_like_lid = bounds.beyond_at_start != layout.darkens;
    doubt.left_dark = layout.darkens ? bounds.left_after : bounds.left_before;
    doubt.left_light = layout.darkens ? bounds.left_before : bounds.left_after;
    return doubt;
}

class StripReader {
  public:
    StripReader(const ReflectionImage& part, const ScanOrigin& origin, const StripLayout& layout,
                const StripRequest& request, const DensityOfLight& scale, OneStrip& made)
        : part_(part), origin_(origin), layout_(layout), request_(request), scale_(scale), made_(made) {}

    void read() const {
        const auto& edges = layout_.bounds.at;
        StripReading strip{
            origin_.corners(layout_.place.corners(edges.front(), edges.back(), layout_.v0, layout_.v1)),
            {},
            {},
            int(edges.size()) - 1,
            0,
            step_doubt(layout_)};
        if (request_.halves)
            read_halves(strip);
        else
            read_whole(strip);
        refuse_lid(strip);
        if ((made_.faults.empty() || request_.leave_out) && !strip.steps.empty())
            made_.reading = std::move(strip);
    }

  private:
    void read_halves(StripReading& strip) const {
        const auto& edges = layout_.bounds.at;
        const double parting =
            parting_line(part_, layout_.place, edges.front(), edges.back(), layout_.v0, layout_.v1);
        strip.steps = steps_between(layout_.v0, parting);
        strip.bleached = steps_between(parting, layout_.v1);
        const double first = total(strip.steps), second = total(strip.bleached);
        if (first < second) std::swap(strip.steps, strip.bleached);
        if (made_.faults.empty() && std::abs(first - second) < kBleachShows * double(strip.steps.size()))
            made_.faults.push_back("strip at " + origin_.words(layout_.place) +
                                   ": its halves do not differ; one half bleached, or no --halves");
    }

    void read_whole(StripReading& strip) const {
        strip.steps = steps_between(layout_.v0, layout_.v1);
        if (!made_.faults.empty() && bleached_by_halves(part_, layout_, scale_))
            made_.faults = {"strip at " + origin_.words(layout_.place) +
                            ": one half of it is lighter all along; --halves --bleach SECONDS for a strip "
                            "bleached by halves"};
    }

    // Towards either end of the paper's curve its tones draw together. A place that looks like the lid and
    // lies farther off than that is the lid.
    void refuse_lid(StripReading& strip) const {
        const int count = int(strip.steps.size()), lid = strip.doubt.like_lid, seen = count - lid;
        if (lid == 0 || seen < 2 || count != strip.step_count) return;
        const auto at = [&](int i) {
            const int step = strip.doubt.dark_like_lid ? count - 1 - i : i;
            return strip.steps[std::size_t(step)].density.value;
        };
        const double before = std::abs(at(seen - 2) - at(seen - 1)),
                     beyond = std::abs(at(seen - 1) - at(seen));
        if (beyond <= kMostOfBefore * before + kStepNoise) return;
        made_.faults.push_back("strip at " + origin_.words(layout_.place) + ": " + std::to_string(seen) +
                               " steps are found, and beyond them lies the background; expected: " +
                               std::to_string(count) + " steps, as told");
        const auto gone = [&](const StepReading& step) {
            return strip.doubt.dark_like_lid ? step.step <= lid : step.step > seen;
        };
        std::erase_if(strip.steps, gone), std::erase_if(strip.bleached, gone);
        strip.doubt.like_lid = 0;
    }

    [[nodiscard]] std::vector<StepReading> steps_between(double v0, double v1) const {
        std::vector<StepReading> steps;
        int number = 0;
        for (const MeasuredStep& step : measured_steps(part_, layout_, v0, v1, scale_)) {
            ++number;
            std::string fault = step.fault;
            if (fault.empty() && !steps.empty()) {
                const double before = steps.back().density.value;
                if (step.density > before + kStepNoise + kStepNoiseShare * before)
                    fault = "denser than the step before it; steps from dark to light";
            }
            if (fault.empty())
                steps.push_back(
                    {number, {step.density}, step.scatter, step.count, origin_.corners(step.corners)});
            else
                made_.faults.push_back("step " + std::to_string(number) + " at " +
                                       origin_.words(step.corners) + " is " + fault);
        }
        return steps;
    }

    const ReflectionImage& part_;
    const ScanOrigin& origin_;
    const StripLayout& layout_;
    const StripRequest& request_;
    const DensityOfLight& scale_;
    OneStrip& made_;
};

std::vector<std::string> notes_on(const StripLayout& layout, const std::string& at) {
    const auto& bounds = layout.bounds;
    std::vector<std::string> notes;
    if (bounds.open)
        notes.push_back("strip at " + at + ": " + std::to_string(bounds.at.size() - 1) +
                        " steps counted, but its last tones look like the background and there may "
                        "be more; --steps tells their number");
    if (!bounds.even) notes.push_back("strip at " + at + ": bands of uneven length");
    return notes;
}

}  // namespace

OneStrip strip_at(const ReflectionImage& part, const ScanOrigin& origin, const StripPlace& place,
                  const PlaceRequest& how, const StripRequest& request, const DensityOfLight& scale) {
    OneStrip made;
    const auto found = strip_layout(part, place, how);
    if (const auto* fault = std::get_if<LayoutFault>(&found)) {
        made.is_plain = fault->is_plain;
        if (!made.is_plain)
            made.faults.push_back("strip at " + origin.words(place) + ": " + fault->found +
                                  "; expected: " + fault->allowed);
        return made;
    }
    const auto& layout = std::get<StripLayout>(found);
    made.notes = notes_on(layout, origin.words(place));
    StripReader(part, origin, layout, request, scale, made).read();
    return made;
}

}  // namespace fogproof::reading
