// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "negative/suspicion.hpp"

#include <algorithm>
#include <cmath>

#include "base/stop.hpp"
#include "base/words.hpp"
#include "negative/density_scale.hpp"
#include "negative/tone_shape.hpp"

namespace fogproof::negative {
namespace {

// Base + fog of black-and-white film: about 0.1 on clear sheet and roll film to 0.4 on the grey base of 35
// mm. Common practice, no source.
constexpr double kDensestBase = 0.5;
// Natural logarithms of how much likelier the wrong kind must be. Most scans are good.
constexpr double kBelieved = 0.5, kPlainlyNegative = -3;
constexpr double kClippedBoth = 0.002, kClippedOne = 0.01;  // shares of the frame
constexpr double kMissing = 0.08;                           // share of codes
constexpr double kWorthStops = 0.15;
// Share of the frame beyond a reference, above dust and scratches; times the light of clear film that grain
// and an uneven lamp do not reach. Judgement.
constexpr double kBeyondReference = 0.02, kClearer = 1.12, kDarker = 0.7;

double stops(double density) {
    return density / kLogPerStop;
}

std::string percent(double share) {
    return decimal(100 * share, share < 0.1 ? 1 : 0) + " %";
}

/// Density of codes made for the eye whose density as linear codes is this.
double decoded(double density) {
    return -std::log10(std::max(light_of_value(Encoding::srgb, std::pow(10.0, -density)), 1e-6));
}

class Suspicions {
  public:
    Suspicions(const ScanEvidence& seen, const Histogram& histogram, std::span<const double> light)
        : seen_(seen), shape_(tone_shape(histogram, light)), histogram_(histogram), light_(light) {
        // A curve for the eye laid on linear codes skips some of 65536, and nothing is wrong with that.
        const bool is_linear = std::abs(light[light.size() / 2] - 0.5) < 0.01;
        if (seen.has_own_codes && (light.size() == 256 || is_linear))
            shape_.missing = missing_codes(histogram);
    }

    std::vector<std::string> all() {
        if (seen_.as_positive) {
            look_for_negative();
            return std::move(told_);
        }
        look_for_holder();
        look_for_several_pictures();
        const bool is_positive = look_for_inverted() || look_for_positive();
        look_for_mask();
        const bool is_gamma = !is_positive && look_for_gamma();
        if (is_gamma) shape_.missing = 0;
        look_for_levels();
        if (is_positive) return std::move(told_);
        if (!is_gamma && !(seen_.colour && seen_.colour->is_masked())) look_for_dense_base();
        look_for_missing_base();
        look_for_darkness();
        look_for_wrong_references();
        return std::move(told_);
    }

  private:
    bool tell(const std::string& words) {
        told_.push_back(words);
        return true;
    }

    // A picture may have a white margin, which looks like film that is clearer than film is.
    void look_for_negative() {
        constexpr double kFilm = 0.06;
        const bool shows_film =
            seen_.around.is_negative && seen_.found_clear && seen_.found_clear->value > kFilm;
        const bool is_masked = seen_.colour && seen_.colour->is_masked();
        const bool is_colourful = seen_.colour && seen_.colour->is_colourful();
        if (shows_film || is_masked || (!is_colourful && likeness_of_a_positive(shape_) < kPlainlyNegative))
            tell("the scan is taken as a positive but looks like a negative" +
                 std::string(shows_film ? ", with clear film around the frame" : "") +
                 ": the print would have light and dark exchanged; leave --as positive out if it is one");
    }

    bool look_for_inverted() {
        if (!seen_.around.is_inverted || seen_.kind_is_told) return false;
        return tell(
            "the film around the frame is denser than the picture, so the scan looks inverted to a positive: "
            "the print would have light and dark exchanged, and no exposure would be right; scan it as a "
            "negative without inversion, or give --as positive (--as negative if it is one)");
    }

