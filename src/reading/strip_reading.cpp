// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/strip_reading.hpp"

#include <algorithm>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "reading/scanner_bed.hpp"
#include "reading/strip_measure.hpp"

namespace fogproof::reading {
namespace {

// Smaller things on the lid are labels, clips, dust.
constexpr double kSmallestShare = 0.002;
// Judgement, in density: what a step may be denser than the one before it and still count as equal.
constexpr double kStepNoise = 0.02, kStepNoiseShare = 0.02;
// Judgement, in density: halves that differ by less are not one bleached and one unbleached.
constexpr double kBleachShows = 0.01;
// Judgement, in density: a lid below it is white, and paper on it may be as white.
constexpr double kWhiteLid = 0.3;

ReflectionImage part_of(const ReflectionImage& image, const Region& part) {
    ReflectionImage made{part.width, part.height, image.scan_pixels};
    for (int y = part.top; y < part.top + part.height; ++y)
        for (int x = part.left; x < part.left + part.width; ++x) {
            made.light.push_back(image.light_at(x, y));
            made.clipped.push_back(image.clipped_at(x, y));
        }
    return made;
}

Region in_image(const Region& region, const ReflectionImage& image, const std::string& what) {
    const double side = image.scan_pixels;
    const Region made{int(region.left / side), int(region.top / side), int(region.width / side),
                      int(region.height / side)};
    const bool inside = region.left >= 0 && region.top >= 0 && made.left + made.width <= image.width &&
                        made.top + made.height <= image.height;
    const std::string size = decimal(image.width * side, 0) + " x " + decimal(image.height * side, 0);
    if (!inside) throw Error(Fault::usage, what, "lies outside the scan", "within its " + size + " pixels");
    if (made.width < 8 || made.height < 8)
        throw Error(Fault::usage, what, "is too small",
                    "at least " + decimal(8 * side, 0) + " pixels a side for a scan of " + size);
    return made;
}

// One line stays one line, however much is wrong.
std::string first_of(const std::vector<std::string>& faults) {
    constexpr std::size_t shown = 3;
    std::string line;
    for (std::size_t i = 0; i < std::min(shown, faults.size()); ++i)
        line.append(i > 0 ? "; " : "").append(faults[i]);
    if (faults.size() > shown) line += "; and " + std::to_string(faults.size() - shown) + " more";
    return line;
}

class ScanReader {
  public:
    ScanReader(const ReflectionImage& image, const StripRequest& request) : image_(image), request_(request) {
        for (const auto& known : request.known)
            known_.push_back(in_image(known.region, image, request.place + ": region of known density"));
        even_out();
        take_references();
    }

    [[nodiscard]] ScanReading result() {
        Region frame{0, 0, image_.width, image_.height};
        if (request_.frame) frame = in_image(*request_.frame, image_, request_.place + ": frame");
        left_ = frame.left, top_ = frame.top;
        const ReflectionImage looked_at = part_of(image_, frame);
        const CoarseImage blocks = coarse(looked_at);
        const auto bed = scanner_bed(blocks);
        const double width = looked_at.width, height = looked_at.height;
        const std::vector<StripPlace> places =
            bed ? places_on(*bed, blocks)
                : std::vector{StripPlace{width / 2, height / 2, 0, width * 0.98, height * 0.98}};
        PlaceRequest how{request_.steps, {}, double(blocks.block), 0.4};
        if (bed)
            how.lid = bed->density;
        else
            how.turn = 3.5;  // no outline tells the direction to half a degree
        for (const StripPlace& place : places)
            if (place.length * place.width >= kSmallestShare * width * height) read(looked_at, place, how);
        if (!faults_.empty() && !request_.leave_out)
            throw Error(Fault::data, request_.place, first_of(faults_));
        for (auto& fault : faults_) result_.notes.push_back("left out: " + fault);
        const bool white_lid = bed && bed->density < kWhiteLid, by_patches = request_.steps == 1;
        if (result_.strips.empty()) refuse_emptiness(white_lid, by_patches);
        if (white_lid && by_patches)
            result_.notes.push_back(std::to_string(result_.strips.size()) +
                                    (result_.strips.size() == 1 ? " patch" : " patches") +
                                    " found; one as white as the lid is not seen, black card over it "
                                    "shows it");
        put_in_order();
        return std::move(result_);
    }

