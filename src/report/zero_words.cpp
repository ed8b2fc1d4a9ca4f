// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/zero_words.hpp"

#include <cmath>

#include "base/stop.hpp"
#include "base/words.hpp"
#include "pack/carrier.hpp"
#include "print/recipe_head.hpp"

namespace fogproof::report {
namespace {

// Below this no printer sees a difference of exposure. Judgement.
constexpr double kSeenStops = 0.05;

double stops_of(double density) {
    return density / kLogPerStop;
}

std::string stops_in_words(double density) {
    const double stops = stops_of(density);
    if (std::abs(stops) < kSeenStops) return "no difference";
    return fixed(std::abs(stops), 1) + (stops > 0 ? " stop more" : " stop less");
}

std::string base_in_words(const FilmBase& base) {
    const std::string density = "base + fog of " + fixed(base.density, 2);
    switch (base.from) {
        case FilmBase::From::given:
            return density + ", as given";
        case FilmBase::From::scan:
            return density + ", that of the clear film in its scan";
        case FilmBase::From::counted:
            return "base + fog, counted from the scan's full scale";
        case FilmBase::From::assumed:
            return density + ", assumed since the scan cannot tell (--base-fog says it)";
    }
    return density;
}

}  // namespace

std::string zero_of_pack(const Pack& pack) {
    const Carrier& carrier = pack.darkroom.enlarger.anchor_carrier;
    if (carrier.held == Carrier::Held::untold) return "through clear film (taken: the pack does not say)";
    if (carrier.held == Carrier::Held::clear_film) return "through clear film";
    return carrier.density == 0 ? "with an empty carrier"
                                : "through film of density " + decimal(carrier.density, 2);
}

namespace {

std::string through_what(const Pack& pack) {
    const Enlarger& enlarger = pack.darkroom.enlarger;
    const Carrier& carrier = enlarger.anchor_carrier;
    if (carrier.held == Carrier::Held::clear_film)
        return "Seconds were measured through clear film; this negative's base + fog is taken to be the "
               "same.";
    if (carrier.held == Carrier::Held::untold) {
        const double base = enlarger.base_fog && *enlarger.base_fog > 0 ? *enlarger.base_fog : kUsualBaseFog;
        return "Seconds are taken as measured through clear film like this negative's; the pack does not "
               "say. "
               "If the carrier was empty, every exposure needs " +
               stops_in_words(base) + ".";
    }
    const std::string measured = "Seconds were measured with " + in_words(carrier) + "; ";
    if (!enlarger.base_fog) return measured + "a negative's base + fog comes on top.";
    if (*enlarger.base_fog == 0)
        return measured + "the densities of this negative are counted in the same way.";
    return measured + "this negative has a base + fog of " + fixed(*enlarger.base_fog, 2) + ": " +
           stops_in_words(-log_gain_through_film(enlarger)) + ".";
}

std::string todays_light(double log_light) {
    const double stops = stops_of(log_light);
    return "Today's light is taken to be " + decimal(std::abs(stops), 2) + " stop " +
           (stops > 0 ? "brighter" : "dimmer") + " than that of the pack's readings.";
}

// What nobody told of it.
std::string assumed_of_head(const Pack& pack) {
    const auto is_assumed = [&](const char* name) { return pack.known(name).origin == Origin::assumed; };
    const bool magnification = is_assumed("enlarger.magnification"),
               f_number = is_assumed("enlarger.f_number");
    if (!magnification && !f_number) return {};
    return std::string(" (the ") + (magnification ? "magnification" : "f-number") +
           (magnification && f_number ? " and the f-number are" : " is") + " assumed)";
}

}  // namespace

std::string head_of_seconds(const Pack& pack) {
    if (!pack.darkroom.anchored) return {};
    const Enlarger& enlarger = pack.darkroom.enlarger;
    if (enlarger.setting != enlarger.anchor)
        return "All seconds here are for " + print::in_words(enlarger.setting) +
               (doubt_of_anchor(pack) ? "; the pack's own are assumed to be for "
                                      : "; the pack's own are for ") +
               print::in_words(enlarger.anchor) + ".";
    return print::is_head_told(pack)
               ? "All seconds here are for " + print::in_words(enlarger.setting) + assumed_of_head(pack) + "."
               : "All seconds here are for the magnification and f-number at which they were measured.";
}

std::string zero_of_seconds(const Pack& pack) {
    if (!pack.darkroom.anchored) return {};
    const double today = pack.darkroom.enlarger.log_light_today;
    return through_what(pack) + " " + head_of_seconds(pack) +
           (today == 0 ? std::string() : " " + todays_light(today));
}

std::vector<std::string> zero_notes(const Pack& pack, const FilmBase& base, bool has_flash) {
    if (!pack.darkroom.anchored) return {};
    std::vector<std::string> notes;
    switch (pack.darkroom.enlarger.anchor_carrier.held) {
        case Carrier::Held::untold:
            notes.push_back(through_what(with_negative(pack, base)) +
                            " --carrier or carrier in the pack's [anchor] says it");
            break;
        case Carrier::Held::clear_film:
            break;
        case Carrier::Held::density:
            notes.push_back(
                "seconds were measured with " + in_words(pack.darkroom.enlarger.anchor_carrier) +
                "; the negative has a " + base_in_words(base) + ": " +
                stops_in_words(-log_gain_through_film(with_negative(pack, base).darkroom.enlarger)));
            break;
    }
    if (has_flash && std::abs(stops_of(base.density)) >= kSeenStops)
        notes.push_back(
            "a flash, without the negative, is light through an open gate: " + stops_in_words(base.density) +
            " light than through clear film (" + base_in_words(base) + ")");
    return notes;
}

Pack with_negative(Pack pack, const FilmBase& base) {
    pack.darkroom.enlarger.base_fog = base.density;
    return pack;
}

}  // namespace fogproof::report