    bool look_for_positive() {
        if (seen_.kind_is_told || seen_.around.is_negative) return false;
        const bool is_colourful = seen_.colour && seen_.colour->is_colourful() &&
                                  !seen_.colour->is_masked() && !seen_.channels_are_told;
        // Only a negative has clear film.
        const bool is_likely = !seen_.clear_is_given && likeness_of_a_positive(shape_) > kBelieved;
        if (!is_colourful && !is_likely) return false;
        const std::string exchanged =
            "if it is a photograph, or a negative that was inverted, the print would have light and dark "
            "exchanged, and --as positive takes it as a picture";
        if (!is_colourful)
            return tell("the tones lie as in a picture, not as in a negative: " + exchanged +
                        "; --as negative says that it is one");
        return tell(
            "the scan has colours as no black-and-white negative has: " + exchanged +
            "; if it is a colour negative, --channels blue-green takes what paper sees; --as negative "
            "leaves it as it is");
    }

    void look_for_mask() {
        if (!seen_.colour || !seen_.colour->is_masked() || seen_.channels_are_told) return;
        const auto& [red, green, blue] = seen_.colour->base;
        tell("the film base is orange, density " + fixed(red, 2) + " in red, " + fixed(green, 2) +
             " in green, " + fixed(blue, 2) +
             " in blue: black-and-white paper sees green and blue only, so " +
             (seen_.by_blue_and_green
                  ? "these two channels are used; by luminance exposures would come out up to "
                  : "exposures by luminance, as they are, come out up to ") +
             fixed(std::max(stops(blue - luminance_density()), 0.0), 1) +
             " stops too short; --channels blue-green or --channels luminance settles it");
    }

    double luminance_density() const {
        const auto& [red, green, blue] = seen_.colour->base;
        return -std::log10(0.2126 * std::pow(10, -red) + 0.7152 * std::pow(10, -green) +
                           0.0722 * std::pow(10, -blue));  // IEC 61966-2-1
    }

    void look_for_holder() {
        if (seen_.on_holder.empty()) return;
        tell("the frame runs to the rim of the scan (" + seen_.on_holder +
             "), and the rim there has the tone of the holder: holder that counts as picture makes the "
             "exposure too long; --frame gives the frame, --whole says that the whole scan is picture");
    }

    void look_for_several_pictures() {
        if (seen_.pictures < 2) return;
        tell("the frame seems to hold " + std::to_string(seen_.pictures) +
             " pictures with film between them, which are printed and exposed as one; --frame " +
             seen_.first_picture + " is the first of them, --whole says that all is one picture");
    }

    void look_for_levels() {
        const double black = seen_.may_hold_rim && seen_.around.rim ? 0 : shape_.at_black;
        const double white = shape_.at_white;
        const bool both = white >= kClippedBoth && black >= kClippedBoth;
        std::string found;
        if (both || white >= kClippedOne) found += percent(white) + " of the frame is at full scale";
        if (both || black >= kClippedOne)
            found += std::string(found.empty() ? "" : ", ") + percent(black) +
                     (found.empty() ? " of the frame" : "") + " without any light";
        if (shape_.missing >= kMissing)
            found += (found.empty() ? "" : ", and ") + percent(shape_.missing) +
                     " of the codes between its tones are missing";
        if (found.empty()) return;
        tell(found +
             ", as after levels or curves: contrast and exposure are those of the altered tones, and "
             "what was cut off prints as one flat tone; scan without automatic levels; " +
             (seen_.clear_is_given ? "no option brings it back"
                                   : "--clear with the transmittance of clear "
                                     "film sets the exposure at least"));
    }

    bool look_for_gamma() {
        if (!seen_.linear_is_guess) return false;
        const std::optional<NegativeDensity> clear =
            seen_.around.is_negative ? seen_.found_clear : std::nullopt;
        if (likeness_of_gamma(shape_, clear, seen_.around.rim) < kBelieved) return false;
        const double zero = clear ? clear->value : 0;
        const double middle = shape_.middle - zero, other = decoded(shape_.middle) - decoded(zero);
        return tell("the scan is taken as linear, but its tones reach only density " +
                    fixed(shape_.densest - zero, 2) + (clear ? " above clear film" : "") +
                    ", as codes with gamma do when taken as linear: then exposures come out about " +
                    fixed(stops(other - middle), 1) +
                    " stops too short and the contrast too hard; --encoding srgb or gamma22 if the scanner "
                    "gave such codes, --encoding linear if not");
    }

