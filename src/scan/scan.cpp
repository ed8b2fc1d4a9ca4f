// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/scan.hpp"

#include <algorithm>
#include <cmath>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "pack/carrier.hpp"
#include "scan/scan_channel.hpp"
#include "scan/scan_file.hpp"
#include "scan/scan_framing.hpp"
#include "scan/scan_pixels.hpp"
#include "scan/scan_suspicion.hpp"

namespace fogproof::scan {

struct Scan::State {
    ScanPixels pixels;
    LineOrder order = LineOrder::as_scanned;
    Region frame, printed;
    std::vector<NegativeDensity> scale;
    Histogram histogram;
    Histogram lying_counts;  // of all that the file holds, where it was turned
    bool has_clear = false;
    std::vector<std::string> warnings{};
    FilmBase base{kUsualBaseFog, FilmBase::From::assumed};
};

namespace {

constexpr std::size_t kFewTones = 16;
// Base + fog of black-and-white film lies within these, odd films included; a scan that says otherwise was
// stretched, or its full scale is not the light of an empty carrier. Judgement.
constexpr double kThinnestBase = 0.1, kDensestBase = 0.6;

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
                    Advice{"only a negative has them"});
    if (options.clear_region && options.clear_value)
        throw Error(Fault::usage, "clear film", "is given as a region and as a value",
                    Advice{"give one of them"});
    if (options.black_region && options.black_value)
        throw Error(Fault::usage, "scanner black", "is given as a region and as a value",
                    Advice{"give one of them"});
    if (options.clear_value && !(*options.clear_value > 0 && *options.clear_value <= 1))
        throw Error(Fault::usage, "clear film", decimal(*options.clear_value, 6), "above 0, at most 1");
    if (options.black_value && !(*options.black_value >= 0 && *options.black_value < 1))
        throw Error(Fault::usage, "scanner black", decimal(*options.black_value, 6), "0 or more, below 1");
    if (options.frame && options.whole)
        throw Error(Fault::usage, "frame", "is given although the whole scan is asked for",
                    Advice{"give one of them"});
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

// What densities count from, and whether that is clear film.
struct FoundReference {
    ScanReference reference;
    bool is_clear_film = true;
};

FoundReference references(const ScanPixels& lying, const ScanOptions& options,
                          std::optional<double> found_clear, Notes& notes) {
    FoundReference found;
    ScanReference& reference = found.reference;
    if (options.clear_region)
        reference.clear = median_light(lying, *options.clear_region);
    else if (options.clear_value)
        reference.clear = *options.clear_value;
    else if (found_clear) {
        reference.clear = *found_clear;
        notes.push_back("the clear film edge around the frame, density " +
                        fixed(-std::log10(*found_clear), 2) + " in the scan, is taken as base + fog");
    } else if (options.base_fog) {
        reference.clear = std::pow(10.0, -*options.base_fog);
        notes.push_back("no clear film edge was given or found; film of the base + fog given is " +
                        fixed(100 * reference.clear, 1) + " % of the scan's full scale");
    } else {
        found.is_clear_film = false;
        notes.push_back(
            "no clear film edge was given or found; full scale of the scan is taken as density 0");
    }
    if (options.black_region) reference.black = median_light(lying, *options.black_region);
    if (options.black_value) reference.black = *options.black_value;
    return found;
}

// What the scan knows of the film's base: clear film against its own full scale.
FilmBase base_of(const ScanOptions& options, const FoundReference& found) {
    if (options.base_fog) return {*options.base_fog, FilmBase::From::given};
    if (!found.is_clear_film) return {0, FilmBase::From::counted};
    const ScanReference& reference = found.reference;
    const double light = (reference.clear - reference.black) / (1 - reference.black);
    const double density = light > 0 ? -std::log10(light) : kDensestBase + 1;
    if (density >= kThinnestBase && density <= kDensestBase) return {density, FilmBase::From::scan};
    return {kUsualBaseFog, FilmBase::From::assumed};
}

}  // namespace

