// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/pack_fit.hpp"

#include <algorithm>
#include <memory>

#include "base/markup.hpp"
#include "base/words.hpp"
#include "choose/printing.hpp"
#include "choose/starting_point.hpp"
#include "choose/wanted.hpp"
#include "cli/negative_options.hpp"
#include "cli/run_inputs.hpp"
#include "fit/predictor.hpp"
#include "fit/treated_patch.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/fit/pack_fit.hpp"
#include "fogproof/pack/file.hpp"
#include "pack/carrier.hpp"
#include "pack/commented_rows.hpp"
#include "pack/reading_columns.hpp"
#include "pack/readings_zero.hpp"
#include "picture/drawing_file.hpp"
#include "picture/picture_options.hpp"
#include "report/fit_chart.hpp"
#include "report/fit_report.hpp"
#include "report/reading_columns_words.hpp"
#include "report/shown.hpp"
#include "report/zero_words.hpp"
#include "scan/scan.hpp"
#include "system/output_set.hpp"
#include "system/text_file.hpp"
#include "system/whole_file.hpp"

namespace fogproof::cli {
namespace {

namespace fs = std::filesystem;

struct FitOptions {
    std::string readings, prior, output, drawing, carrier;
    std::vector<std::string> negatives;
    NegativeOptions film;
    bool json = false, all = false, force = false;
};

// The first of P.1.toml, P.2.toml ... that is free.
fs::path numbered_copy_of(const fs::path& pack) {
    for (int number = 1;; ++number) {
        fs::path copy = pack;
        copy.replace_filename(pack.stem().string() + "." + std::to_string(number) +
                              pack.extension().string());
        std::error_code unknown;
        if (!fs::exists(copy, unknown)) return copy;
    }
}

NegativeOnPack::Answer answer_on(const Pack& pack, const Scan& scan) {
    const Printing printing(with_negative(pack, scan.film_base()), Tones(scan.histogram(), scan.scale()));
    const StartingPoints points = starting_points(printing, as_fresh(printing), usual_bounds(printing));
    return {points.best, printing.pack().darkroom.anchored, pack.contrast == Contrast::graded};
}

// Opened before anything is worked out: a bad one is refused while nothing is written.
std::vector<Scan> negatives_of(const FitOptions& options, const Console& console) {
    std::vector<Scan> scans;
    for (const std::string& path : options.negatives) {
        Notes notes;
        scans.push_back(Scan::open(path, options.film.scan_options(), notes));
        console.remarks({std::move(notes), scans.back().warnings()}, path);
    }
    return scans;
}

std::vector<NegativeOnPack> negatives_on(std::span<const Scan> scans, const Pack& before, const Pack& now) {
    std::vector<NegativeOnPack> answers;
    for (const Scan& scan : scans)
        answers.push_back({plain_line(fs::path(scan.path()).stem().string()), answer_on(before, scan),
                           answer_on(now, scan)});
    return answers;
}

void fit(const FitOptions& options, const Console& console) {
    const auto replace = options.force ? WholeFile::Replace::allowed : WholeFile::Replace::never;
    if (options.negatives.empty()) options.film.refuse_without_negative();
    RunFiles files = run_that_reads({options.readings});
    for (const auto& negative : options.negatives) files.reads(negative);
    // A pack may be fitted again in its place: a copy of what it was is kept.
    files.writes(options.output, "the pack");
    files.reads(options.prior);
    files.writes(options.drawing, "the curves");
    WholeFile::refuse_unwritable(options.output, replace);
    if (!options.drawing.empty()) {
        refuse_undrawable(options.drawing);
        WholeFile::refuse_unwritable(options.drawing, replace);
    }
    const Pack prior = options.prior.empty() ? Pack{} : read_pack(options.prior);
    auto readings = read_readings_file(options.readings);
    if (const auto count = commented_rows(read_text(options.readings, kLargestReadingsFile, kReadingsWanted)))
        console.notes({commented_rows_words(count)}, options.readings);
    if (!options.carrier.empty()) tell_carrier(readings, carrier_density_in(options.carrier, "--carrier"));
    const std::vector<Scan> scans = negatives_of(options, console);
    const PackFit result =
        fitted_pack(prior, readings, plain_line(fs::path(options.readings).filename().string()));
    const auto negatives = negatives_on(scans, prior, result.pack);
    OutputSet results;
    std::string kept;
    if (std::error_code unknown; fs::exists(options.output, unknown)) {
        const fs::path copy = numbered_copy_of(options.output);
        results.write(copy, read_whole(options.output), WholeFile::Replace::never);
        kept = "the pack before is kept as " + copy.string();
    }
    results.write(options.output,
                  written(with_map_as_from(fs::path(options.output).parent_path(), result.pack)), replace);
    if (!options.drawing.empty()) save_drawing(fit_svg(result), results.file(options.drawing, replace));
    results.place();
    if (!kept.empty()) console.notes({kept}, options.output);
    if (!result.pack.darkroom.anchored && !prior.darkroom.anchored)
        console.notes({"no reading tells the speed, so answers stay in stops"}, options.output);
    if (const auto guessed = std::ranges::count_if(result.readings, exposure_guessed); guessed > 0)
        console.notes(
            {readings_counted(std::size_t(guessed)) +
             " under a wedge without exposure_s: the exposure of each such sheet is left open, so the "
             "paper's contrast may show, but not its speed"},
            options.readings);
    if (result.pack.darkroom.anchored &&
        result.pack.darkroom.enlarger.anchor_carrier.held == Carrier::Held::untold)
        console.notes(
            {"nothing says what lay in the carrier, so seconds are taken as through clear film; if it "
             "was empty, every exposure comes out about 0.8 stop short (base + fog " +
             fixed(kUsualBaseFog, 2) + "): --carrier empty, or a column carrier_density"},
            options.readings);
    Console::warnings(result.warnings, options.readings);
    Console::answer(options.json
                        ? fit_json(result, result.warnings, negatives)
                        : fit_text(result, negatives, options.all ? Numbers::listed : Numbers::counted));
}

}  // namespace

void add_fit(CLI::App& pack, const Console& console) {
    auto* verb = pack.add_subcommand(
        "fit", "learn a pack from readings of strips and prints, and tell how well it is known");
    const auto options = std::make_shared<FitOptions>();
    verb->add_option("READINGS", options->readings, "readings file (CSV)")->required();
    verb->add_option("--pack", options->prior,
                     "pack to start from; its readings are fitted again with the new ones");
    verb->add_option("-o,--output", options->output, "file of the pack")->required();
    verb->add_option(
        "--carrier", options->carrier,
        "what lay in the carrier for readings that do not say it: empty, or the density of the film in "
        "it");
    verb->add_option("--curves", options->drawing,
                     "draw every strip's readings on its curve, and the misses (.svg .png)");
    verb->add_option("--negative", options->negatives,
                     "scan of a negative: says how much surer its print has become; repeat for more")
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    options->film.add_to(*verb);
    verb->add_flag("--all", options->all, "list every number of the pack that was fitted");
    verb->add_flag("--json", options->json, "everything as JSON");
    verb->add_flag("--force", options->force, "replace an existing file; a numbered copy of it stays");
    verb->callback([options, &console] { fit(*options, console); });
}

}  // namespace fogproof::cli