    void look_for_dense_base() {
        if (!seen_.found_clear || seen_.clear_is_given || seen_.encoding_is_told) return;
        if (seen_.found_clear->value <= kDensestBase) return;
        tell("the clear film edge has density " + fixed(seen_.found_clear->value, 2) +
             " in the scan, and base + fog is seldom above " + fixed(kDensestBase, 1) +
             ": either the film is fogged or stained, or the codes of the scan are read by the wrong "
             "encoding, and then every exposure and the contrast come out wrong; --encoding settles it, or "
             "--clear with this edge if it is right");
    }

    void look_for_missing_base() {
        if (seen_.found_clear || seen_.clear_is_given || stops(shape_.thinnest) < kWorthStops) return;
        tell("the scan shows no clear film, and its thinnest tone has density " + fixed(shape_.thinnest, 2) +
             ", of which an unknown part is base + fog: exposures come out up to " +
             fixed(stops(shape_.thinnest), 1) +
             " stops too long; give --clear, or a scan that shows the edge of the film");
    }

    // Above missing base, which says as much. Negatives reach density 3 in their densest parts only; here the
    // thinnest does. Judgement.
    void look_for_darkness() {
        constexpr double kDark = 2.5;
        if (shape_.thinnest < kDark || !(seen_.found_clear || seen_.clear_is_given)) return;
        tell("the scan is very dark: its thinnest tone has density " + fixed(shape_.thinnest, 2) +
             ", as no printable negative has: exposures may come out as hours; scan it with more light, or "
             "give "
             "--encoding or --clear if one of them is wrong");
    }

    // Nothing of a frame is clearer than clear film or darker than the scanner's black, but for dust.
    void look_for_wrong_references() {
        const auto share = [&](const auto& is_beyond) {
            double beyond = 0, all = 0;
            for (std::size_t code = 0; code < light_.size(); ++code) {
                all += double(histogram_[code]);
                if (is_beyond(light_[code])) beyond += double(histogram_[code]);
            }
            return all > 0 ? beyond / all : 0;
        };
        if (const auto clear = seen_.clear_given) {
            const double clearer = share([&](double light) { return light > kClearer * *clear; });
            if (clearer > kBeyondReference)
                tell(percent(clearer) +
                     " of the frame lets through more light than the clear film that is given (" +
                     decimal(*clear, 3) + "), so exposures come out too short and thin tones as one; " +
                     (seen_.clear_is_typed
                          ? "--clear takes a region of clear film or its transmittance, which is 10 to the "
                            "power "
                            "of minus its density: " +
                                decimal(std::pow(10.0, -*clear), 2) + " for density " + decimal(*clear, 2)
                          : "is the region clear film, and is all of the frame picture (--frame)?"));
        }
        if (const auto black = seen_.black_given) {
            const double darker = share([&](double light) { return light < kDarker * *black; });
            if (darker > kBeyondReference)
                tell(percent(darker) + " of the frame is darker than the scanner's black that is given (" +
                     decimal(*black, 3) +
                     "), and comes out as one dense tone; --black takes a region without light or its "
                     "transmittance, usually below 0.01");
        }
    }

    const ScanEvidence& seen_;
    ToneShape shape_;
    const Histogram& histogram_;
    std::span<const double> light_;
    std::vector<std::string> told_;
};

}  // namespace

std::vector<std::string> suspicions(const ScanEvidence& seen, const Histogram& histogram,
                                    std::span<const double> light) {
    return Suspicions(seen, histogram, light).all();
}

}  // namespace fogproof::negative
