// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/target_options.hpp"

#include <cmath>
#include <map>

#include "base/markup.hpp"
#include "choose/same_frame.hpp"
#include "cli/choice.hpp"
#include "cli/negative_options.hpp"
#include "pack/grade_words.hpp"
#include "print/amounts.hpp"
#include "report/shown.hpp"

namespace fogproof::cli {
namespace {

// "0.09@95%": a print density above white at a percentile of the negative, thinnest 0, densest 100; or
// "0.09@LEFT,TOP,WIDTH,HEIGHT": at a region of the upright scan.
PlacedTone place_in(const std::string& text, const Printing& printing, const Scan& scan,
                    const SmallNegative& overview) {
    const auto parts = split(text, '@');
    if (parts.size() != 2)
        throw Error(Fault::usage, "--place", "\"" + text + "\"",
                    "DENSITY@PERCENT% or DENSITY@LEFT,TOP,WIDTH,HEIGHT");
    PlacedTone tone;
    tone.above_white = within(plain_amount(parts[0], "D", "--place"), 0, 2.5, "--place");
    if (parts[1].find(',') == std::string::npos)
        tone.negative = printing.frame().quantile(
            within(plain_amount(parts[1], "%", "--place"), 0, 100, "--place") / 100);
    else
        tone.negative = mean_density(overview, scan, region_in(parts[1], "--place"));
    return tone;
}

std::vector<MatchedTone> tones_of_picture(const Scan& picture) {
    std::vector<MatchedTone> tones;
    for (std::size_t code = 0; code < picture.light().size(); ++code)
        if (picture.histogram()[code] > 0)
            tones.push_back({lab({0, picture.light()[code], 0}).l, double(picture.histogram()[code])});
    return tones;
}

// Enough to tell one picture from another.
constexpr int kComparedPixels = 200;

AskedTarget matched_to(const std::string& path, const std::string& encoding, const Printing& printing,
                       const SmallNegative& frame) {
    ScanOptions options;
    options.kind = ScanOptions::Kind::positive;
    options.kind_is_told = true;
    options.encoding = encoding_in(encoding, "--match-encoding");
    options.whole = true;
    Notes notes;
    const Scan picture = Scan::open(path, options, notes);
    // Its lightness counts, and no film.
    std::erase_if(notes,
                  [](const std::string& note) { return note.find("virtual film") != std::string::npos; });
    AskedTarget asked{matched(printing, tones_of_picture(picture)),
                      "the tones of " + plain_line(path) + ", from its darkest to its lightest",
                      {},
                      std::move(notes)};
    for (const std::string& warning : picture.warnings())
        asked.warnings.push_back("--match " + plain_line(path) + ": " + warning);
    const SmallNegative small = small_negative(picture, kComparedPixels);
    if (const auto doubt = doubt_of_same_frame({frame.width, frame.height, frame.density},
                                               {small.width, small.height, small.density}))
        asked.warnings.push_back("--match " + plain_line(path) + " " + *doubt);
    return asked;
}

// "LEFT,TOP,WIDTH,HEIGHT" or "80%-100%", and "=70%" for how much these tones count.
MindedTones minded_in(const std::string& text, const Printing& printing, const Scan& scan,
                      const SmallNegative& overview) {
    const auto parts = split(text, '=');
    const auto percent = [](const std::string& amount) {
        return within(plain_amount(amount, "%", "--mind"), 0, 100, "--mind") / 100;
    };
    MindedTones some;
    if (parts.size() == 2) some.share = percent(parts[1]);
    const auto ends = split(parts[0], '-');
    if (parts.size() > 2 || (parts[0].find(',') == std::string::npos && ends.size() != 2))
        throw Error(Fault::usage, "--mind", "\"" + text + "\"",
                    "LEFT,TOP,WIDTH,HEIGHT or FROM%-TO%, and =PERCENT%");
    if (ends.size() == 2) {
        some.tones = tones_between(printing.frame(), percent(ends[0]), percent(ends[1]));
        if (some.tones.empty())
            throw Error(Fault::usage, "--mind", "no tones from " + ends[0] + " to " + ends[1],
                        "from the thinner to the denser, 0% to 100%");
    } else {
        const auto inside = densities_in(overview, scan, region_in(parts[0], "--mind"));
        const double each = 1 / double(inside.size());
        std::map<double, double> shares;
        for (const NegativeDensity density : inside) shares[std::round(density.value * 200) / 200] += each;
        for (const auto& [density, share] : shares) some.tones.push_back({{density}, share});
    }
    return some;
}

// A placed tone is wanted at its own density, and the tones about it as on fresh paper: minded in their
// midst, it would be drawn off its place.
void refuse_minded_places(const Wanted& wanted, std::span<const MindedTones> minded) {
    constexpr double kMidst = 0.25;  // share of the minded tones that lies to either side at least
    const auto placed = std::span(wanted.tones).last(wanted.placed);
    for (const MindedTones& some : minded)
        for (const Tone& tone : placed) {
            double thinner = 0, denser = 0;
            for (const Tone& each : some.tones)
                (each.density.value < tone.density.value ? thinner : denser) += each.share;
            if (std::min(thinner, denser) > kMidst * (thinner + denser))
                throw Error(Fault::usage, "--mind",
                            "its tones lie about one that --place puts at a density of its own",
                            "other tones; what is placed counts nine tenths of everything already");
        }
}

AskedTarget plainly_wanted(const TargetOptions& asked, const Printing& printing, const Scan& scan,
                           const SmallNegative& overview) {
    if (!asked.match.empty())
        return matched_to(asked.match, asked.match_encoding, printing, frame_of(overview, scan));
    if (!asked.match_encoding.empty())
        throw Error(Fault::usage, "--match-encoding", "without --match", "both");
    if (asked.places.empty())
        return {as_fresh(printing),
                (printing.target().own_filter ? "this paper before it fogged, at grade "
                                              : "fresh paper like this one, but of grade ") +
                    printing.target().named_grade()};
    std::vector<PlacedTone> tones;
    for (const auto& text : asked.places) tones.push_back(place_in(text, printing, scan, overview));
    return {placed(printing, tones), "placed tones " + listed(asked.places) + ", the rest as on fresh paper"};
}

}  // namespace

void TargetOptions::add_to(CLI::App& app) {
    const std::string group = "Goal (the fresh-paper print, unless you choose another)";
    app.add_option("--place", places,
                   "put a tone at a print density above white: 0.09@95% or "
                   "0.09@LEFT,TOP,WIDTH,HEIGHT")
        ->group(group)
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    app.add_option("--fresh", fresh,
                   "fresh paper of this grade, even one for which the pack has no filter [the grade "
                   "that suits the negative]")
        ->group(group);
    app.add_option("--mind", minded,
                   "tones that matter most: LEFT,TOP,WIDTH,HEIGHT, or 80%-100% of the negative from "
                   "thin to dense; add =70% to give them 70 % of the weight [50%]")
        ->group(group)
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    app.add_option("--match", match, "a print or picture of the same frame, whose tones the print shall have")
        ->group(group);
    app.add_option("--match-encoding", match_encoding, "as --encoding, of the picture of --match")
        ->group(group);
}

std::optional<double> TargetOptions::fresh_grade() const {
    constexpr double kHardest = 5;
    if (fresh.empty()) return std::nullopt;
    if (!match.empty())
        throw Error(Fault::usage, "--fresh", "cannot go together with --match",
                    Advice{"give one of the two"});
    const double grade = grade_told(fresh, "--fresh");
    if (grade > kHardest) throw Error(Fault::usage, "--fresh", "grade " + fresh, "00, 0, 0.5 (or 1/2) ... 5");
    return grade;
}

AskedTarget TargetOptions::wanted(const Printing& printing, const Scan& scan,
                                  const SmallNegative& overview) const {
    if (!match.empty() && !places.empty())
        throw Error(Fault::usage, "--match", "cannot go together with --place",
                    Advice{"give one of the two"});
    AskedTarget asked = plainly_wanted(*this, printing, scan, overview);
    if (minded.empty()) return asked;
    std::vector<MindedTones> tones;
    double sum = 0;
    for (const auto& text : minded) {
        tones.push_back(minded_in(text, printing, scan, overview));
        sum += tones.back().share;
    }
    if (sum > 1)
        throw Error(Fault::usage, "--mind", decimal(100 * sum, 0) + " % together", "at most 100 % of all");
    refuse_minded_places(asked.wanted, tones);
    return {minding(std::move(asked.wanted), tones), asked.words + "; minding " + listed(minded),
            std::move(asked.warnings), std::move(asked.picture_notes)};
}

}  // namespace fogproof::cli
