// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/render/scan.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "fogproof/base/error.hpp"
#include "fogproof/base/words.hpp"
#include "render/frame_search.hpp"
#include "render/reading.hpp"
#include "render/scan_channel.hpp"
#include "render/scan_file.hpp"

namespace fogproof {

struct Scan::State {
    ScanFile file;
    ScanChannel channel;
    bool mirror = false;
    Region frame, printed;
    std::vector<NegativeDensity> scale;
    Histogram histogram;
    bool has_clear = false;
};

namespace {

constexpr int kSmallestFrame = 16;   // pixels; below that there is no picture to judge
constexpr int kSmallScanSide = 640;  // of the copy in which the frame is searched
constexpr std::size_t kFewTones = 16;
constexpr double kWorthSaying = 0.2;  // degrees

std::string words_for(const Region& region) {
    return std::to_string(region.width) + " x " + std::to_string(region.height) + " at " +
           std::to_string(region.left) + ", " + std::to_string(region.top);
}

void require_inside(const char* name, const Region& region, const ScanFile& file) {
    const bool inside = region.left >= 0 && region.top >= 0 && region.width > 0 && region.height > 0 &&
                        region.width <= file.width() - region.left &&
                        region.height <= file.height() - region.top;
    if (!inside)
        throw Error(
            Fault::usage, name, words_for(region) + " lies outside the scan",
            "within its " + std::to_string(file.width()) + " x " + std::to_string(file.height()) + " pixels");
}

void require_sensible(const ScanOptions& options, const ScanFile& file) {
    if (options.kind == ScanOptions::Kind::positive &&
        (options.clear_region || options.clear_value || options.black_region || options.black_value ||
         options.clear_edge))
        throw Error(Fault::usage, file.path().string(), "clear film or scanner black is given for a positive",
                    "only a negative has them");
    if (options.clear_region && options.clear_value)
        throw Error(Fault::usage, "clear film", "is given as a region and as a value", "one of them");
    if (options.black_region && options.black_value)
        throw Error(Fault::usage, "scanner black", "is given as a region and as a value", "one of them");
    if (options.clear_value && !(*options.clear_value > 0 && *options.clear_value <= 1))
        throw Error(Fault::usage, "clear film", decimal(*options.clear_value, 6), "above 0, at most 1");
    if (options.black_value && !(*options.black_value >= 0 && *options.black_value < 1))
        throw Error(Fault::usage, "scanner black", decimal(*options.black_value, 6), "0 or more, below 1");
    if (options.frame && options.whole)
        throw Error(Fault::usage, "frame", "is given although the whole scan is asked for", "one of them");
    if (options.frame) require_inside("frame", *options.frame, file);
    if (options.clear_region) require_inside("clear film", *options.clear_region, file);
    if (options.black_region) require_inside("scanner black", *options.black_region, file);
    if (file.width() < kSmallestFrame || file.height() < kSmallestFrame)
        throw Error(Fault::data, file.path().string(),
                    std::to_string(file.width()) + " x " + std::to_string(file.height()) + " pixels",
                    "at least 16 x 16");
    if (options.frame && (options.frame->width < kSmallestFrame || options.frame->height < kSmallestFrame))
        throw Error(Fault::usage, "frame", words_for(*options.frame), "at least 16 x 16 pixels");
}

vips::VImage part_of(const ScanFile& file, const ScanChannel& channel, const Region& region) {
    const vips::VImage codes = channel.codes(file.upright());
    const bool is_all = region.width == codes.width() && region.height == codes.height();
    return is_all ? codes : codes.extract_area(region.left, region.top, region.width, region.height);
}

/// Exact counts of the codes in a region. The total is held against the area: libvips may report success for
/// a file whose last lines it could not read.
Histogram counted(const ScanFile& file, const ScanChannel& channel, const Region& region) {
    Histogram histogram = reading(file.path(), [&] {
        const vips::VImage counts = part_of(file, channel, region).hist_find().cast(VIPS_FORMAT_UINT);
        const vips::VImage kept = counts.copy_memory();
        const auto* first = static_cast<const std::uint32_t*>(kept.data());
        return Histogram(first, first + kept.width());
    });
    histogram.resize(channel.light.size());
    const auto total = std::accumulate(histogram.begin(), histogram.end(), std::uint64_t{0});
    const auto area = std::uint64_t(region.width) * std::uint64_t(region.height);
    if (total != area)
        throw Error(Fault::data, file.path().string(),
                    "only " + std::to_string(total) + " pixels could be read",
                    std::to_string(area) + " as the file's header says");
    return histogram;
}

double median_light(const ScanFile& file, const ScanChannel& channel, const Region& region) {
    const Histogram histogram = counted(file, channel, region);
    const auto half = (std::uint64_t(region.width) * std::uint64_t(region.height) + 1) / 2;
    std::uint64_t reached = 0;
    for (std::size_t code = 0; code < histogram.size(); ++code)
        if ((reached += histogram[code]) >= half) return channel.light[code];
    return channel.light.back();
}

/// A copy of the scan that is small enough to search, each pixel the mean light of a square of `factor` by
/// `factor`.
SmallScan small_copy(const ScanFile& file, const ScanChannel& channel, int factor) {
    std::vector<float> light(channel.light.begin(), channel.light.end());
    const vips::VImage decode(vips_image_new_from_memory_copy(light.data(), light.size() * sizeof(float),
                                                              int(light.size()), 1, 1, VIPS_FORMAT_FLOAT));
    return reading(file.path(), [&] {
        const vips::VImage codes = part_of(file, channel, {0, 0, file.width(), file.height()});
        const vips::VImage small = codes.maplut(decode).shrink(factor, factor).copy_memory();
        const auto* first = static_cast<const float*>(small.data());
        SmallScan made{small.width(), small.height(), {}};
        made.density.assign(first, first + std::size_t(small.width()) * std::size_t(small.height()));
        for (float& each : made.density) each = -std::log10(std::max(each, 1e-5f));
        return made;
    });
}

Region enlarged(const std::array<double, 4>& inset, const SmallScan& small, const ScanFile& file,
                int factor) {
    const auto pixels = [&](Side side) { return int(std::ceil(inset[side])) * factor; };
    // What the small copy has left over on the right and below belongs to those sides.
    const int right = inset[kRight] > 0 ? small.width * factor - pixels(kRight) : file.width();
    const int bottom = inset[kBottom] > 0 ? small.height * factor - pixels(kBottom) : file.height();
    return {pixels(kLeft), pixels(kTop), right - pixels(kLeft), bottom - pixels(kTop)};
}

std::array<double, 4> reduced(const Region& frame, const ScanFile& file, int factor) {
    return {double(frame.top) / factor, double(file.height() - frame.top - frame.height) / factor,
            double(frame.left) / factor, double(file.width() - frame.left - frame.width) / factor};
}

Region with_clear_edge(const Region& frame, const std::array<double, 4>& reach, const ScanFile& file,
                       int factor) {
    const int left = std::max(0, frame.left - int(reach[kLeft]) * factor);
    const int top = std::max(0, frame.top - int(reach[kTop]) * factor);
    const int right = std::min(file.width(), frame.left + frame.width + int(reach[kRight]) * factor);
    const int bottom = std::min(file.height(), frame.top + frame.height + int(reach[kBottom]) * factor);
    return {left, top, right - left, bottom - top};
}

/// The frame and its surroundings, from the options and from a search where they leave something open.
struct Framing {
    Region frame, printed;
    std::optional<double> clear_light;
};

Framing framing(const ScanFile& file, const ScanChannel& channel, const ScanOptions& options, Notes& notes) {
    const Region all{0, 0, file.width(), file.height()};
    const bool clear_is_given = options.clear_region || options.clear_value;
    Framing made{options.frame.value_or(all), options.frame.value_or(all), std::nullopt};
    const bool frame_is_open = !options.frame && !options.whole;
    const bool is_negative = options.kind == ScanOptions::Kind::negative;
    const bool clear_is_open = options.frame && (!clear_is_given || options.clear_edge);
    if (!is_negative || !(frame_is_open || clear_is_open)) {
        if (options.clear_edge)
            throw Error(Fault::usage, "clear edge", "is asked for around the whole scan",
                        "a frame within the scan");
        return made;
    }
    const int factor =
        std::max(1, (std::max(file.width(), file.height()) + kSmallScanSide / 2) / kSmallScanSide);
    const SmallScan small = small_copy(file, channel, factor);
    const FilmSurvey found = surveyed(small);
    if (frame_is_open && found.inset) {
        made.frame = made.printed = enlarged(*found.inset, small, file, factor);
        std::string note = "the frame was found: " + words_for(made.frame) + " pixels";
        if (std::abs(found.degrees_askew) >= kWorthSaying)
            note +=
                ", upright inside a frame " + decimal(std::abs(found.degrees_askew), 1) + " degrees askew";
        notes.push_back(note);
    } else if (frame_is_open) {
        notes.push_back("no edge of a frame was found; the whole scan is taken as the frame");
    }
    if (frame_is_open && found.is_partly_hidden)
        notes.push_back(
            "an edge of the frame cannot be told from clear film; give the frame if this one is wrong");
    if (found.clear) made.clear_light = std::pow(10.0, -*found.clear);
    if (options.clear_edge) {
        const bool is_known = found.clear && (options.frame || found.inset);
        const auto reach = !is_known ? std::array<double, 4>{}
                           : options.frame
                               ? clear_around(small, reduced(made.frame, file, factor), *found.clear)
                               : found.clear_depth;
        if (*std::max_element(reach.begin(), reach.end()) < 1)
            throw Error(Fault::data, file.path().string(), "shows no clear film edge around the frame",
                        "an edge to be printed must be in the scan");
        made.printed = with_clear_edge(made.frame, reach, file, factor);
    }
    return made;
}

ScanReference references(const ScanFile& file, const ScanChannel& channel, const ScanOptions& options,
                         std::optional<double> found_clear, bool& has_clear, Notes& notes) {
    ScanReference reference;
    has_clear = true;
    if (options.clear_region)
        reference.clear = median_light(file, channel, *options.clear_region);
    else if (options.clear_value)
        reference.clear = *options.clear_value;
    else if (found_clear) {
        reference.clear = *found_clear;
        notes.push_back("the clear film edge around the frame, density " +
                        fixed(-std::log10(*found_clear), 2) + " in the scan, is taken as base + fog");
    } else {
        has_clear = false;
        notes.push_back(
            "no clear film edge was given or found; full scale of the scan is taken as density 0");
    }
    if (options.black_region) reference.black = median_light(file, channel, *options.black_region);
    if (options.black_value) reference.black = *options.black_value;
    return reference;
}

}  // namespace

Scan Scan::open(const std::filesystem::path& path, const ScanOptions& options, Notes& notes) {
    ScanFile file(path, options.max_pixels);
    require_sensible(options, file);
    ScanChannel channel = channel_of(file, options.encoding, notes);
    const Framing framed = framing(file, channel, options, notes);
    auto state = std::make_shared<State>(State{
        std::move(file), std::move(channel), options.mirror, framed.frame, framed.printed, {}, {}, false});
    state->histogram = counted(state->file, state->channel, state->frame);
    const auto tones = std::count_if(state->histogram.begin(), state->histogram.end(),
                                     [](std::uint64_t count) { return count > 0; });
    if (tones == 1)
        throw Error(Fault::data, path.string(), "is empty: every pixel of the frame is the same",
                    "a picture");
    if (std::size_t(tones) < kFewTones)
        notes.push_back("the frame holds only " + std::to_string(tones) + " different tones");
    if (options.kind == ScanOptions::Kind::positive) {
        state->scale = virtual_densities(state->channel.light, options.film);
        state->has_clear = true;
        notes.push_back("the picture is taken as a positive, on a virtual film of slope " +
                        decimal(options.film.slope, 2) + " and density range " +
                        decimal(options.film.range, 2) + " (assumed)");
    } else {
        const ScanReference reference =
            references(state->file, state->channel, options, framed.clear_light, state->has_clear, notes);
        state->scale = negative_densities(state->channel.light, reference);
    }
    Scan scan;
    scan.state_ = std::move(state);
    return scan;
}

const std::filesystem::path& Scan::path() const {
    return state_->file.path();
}
int Scan::width() const {
    return state_->printed.width;
}
int Scan::height() const {
    return state_->printed.height;
}
Region Scan::frame() const {
    return state_->frame;
}
const std::vector<NegativeDensity>& Scan::scale() const {
    return state_->scale;
}
const std::vector<double>& Scan::light() const {
    return state_->channel.light;
}
const Histogram& Scan::histogram() const {
    return state_->histogram;
}
bool Scan::has_clear_reference() const {
    return state_->has_clear;
}
std::optional<double> Scan::pixels_per_mm() const {
    return state_->file.pixels_per_mm();
}

vips::VImage Scan::codes() const {
    const vips::VImage printed = part_of(state_->file, state_->channel, state_->printed);
    return state_->mirror ? printed.fliphor() : printed;
}

}  // namespace fogproof
