// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/seen_words.hpp"

#include <cmath>
#include <nlohmann/json.hpp>

#include "base/stop.hpp"
#include "base/words.hpp"
#include "report/shown.hpp"

namespace fogproof::report {
namespace {

// As the option --light takes it: "+0.33".
std::string in_stops(double log_light) {
    const double stops = log_light / kLogPerStop;
    return (stops < 0 ? "" : "+") + decimal(stops, 2);
}

}  // namespace

std::string seen_words(const SeenBand& band) {
    const double stops = std::log2(band.told.value / band.seen.value);
    const std::string said = std::abs(stops) < 0.005 ? std::string("as fast as")
                                                     : fixed(std::abs(stops), 2) + " stop " +
                                                           (stops > 0 ? "faster" : "slower") + " than";
    return "band " + std::to_string(band.number) + " (" + shown(band.seen) + ") is as dark as " +
           shown(band.told) + " was expected to be: today's paper and light are " + said +
           " the pack says, +/- " + decimal(band.step_stops / 2, 2) + " stop";
}

std::string seen_consequences(const SeenBand& band, const Enlarger& today) {
    std::string words = "Only the exposure changes; all else stays as on the strip.\n";
    if (band.today)
        words +=
            "The pack stays as it is: only today's light is taken to differ from that of its readings.\n"
            "print, grid and plan still count in the light of the readings: give them --light " +
            in_stops(today.log_light_today) + ", the likeliest by this band and the pack together.\n";
    else
        words +=
            "No reading of this pack tells seconds, so the band counts as one of its speed, beside what the "
            "pack "
            "says of it: the exposure moves by their shares.\nTo keep it for print, grid and plan, give the "
            "file "
            "of --readings-out to fogproof pack fit.\n";
    if (band.is_shortest() || band.is_longest())
        words += std::string("It is the ") + (band.is_shortest() ? "shortest" : "longest") +
                 " band, so the right time may be " + (band.is_shortest() ? "shorter" : "longer") +
                 " still: expose the new test strip below before a whole sheet.\n";
    return words;
}

nlohmann::ordered_json seen_json(const SeenBand& band, const StartingPoint& best, const Enlarger& today) {
    nlohmann::ordered_json json{{"band", band.number},
                                {"exposure_s", band.seen.value},
                                {"told_s", band.told.value},
                                {"paper_faster_stops", std::log2(band.told.value / band.seen.value)},
                                {"doubt_stops", band.step_stops / 2},
                                {"is_end_of_strip", band.is_shortest() || band.is_longest()},
                                {"as_todays_light", band.today.has_value()}};
    if (band.today) {
        json["light_stops"] = today.log_light_today / kLogPerStop;
        json["exposure_s_in_light_of_readings"] = in_light_of_readings({best.exposure_s.value}, today).value;
    }
    return json;
}

}  // namespace fogproof::report