  private:
    [[noreturn]] void refuse_emptiness(bool white_lid, bool by_patches) const {
        std::string found = by_patches ? "holds no patch" : "holds no strip";
        if (plain_ > 0)
            found +=
                ", only " + std::to_string(plain_) + (plain_ == 1 ? " patch" : " patches") + " without steps";
        std::string allowed = by_patches ? "patches that stand out from what lies behind them"
                                         : "a strip with steps from dark to light, or --steps 1 for plain "
                                           "patches";
        if (white_lid) allowed += "; a slip as white as the lid is not seen, black card over it shows it";
        throw Error(Fault::data, request_.place, found, allowed);
    }

    void even_out() {
        std::optional<Evenness> evenness;
        if (const auto bed = scanner_bed(coarse(image_)); bed && bed->evenness.span() > 0)
            evenness = bed->evenness;
        std::string by = "the background";
        if (!evenness && !known_.empty()) {
            evenness = evenness_of_patches(image_, known_);
            by = "the patches of known density";
        }
        if (!evenness) {
            result_.notes.push_back(
                "neither background nor known patches show how even the scanner's light is; "
                "it is taken as even");
            return;
        }
        for (int y = 0; y < image_.height; ++y)
            for (int x = 0; x < image_.width; ++x)
                image_.light[image_.index(x, y)] *= float(std::pow(10.0, evenness->at(x + 0.5, y + 0.5)));
        if (evenness->span() >= 0.005)
            result_.notes.push_back("the light differs by " + fixed(evenness->span(), 3) +
                                    " in density over the scan; evened out by " + by);
    }

    void take_references() {
        std::vector<std::pair<double, double>> known;  // light, reflectance
        for (std::size_t i = 0; i < known_.size(); ++i) {
            const Region& r = known_[i];
            const StripPlace place{r.left + r.width / 2.0, r.top + r.height / 2.0, 0, double(r.width),
                                   double(r.height)};
            const StripLayout layout{place, {{0, place.length}, 0, true}, 0, place.width, false};
            const MeasuredStep step = measured_steps(image_, layout, 0, place.width, {}).front();
            if (!step.fault.empty())
                throw Error(Fault::data, request_.place,
                            "patch of known density at " + at(place) + " is " + step.fault);
            known.emplace_back(std::pow(10.0, -step.density), std::pow(10.0, -request_.known[i].density));
        }
        if (known.empty())
            result_.notes.push_back(
                "no patch of known density was given: the scan's full scale is taken as density 0, so that "
                "all "
                "densities may be off by one amount (assumed)");
        if (known.size() == 1) scale_.gain = known[0].second / known[0].first;
        if (known.size() == 2) {
            scale_.gain = (known[0].second - known[1].second) / (known[0].first - known[1].first);
            scale_.stray = known[0].first - known[0].second / scale_.gain;
            if (!(scale_.gain > 0) || !std::isfinite(scale_.gain))
                throw Error(Fault::data, request_.place, "the two known patches contradict each other",
                            "the denser one must be the darker one");
        }
    }

    void read(const ReflectionImage& image, const StripPlace& place, const PlaceRequest& how) {
        const bool is_reference = std::ranges::any_of(known_, [&](const Region& r) {
            const auto [u, v] = place.uv(r.left + r.width / 2.0 - left_, r.top + r.height / 2.0 - top_);
            return u >= 0 && v >= 0 && u <= place.length && v <= place.width;
        });
        if (is_reference && request_.steps == 1) return;
        const auto found = strip_layout(image, place, how);
        if (const auto* fault = std::get_if<LayoutFault>(&found)) {
            if (!fault->is_plain)
                faults_.push_back("strip at " + at(place) + ": " + fault->found + "; " + fault->allowed);
            else if (!is_reference)
                ++plain_, result_.notes.push_back("a patch without steps at " + at(place) + " is left aside");
            return;
        }
        const auto& layout = std::get<StripLayout>(found);
        if (layout.bounds.beyond > 0)
            result_.notes.push_back("strip at " + at(place) + ": its last " +
                                    std::to_string(layout.bounds.beyond) +
                                    " steps look like the background; their places continue the others");
        if (layout.bounds.open)
            result_.notes.push_back(
                "strip at " + at(place) + ": " + std::to_string(layout.bounds.at.size() - 1) +
                " steps counted, but its last tones look like the background and there may "
                "be more; --steps tells their number");
        if (!layout.bounds.even)
            result_.notes.push_back("strip at " + at(place) + ": bands of uneven length");
        take(image, layout);
    }

