// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/target_options.hpp"

#include "cli/choice.hpp"
#include "cli/negative_options.hpp"
#include "fogproof/print/amounts.hpp"
#include "fogproof/report/shown.hpp"

namespace fogproof::cli {
namespace {

// "0.09@95%": a print density above white at a percentile of the negative, thinnest 0, densest 100; or
// "0.09@LEFT,TOP,WIDTH,HEIGHT": at a region of the upright scan.
PlacedTone place_in(const std::string& text, const Easel& easel, const Scan& scan,
                    const SmallNegative& overview) {
    const auto parts = split(text, '@');
    if (parts.size() != 2)
        throw Error(Fault::usage, "--place", "\"" + text + "\"",
                    "DENSITY@PERCENT% or DENSITY@LEFT,TOP,WIDTH,HEIGHT");
    PlacedTone tone;
    tone.above_white = within(plain_amount(parts[0], "D", "--place"), 0, 2.5, "--place");
    if (parts[1].find(',') == std::string::npos)
        tone.negative =
            easel.frame().quantile(within(plain_amount(parts[1], "%", "--place"), 0, 100, "--place") / 100);
    else
        tone.negative = mean_density(overview, scan, region_in(parts[1], "--place"));
    return tone;
}

std::vector<MatchedTone> tones_of_picture(const std::string& path) {
    ScanOptions options;
    options.kind = ScanOptions::Kind::positive;
    options.whole = true;
    Notes notes;
    const Scan other = Scan::open(path, options, notes);
    std::vector<MatchedTone> tones;
    for (std::size_t code = 0; code < other.light().size(); ++code)
        if (other.histogram()[code] > 0)
            tones.push_back({lab({0, other.light()[code], 0}).l, double(other.histogram()[code])});
    return tones;
}

}  // namespace

void TargetOptions::add_to(CLI::App& app) {
    const std::string group = "What is wanted (fresh paper if nothing is said)";
    app.add_option("--place", places,
                   "a tone put at a print density above white: 0.09@95% or 0.09@LEFT,TOP,WIDTH,HEIGHT")
        ->group(group)
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    app.add_option("--match", match, "a print or picture of the same frame whose tones are wanted, by rank")
        ->group(group);
}

std::pair<Wanted, std::string> TargetOptions::wanted(const Easel& easel, const Scan& scan,
                                                     const SmallNegative& overview) const {
    if (!match.empty() && !places.empty())
        throw Error(Fault::usage, "--match", "together with --place", "one of the two");
    if (!match.empty())
        return {matched(easel, tones_of_picture(match)), "the tones of " + match + ", by rank"};
    if (places.empty())
        return {as_fresh(easel), "this paper before it fogged, at grade " + decimal(easel.target().grade, 1)};
    std::vector<PlacedTone> tones;
    for (const auto& text : places) tones.push_back(place_in(text, easel, scan, overview));
    return {placed(easel, tones), "placed tones " + listed(places) + ", the rest as on fresh paper"};
}

}  // namespace fogproof::cli
