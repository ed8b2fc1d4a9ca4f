// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/seen_band.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/quantile.hpp"
#include "base/stop.hpp"
#include "choose/strip_place.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/print/print_steps.hpp"
#include "pack/uncertainty.hpp"

namespace fogproof::choose {
namespace {

constexpr double kDoubtInBands = 0.5;
// Density by log10 exposure: a tone that rises less hardly changes from band to band. An eye tells tones of
// the same paper apart to so many D. Judgement.
constexpr double kTellsNothing = 0.15, kEyeTells = 0.02;

// To so many parts of one, without digits that only binary fractions have.
double in_parts(double parts, double value) {
    return std::round(value * parts) / parts;
}

// What becomes of tones in the told print before any bleach.
class DevelopedTones {
  public:
    DevelopedTones(const Printing& printing, const Recipe& recipe) : printing_(printing), recipe_(recipe) {
        recipe_.local.clear();
    }
    [[nodiscard]] PrintModel at(Seconds time) const {
        PrintSteps steps = printing_.timed_proof(recipe_, std::array{time}).steps;
        steps.finishing = {};
        return printing_.print(steps);
    }

  private:
    const Printing& printing_;
    Recipe recipe_;
};

// Density gained by log10 exposure.
class DensitySlope {
  public:
    DensitySlope(const DevelopedTones& tones, Seconds time)
        : less_(tones.at({time.value * std::pow(10.0, -kNear)})),
          more_(tones.at({time.value * std::pow(10.0, kNear)})) {}
    [[nodiscard]] double at(NegativeDensity tone) const {
        return (more_.patch(tone).density.value - less_.patch(tone).density.value) / (2 * kNear);
    }

