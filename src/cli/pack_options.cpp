// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/pack_options.hpp"

#include <cmath>

#include "base/shortest.hpp"
#include "base/stop.hpp"
#include "base/words.hpp"
#include "choose/black_time.hpp"
#include "choose/todays_light.hpp"
#include "cli/choice.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/pack/grades.hpp"
#include "pack/carrier.hpp"
#include "pack/grade_words.hpp"
#include "pack/reciprocity.hpp"
#include "pack/schema.hpp"
#include "pack/treatment_limits.hpp"
#include "print/amounts.hpp"
#include "report/pack_label.hpp"
#include "report/shown.hpp"
#include "system/whole_file.hpp"

namespace fogproof::cli {

RestrainerAgent agent_in(const std::string& word, const std::string& place) {
    return choice<RestrainerAgent>(agent_words(), word, place);
}

Head head_in(const std::string& word, const std::string& place) {
    return choice<Head>(head_words(), word, place);
}

namespace {

// Of a time for which no grade is told.
double grade_untold(const Pack& pack) {
    const auto grades = grades_of(pack, paper_model(pack));
    return grades.size() == 1 ? grades.front() : kUnfilteredGrade;
}

BlackTime black_time_in(const std::string& text, const std::string& carrier, const Pack& pack) {
    const auto parts = split(text, '@');
    if (parts.size() > 2)
        throw Error(Fault::usage, "--black-time", "\"" + text + "\"", "SECONDS@GRADE, as 8s@2");
    BlackTime black{{within(plain_amount(parts[0], "s", "--black-time"), 0.1, 3600, "--black-time")},
                    parts.size() > 1 ? grade_told(parts[1], "--black-time") : grade_untold(pack)};
    // The trade looks for the first black of clear film.
    if (!carrier.empty()) black.through = carrier_in(carrier, "--carrier");
    return black;
}

// log10; of stops, as typed.
double log_light_in(const std::string& text, const Pack& pack) {
    const auto stops = stops_told(text);
    if (!stops || !within(stops->value, kLightLimits))
        throw Error(Fault::usage, "--light", "\"" + text + "\"",
                    "stops from " + shortest(kLightLimits.minimum) + " to +" +
                        shortest(kLightLimits.maximum) + ", as +1/3 where today's light is brighter");
    if (!pack.darkroom.anchored)
        throw Error(Fault::usage, "--light", "the pack has no anchor, and so no light to compare with",
                    "a pack with an [anchor], or leave it out");
    return stops->value * kLogPerStop;
}

Remarks black_time_remarks(const std::string& told, const BesideOwnSeconds& beside) {
    const std::string own = "the pack's own seconds, which make full black in " + shown_seconds(beside.own_s);
    Remarks remarks;
    if (beside.agrees)
        remarks.notes.push_back("--black-time " + told + " agrees with " + own + ", and changes nothing");
    else
        remarks.warnings.push_back("--black-time " + told + " is " + fixed(std::abs(beside.stops), 1) +
                                   " stop " + (beside.stops > 0 ? "more" : "less") + " than by " + own +
                                   "; these are kept. Is it a mistake? If lamp or enlarger have changed "
                                   "since, fit a strip made with "
                                   "them");
    return remarks;
}

}  // namespace

void PackOptions::add_to(CLI::App& app) {
    line = CommandLine(app);
    app.add_option("--pack", path, "file of the pack of paper")->required();
    const std::string group = "Enlarger (overrides the pack's)";
    app.add_option("--magnification", magnification, "long side of the print over long side of the frame")
        ->group(group);
    app.add_option("--f-number", f_number, "of the enlarging lens")->group(group);
    app.add_option("--light", light,
                   "how much brighter today's light is than when the pack was read, in stops: +1/3, -0.2 "
                   "[0]; start tells it after a test strip")
        ->group(group);
    app.add_option("--head", head, "diffuser, condenser or unknown; brings its usual Callier Q and doubt")
        ->group(group);
    app.add_option("--callier", callier, "Callier Q: 1 to 1.05 diffuser, 1.2 to 1.5 condenser")->group(group);
    app.add_option("--flare", flare, "share of the mean light spread over the easel")->group(group);
    app.add_option("--reciprocity", reciprocity, "Schwarzschild exponent of the paper")->group(group);
    app.add_option(
           "--black-time", black_time,
           "shortest time for full black through clear film (or what --carrier says), in the pack's usual "
           "development without restrainer: 8s, or 8s@GRADE [the pack's only grade, else 2]; a pack without "
           "seconds takes them from it, any other keeps its own, "
           "and "
           "a note says whether the two agree")
        ->group(group);
    app.add_option(
           "--carrier", carrier,
           "what lay in the carrier for --black-time or for the pack's own seconds: empty, clear-film or "
           "the density of the film in it")
        ->group(group);
}

PackOptions::Taken PackOptions::taken() const {
    Pack pack = read_pack(path);
    Enlarger& enlarger = pack.darkroom.enlarger;
    const auto take = [&](const std::optional<double>& given, const char* name, const char* option,
                          double& number) {
        if (!given) return;
        number = within(*given, pack_number(name)->minimum, pack_number(name)->maximum, option);
        pack.knowledge[name] = {Origin::given, std::nullopt};
    };
    if (!head.empty()) {
        pack.darkroom.head = head_in(head, "--head");
        pack.knowledge["enlarger.head"] = {Origin::given, std::nullopt};
        enlarger.callier = head_defaults(pack.darkroom.head).callier;
        pack.knowledge.erase("enlarger.callier");
    }
    if (!line.is_overruled("--callier", "--head"))
        take(callier, "enlarger.callier", "--callier", enlarger.callier);
    take(flare, "enlarger.flare", "--flare", enlarger.flare);
    if (reciprocity) {
        double exponent = enlarger.reciprocity;
        take(reciprocity, "enlarger.reciprocity", "--reciprocity", exponent);
        pack = with_reciprocity(std::move(pack), exponent);
    }
    take(magnification, "enlarger.magnification", "--magnification", enlarger.setting.magnification);
    take(f_number, "enlarger.f_number", "--f-number", enlarger.setting.f_number);
    if (!light.empty()) {
        const double log_light = log_light_in(light, pack);
        pack = in_light(std::move(pack), log_light);
    }
    if (black_time.empty()) {
        if (!carrier.empty()) enlarger.anchor_carrier = carrier_in(carrier, "--carrier");
        return {std::move(pack), {}};
    }
    const BlackTime black = black_time_in(black_time, carrier, pack);
    if (!has_own_seconds(pack)) return {anchored_by_black(std::move(pack), black), {}};
    Remarks remarks = black_time_remarks(black_time, beside_own_seconds(pack, black));
    return {std::move(pack), std::move(remarks)};
}

Description PackOptions::label(const Pack& pack) const {
    return pack_label(pack, read_whole(path));
}

}  // namespace fogproof::cli
