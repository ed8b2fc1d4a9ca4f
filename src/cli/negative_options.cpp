// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/negative_options.hpp"

#include <array>
#include <map>

#include "base/words.hpp"
#include "cli/choice.hpp"
#include "fogproof/base/error.hpp"
#include "pack/carrier.hpp"

namespace fogproof::cli {

std::optional<Encoding> encoding_in(const std::string& text, const std::string& place) {
    if (text.empty()) return std::nullopt;
    return choice<Encoding>({{"linear", Encoding::linear},
                             {"srgb", Encoding::srgb},
                             {"gamma22", Encoding::gamma22},
                             {"density", Encoding::density}},
                            text, place);
}

Region region_in(const std::string& text, const std::string& place) {
    std::array<int, 4> values{};
    const auto parts = split(text, ',');
    bool good = parts.size() == values.size();
    for (std::size_t i = 0; good && i < values.size(); ++i) {
        const auto value = number_in(parts[i]);
        good = value && *value >= 0 && *value <= 1e7 && *value == int(*value);
        if (good) values[i] = int(*value);
    }
    if (!good || values[2] == 0 || values[3] == 0)
        throw Error(Fault::usage, place, "\"" + text + "\" is no region",
                    "LEFT,TOP,WIDTH,HEIGHT in pixels of the upright scan");
    return {values[0], values[1], values[2], values[3]};
}

namespace {

// Clear film or scanner black: one of both, or nothing that is told.
struct LightReference {
    std::optional<Region> region{};  // of the scan
    std::optional<double> value{};   // linear transmittance
};

LightReference light_reference_in(const std::string& text, const std::string& place) {
    if (text.empty()) return {};
    if (text.find(',') != std::string::npos) return {.region = region_in(text, place)};
    const auto value = number_in(text);
    if (!value || *value < 0 || *value > 1)
        throw Error(Fault::usage, place, "\"" + text + "\"",
                    "a transmittance from 0 to 1, or a region LEFT,TOP,WIDTH,HEIGHT");
    return {.value = value};
}

}  // namespace

double pixel_limit(double asked) {
    return within(asked, 256, 1e11, "--max-pixels");
}

void NegativeOptions::add_to(CLI::App& app) {
    line = CommandLine(app);
    const std::string group = "How the scan is read";
    app.add_option("--as", kind, "negative, or positive for a digital picture [negative]")->group(group);
    app.add_option(
           "--encoding", encoding,
           "linear, srgb, gamma22, or density (full code 0 D, code 0 4 D); overrides profile and default")
        ->group(group);
    app.add_option(
           "--channels", channels,
           "what makes the density of a colour scan: its luminance, or its blue and green as paper sees "
           "them (blue-green) [blue-green for an orange film base, else luminance]")
        ->group(group);
    app.add_option("--frame", frame, "LEFT,TOP,WIDTH,HEIGHT of the picture in the scan; found if absent")
        ->group(group);
    app.add_flag("--whole", whole, "the whole scan is the picture")->group(group);
    app.add_flag("--keep-askew", keep_askew,
                 "take an upright rectangle inside a frame that lies askew [the scan is turned]")
        ->group(group);
    app.add_option("--clear", clear, "clear film: a region LEFT,TOP,WIDTH,HEIGHT, or its transmittance")
        ->group(group);
    app.add_option("--black", black, "scanner black: a region, or its transmittance")->group(group);
    app.add_option(
           "--base-fog", base_fog,
           "density of the film's base + fog over an empty carrier; the clear film's in the scan if absent")
        ->group(group);
    app.add_flag("--mirror", mirror, "the scan shows the negative from the wrong side")->group(group);
    app.add_flag("--clear-edge", clear_edge, "also print the clear film around the frame, as a black border")
        ->group(group);
    app.add_option("--max-pixels", max_pixels, "larger scans are refused before they are read [4e9]")
        ->group(group);
    app.add_option("--film-slope", film_slope, "positive: density per log10 of scene light, 0.3 to 1.5 [0.6]")
        ->group(group);
    app.add_option("--film-range", film_range, "positive: density of white above clear film, 0.3 to 3 [1.1]")
        ->group(group);
}

ScanOptions NegativeOptions::scan_options() const {
    ScanOptions options;
    const std::map<std::string, ScanOptions::Kind> kinds{{"negative", ScanOptions::Kind::negative},
                                                         {"positive", ScanOptions::Kind::positive}};
    options.kind_is_told = !kind.empty();
    if (options.kind_is_told) options.kind = choice(kinds, kind, "--as");
    if (!channels.empty())
        options.channels = choice<ScanOptions::Channels>({{"luminance", ScanOptions::Channels::luminance},
                                                          {"blue-green", ScanOptions::Channels::blue_green}},
                                                         channels, "--channels");
    // The settings speak of the scanner of negatives.
    const bool is_positive = options.kind == ScanOptions::Kind::positive;
    const auto counts = [&](const char* option) { return !is_positive || line.gives(option); };
    if (counts(encoding_option)) options.encoding = encoding_in(encoding, encoding_option);
    options.encoding_is_set = options.encoding && !line.gives(encoding_option);
    if (!frame.empty()) options.frame = region_in(frame, "--frame");
    options.whole = whole;
    if (keep_askew) options.askew = ScanOptions::Askew::kept;
    options.mirror = mirror;
    options.clear_edge = clear_edge;
    const LightReference clear_film = light_reference_in(clear, "--clear"),
                         scanner_black =
                             counts("--black") ? light_reference_in(black, "--black") : LightReference{};
    options.clear_region = clear_film.region;
    options.clear_value = clear_film.value;
    options.black_region = scanner_black.region;
    options.black_value = scanner_black.value;
    if (base_fog) options.base_fog = within(*base_fog, 0, kDensestCarrier, "--base-fog");
    for (const auto& [is_given, option] :
         {std::pair{film_slope.has_value(), "--film-slope"}, {film_range.has_value(), "--film-range"}})
        if (is_given && !is_positive)
            throw Error(Fault::usage, option, "describes the film that a digital picture is given",
                        "--as positive beside it, or leave it out");
    if (film_slope) options.film.slope = within(*film_slope, 0.3, 1.5, "--film-slope");
    if (film_range) options.film.range = within(*film_range, 0.3, 3, "--film-range");
    options.max_pixels = pixel_limit(max_pixels);
    return options;
}

void NegativeOptions::refuse_without_negative() const {
    if (const auto option = line.first_of({"--encoding", "--as", "--channels", "--frame", "--whole",
                                           "--keep-askew", "--clear", "--black", "--base-fog", "--mirror",
                                           "--clear-edge", "--film-slope", "--film-range", "--max-pixels"}))
        refuse_as_of_no_negative(*option);
}

void refuse_as_of_no_negative(const std::string& option) {
    throw Error(Fault::usage, option, "describes a negative, but no negative is given",
                "--negative FILE beside it, or leave it out");
}

}  // namespace fogproof::cli