  private:
    static constexpr double kNear = 0.02;
    PrintModel less_, more_;
};

// Of the tones that an eye looked at the one that tells exposures apart best, both where it is to be and
// where the pack has it so exposed.
struct TellingTone {
    NegativeDensity tone;
    PrintDensity told;  ///< that it was to have, developed
    double slope;       ///< of this density by log10 exposure
};

TellingTone telling_tone(const Printing& printing, const Recipe& recipe, const SeenBand& band,
                         std::vector<double> looked_at) {
    const DevelopedTones tones(printing, recipe);
    const DensitySlope by_told(tones, band.told), by_seen(tones, band.seen);
    TellingTone best{};
    double least = -1;
    for (int percent = 2; percent <= 98; percent += 4) {
        const NegativeDensity each{quantile(looked_at, percent / 100.0)};
        const double here = by_told.at(each), worse = std::min(here, by_seen.at(each));
        if (worse > least) least = worse, best.slope = here, best.tone = each;
    }
    best.told = tones.at(band.told).patch(best.tone).density;
    return best;
}

// As readings count: at the anchor's setting, through what lay in the carrier then. Doubted by so much of the
// exposure, log10.
Reading reading_of(const Printing& printing, const StartingPoint& point, const SeenBand& band,
                   const TellingTone& tone, double doubt) {
    const Enlarger& enlarger = printing.pack().darkroom.enlarger;
    Reading row;
    row.exposure_s =
        in_parts(1e3, time_at_anchor(exposure_of(std::log10(band.seen.value), enlarger), enlarger).value);
    if (enlarger.anchor_carrier.held == Carrier::Held::density)
        row.carrier_density = enlarger.anchor_carrier.density;
    row.callier = enlarger.callier;
    row.wedge_density =
        in_parts(1e4, -std::log10(transmitted(tone.tone, printing.light().mean_transmitted(), enlarger)));
    if (printing.pack().contrast == Contrast::variable) row.filter = point.found.grade;
    row.restrainer_ml_l = point.found.restrainer_ml_l;
    row.develop_s = point.proof.steps.develop.time_s;
    row.density = in_parts(1e4, tone.told.value);
    row.density_error = std::clamp(in_parts(1e4, tone.slope * doubt), kEyeTells, 1.0);
    return row;
}

// A pack that nobody exposed a patch of has no session that today's could differ from.
bool was_read_in_light(const Pack& pack) {
    return std::ranges::any_of(pack.readings.rows(),
                               [](const Reading& row) { return row.exposure_s && *row.exposure_s > 0; });
}

// Of the distance between what was seen and what was told, normal doubts take their shares: the session and
// the pack in so far as its exposure is doubted; the eye and the strip's own sheet.
TodaysLight todays_light(const Pack& pack, const StartingPoint& point, const SeenBand& band,
                         const TellingTone& tone, double of_strip) {
    const double reciprocity = pack.darkroom.enlarger.reciprocity;
    const double of_pack = std::log10(point.exposure_s.high / point.exposure_s.value) / kWithin95Percent;
    const double before = std::hypot(kSessionsDiffer, of_pack), both = std::hypot(before, of_strip);
    const double share = std::pow(before / both, 2);
    const double shorter = share * std::log10(band.told.value / band.seen.value);
    ToldRecipe strip{point.found.grade,
                     point.found.restrainer_ml_l,
                     point.proof.steps.develop.time_s,
                     {band.told.value * std::pow(10.0, -shorter)},
                     {},
                     0};
    return {reciprocity * shorter, strip, before * of_strip / both, tone.tone};
}

}  // namespace

SeenBand seen_band(const Printing& printing, const StartingPoint& point, int number,
                   const std::string& negative, const TonePlane& frame) {
    if (!printing.pack().darkroom.anchored)
        throw Error(Fault::config, "--seen", "the pack has no anchor, so its strips have no seconds",
                    "an [anchor] in the pack, or --black-time");
    const TestStrip strip = test_strip(point.exposure_s);
    const int bands = int(strip.exposures.size());
    if (number < 1 || number > bands)
        throw Error(Fault::usage, "--seen", std::to_string(number),
                    "1 to " + std::to_string(bands) + ", the bands of the strip that start tells");
    SeenBand band{number,
                  bands,
                  strip.exposures[std::size_t(number - 1)],
                  {point.exposure_s.value},
                  strip.step_stops,
                  {},
                  std::nullopt};

    const TestStripPlace place = strip_place(frame.width, frame.height, frame.density);
    std::vector<double> looked_at;
    for (const NegativeDensity density :
         band_densities(place, number - 1, bands, frame.width, frame.height, frame.density))
        looked_at.push_back(density.value);
    const TellingTone tone = telling_tone(printing, point.recipe, band, std::move(looked_at));
    if (tone.slope < kTellsNothing)
        throw Error(
            Fault::usage, "--seen",
            "the place of band " + std::to_string(number) +
                " is nearly black or white throughout, on the strip as on the picture, and tells nothing",
            "a band whose place shows middle tones");
    const double doubt = kDoubtInBands * strip.step_stops * kLogPerStop;
    const bool is_another_session = was_read_in_light(printing.pack());
    band.reading =
        reading_of(printing, point, band, tone, std::hypot(doubt, is_another_session ? kSessionsDiffer : 0));
    band.reading.strip = negative + "-seen-" + std::to_string(number);
    const double sheet = printing.pack().sheet_scatter;
    if (is_another_session)
        band.today = todays_light(printing.pack(), point, band, tone,
                                  std::hypot(doubt, kSheetInLight * sheet, sheet / tone.slope));
    return band;
}

SearchBounds held_to_strip(const StartingPoint& point, SearchBounds bounds) {
    bounds.softest = bounds.hardest = point.found.grade;
    bounds.restrainers = {point.found.restrainer_ml_l};
    bounds.develop_s = {point.proof.steps.develop.time_s};
    if (bounds.bleach) return bounds;
    if (point.proof.bleach.value > 0)
        bounds.bleach = point.proof.bleach;
    else
        bounds.most_clearing = 0;
    return bounds;
}

}  // namespace fogproof::choose