    void take(const ReflectionImage& image, const StripLayout& layout) {
        const std::size_t faults_before = faults_.size();
        StripReading strip{corners_of(layout.place.corners(layout.bounds.at.front(), layout.bounds.at.back(),
                                                           layout.v0, layout.v1)),
                           {},
                           {},
                           int(layout.bounds.at.size()) - 1};
        if (request_.halves) {
            const double parting = parting_line(image, layout.place, layout.bounds.at.front(),
                                                layout.bounds.at.back(), layout.v0, layout.v1);
            strip.steps = steps_of(image, layout, layout.v0, parting);
            strip.bleached = steps_of(image, layout, parting, layout.v1);
            const auto total = [](const auto& steps) {
                double sum = 0;
                for (const auto& step : steps) sum += step.density.value;
                return sum;
            };
            const double first = total(strip.steps), second = total(strip.bleached);
            if (first < second) std::swap(strip.steps, strip.bleached);
            if (faults_.size() == faults_before &&
                std::abs(first - second) < kBleachShows * double(strip.steps.size()))
                faults_.push_back("strip at " + at(layout.place) +
                                  ": its halves do not differ; one half bleached, or no --halves");
        } else {
            strip.steps = steps_of(image, layout, layout.v0, layout.v1);
            if (faults_.size() > faults_before && bleached_by_halves(image, layout, scale_)) {
                faults_.resize(faults_before);
                faults_.push_back("strip at " + at(layout.place) +
                                  ": one half of it is lighter all along; --halves --bleach SECONDS for a "
                                  "strip bleached by halves");
            }
        }
        const bool usable = faults_.size() == faults_before || request_.leave_out;
        if (usable && !strip.steps.empty()) result_.strips.push_back(std::move(strip));
    }

    std::vector<StepReading> steps_of(const ReflectionImage& image, const StripLayout& layout, double v0,
                                      double v1) {
        std::vector<StepReading> steps;
        int number = 0;
        for (const MeasuredStep& step : measured_steps(image, layout, v0, v1, scale_)) {
            ++number;
            std::string fault = step.fault;
            if (fault.empty() && !steps.empty()) {
                const double before = steps.back().density.value;
                if (step.density > before + kStepNoise + kStepNoiseShare * before)
                    fault = "denser than the step before it; steps from dark to light";
            }
            if (fault.empty())
                steps.push_back({number, {step.density}, step.scatter, step.count, corners_of(step.corners)});
            else
                faults_.push_back("step " + std::to_string(number) + " at " + at(step.corners) + " is " +
                                  fault);
        }
        return steps;
    }

    [[nodiscard]] ScanPoint scan_point(std::pair<double, double> point) const {
        return {(point.first + left_) * image_.scan_pixels, (point.second + top_) * image_.scan_pixels};
    }
    [[nodiscard]] std::array<ScanPoint, 4> corners_of(
        const std::array<std::pair<double, double>, 4>& all) const {
        return {scan_point(all[0]), scan_point(all[1]), scan_point(all[2]), scan_point(all[3])};
    }
    [[nodiscard]] std::string at(const std::array<std::pair<double, double>, 4>& c) const {
        const auto [x, y] = scan_point({(c[0].first + c[2].first) / 2, (c[0].second + c[2].second) / 2});
        return decimal(x, 0) + ", " + decimal(y, 0);
    }
    [[nodiscard]] std::string at(const StripPlace& place) const {
        return at(place.corners(0, place.length, 0, place.width));
    }

    // Row by row from the top; within a row from the left.
    void put_in_order() {
        const auto low = [](const StripReading& strip, auto side) {
            double least = 1e300;
            for (const auto& corner : strip.corners) least = std::min(least, corner.*side);
            return least;
        };
        const auto top = [&](const StripReading& strip) { return low(strip, &ScanPoint::second); };
        const auto left = [&](const StripReading& strip) { return low(strip, &ScanPoint::first); };
        auto& strips = result_.strips;
        std::ranges::sort(strips, {}, top);
        for (auto row = strips.begin(); row != strips.end();) {
            double bottom = 0;
            for (const auto& corner : row->corners) bottom = std::max(bottom, corner.second);
            const double middle = (top(*row) + bottom) / 2;
            const auto next = std::find_if(row, strips.end(), [&](const auto& s) { return top(s) > middle; });
            std::sort(row, next, [&](const auto& a, const auto& b) { return left(a) < left(b); });
            row = next;
        }
    }

    ReflectionImage image_;
    const StripRequest& request_;
    std::vector<Region> known_;
    DensityOfLight scale_;
    int left_ = 0, top_ = 0, plain_ = 0;
    std::vector<std::string> faults_;
    ScanReading result_;
};

}  // namespace

ScanReading strips_read(const ReflectionImage& image, const StripRequest& request) {
    if (request.known.size() > 2)
        throw Error(Fault::usage, request.place, std::to_string(request.known.size()) + " known patches",
                    "one, or two to remove stray light");
    return ScanReader(image, request).result();
}

}  // namespace fogproof::reading