Scan Scan::open(const std::filesystem::path& path, const ScanOptions& options, Notes& notes) {
    ScanFile file(path, options.max_pixels, options.read_by);
    require_sensible(options, file);
    if (options.encoding && options.encoding_is_set) notes.push_back(words_of_set(*options.encoding));
    ScanChannel channel = channel_of(file, options.encoding, notes);
    ScanPixels pixels{std::move(file), std::move(channel)};
    Notes framing_notes;
    Framing framed = framing(pixels, options, framing_notes);
    const std::optional<ScanColour> colour = colour_of(pixels, framed);
    if (wants_blue_and_green(options, colour)) {
        pixels.channel = weighted(pixels.file, std::move(pixels.channel), weights_for_paper(colour->base));
        framing_notes.clear();
        framed = framing(pixels, options, framing_notes);
    }
    Histogram lying_counts;
    if (auto upright = set_upright(pixels, framed, options, framing_notes)) {
        lying_counts = std::move(framed.scan_counts);
        pixels = std::move(upright->pixels);
        framed = std::move(upright->framed);
    }
    require_clear_edge(framed, pixels);
    notes.insert(notes.end(), framing_notes.begin(), framing_notes.end());
    auto state = std::make_shared<State>(State{std::move(pixels),
                                               options.mirror ? LineOrder::reversed : LineOrder::as_scanned,
                                               framed.frame,
                                               framed.printed,
                                               {},
                                               {},
                                               std::move(lying_counts),
                                               false});
    const Region all = state->pixels.all();
    const bool all_counts = state->frame.width == all.width && state->frame.height == all.height;
    state->histogram = all_counts && !framed.scan_counts.empty() ? std::move(framed.scan_counts)
                                                                 : counted_in(state->pixels, state->frame);
    const auto tones = std::count_if(state->histogram.begin(), state->histogram.end(),
                                     [](std::uint64_t count) { return count > 0; });
    if (tones == 1)
        throw Error(Fault::data, path.string(), "is empty: every pixel of the frame is the same",
                    "a picture");
    if (std::size_t(tones) < kFewTones)
        notes.push_back("the frame holds only " + std::to_string(tones) + " different tones");
    ScanEvidence seen = scan_evidence(state->pixels, options, framed, colour);
    if (options.kind == ScanOptions::Kind::positive) {
        state->scale = virtual_densities(state->pixels.channel.light, options.film);
        state->has_clear = true;
        if (options.base_fog) state->base = {*options.base_fog, FilmBase::From::given};
        notes.push_back("the picture is taken as a positive, on a virtual film of slope " +
                        decimal(options.film.slope, 2) + " and density range " +
                        decimal(options.film.range, 2) + " (assumed)");
    } else {
        const FoundReference found =
            references(state->pixels.as_it_lies(), options, framed.clear_light, notes);
        if (options.clear_region || options.clear_value) seen.clear_given = found.reference.clear;
        seen.clear_is_typed = options.clear_value.has_value();
        if (options.black_region || options.black_value) seen.black_given = found.reference.black;
        state->has_clear = found.is_clear_film;
        state->base = base_of(options, found);
        state->scale = negative_densities(state->pixels.channel.light, found.reference);
    }
    state->warnings = suspicions(seen, state->histogram, state->pixels.channel.light);
    Scan scan;
    scan.state_ = std::move(state);
    return scan;
}

const std::filesystem::path& Scan::path() const {
    return state_->pixels.file.path();
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
Region Scan::frame_in_print() const {
    return in_print(state_->frame);
}
Region Scan::in_print(const Region& region) const {
    const Region& printed = state_->printed;
    const int left = state_->order == LineOrder::reversed
                         ? printed.left + printed.width - region.left - region.width
                         : region.left - printed.left;
    return {left, region.top - printed.top, region.width, region.height};
}
const std::vector<NegativeDensity>& Scan::scale() const {
    return state_->scale;
}
const std::vector<double>& Scan::light() const {
    return state_->pixels.channel.light;
}
const Histogram& Scan::histogram() const {
    return state_->histogram;
}
double Scan::degrees_turned() const {
    return state_->pixels.turned ? state_->pixels.turned->turning().degrees() : 0;
}
Region Scan::as_turned(const Region& lying) const {
    return state_->pixels.turned ? state_->pixels.turned->turning().turned(lying) : lying;
}
Region Scan::as_lying(const Region& turned) const {
    return state_->pixels.turned ? state_->pixels.turned->turning().lying(turned) : turned;
}
std::optional<Scan> Scan::grown(int pixels) const {
    auto state = std::make_shared<State>(*state_);
    Region& frame = state->frame;
    const int right = frame.left + frame.width + pixels, bottom = frame.top + frame.height + pixels;
    if (right > state->pixels.width() || bottom > state->pixels.height()) return std::nullopt;
    frame.left = std::max(0, frame.left - pixels);
    frame.top = std::max(0, frame.top - pixels);
    frame.width = right - frame.left;
    frame.height = bottom - frame.top;
    state->printed = frame;
    state->histogram = counted_in(state->pixels, frame);
    Scan made;
    made.state_ = std::move(state);
    return made;
}
void Scan::require_unchanged() const {
    const State& state = *state_;
    const bool is_same =
        state.pixels.turned
            ? counted_in(state.pixels.as_it_lies(), state.pixels.as_it_lies().all()) == state.lying_counts
            : counted_in(state.pixels, state.frame) == state.histogram;
    if (!is_same)
        throw Error(Fault::data, path().string(), "has changed since it was opened",
                    "a scan that stays as it is");
}
const std::vector<std::string>& Scan::warnings() const {
    return state_->warnings;
}
const FilmBase& Scan::film_base() const {
    return state_->base;
}
CodingSource Scan::coding_source() const {
    return state_->pixels.channel.source;
}
bool Scan::has_clear_reference() const {
    return state_->has_clear;
}
std::optional<double> Scan::pixels_per_mm() const {
    return state_->pixels.file.pixels_per_mm();
}

std::unique_ptr<CodeSource> Scan::frame_pixels() const {
    return source_of(state_->pixels, state_->frame, state_->order);
}

std::unique_ptr<CodeSource> Scan::pixels() const {
    return source_of(state_->pixels, state_->printed, state_->order);
}

}  // namespace fogproof::scan
