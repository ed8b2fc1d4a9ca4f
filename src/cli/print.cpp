// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <filesystem>
#include <memory>
#include <optional>
#include <set>
#include <vector>

#include "cli/choice.hpp"
#include "cli/negative_options.hpp"
#include "cli/pack_options.hpp"
#include "cli/picture_options.hpp"
#include "cli/recipe_options.hpp"
#include "cli/verbs.hpp"
#include "fogproof/base/input_file.hpp"
#include "fogproof/choose/easel.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/render/full_print.hpp"
#include "fogproof/report/print_words.hpp"
#include "fogproof/table/print_table.hpp"

namespace fogproof::cli {
namespace {

namespace fs = std::filesystem;

struct Options {
    NegativeOptions negative;
    PackOptions pack;
    RecipeOptions recipe;
    PictureChoices picture;
    std::vector<std::string> scans;
    std::string output, suffix = "tif";
    double border_percent = 0;
    std::optional<double> long_side_mm;
};

struct Job {
    Pack pack;
    Recipe recipe;
    OutputProfile profile;
};

void print_one(const Options& options, const Job& job, const std::string& source, const fs::path& target,
               const Console& console) {
    PictureOptions picture = options.picture.options(target.string(), 16);
    refuse_same(source, target);
    WholeFile::refuse_unwritable(target, picture.replace);
    Notes notes;
    const Scan scan = Scan::open(source, options.negative.scan_options(), notes);
    console.notes(notes, source);
    refuse_unsavable(target, scan.width(), scan.height(), picture.bits);
    const Easel easel(job.pack, Tones(scan.histogram(), scan.scale()));
    const Proof proof = easel.proof(job.recipe);
    const PrintModel model = easel.print(
        proof.steps, options.picture.bath(working_strength_g_l(bleach_bath(job.pack, job.recipe))));
    picture.pixels_per_mm =
        print_resolution(scan, options.long_side_mm, job.pack.enlarger.setting.magnification);
    picture.description = print_description(easel, proof);
    try {
        render_print(scan, model, {options.picture.chosen_rendering(), options.border_percent / 100},
                     job.profile, picture, target);
    } catch (const Error& error) {
        // What cannot be written to its end may be for want of its beginning.
        if (error.fault() == Fault::io) scan.require_unchanged();
        throw;
    }
    console.notes({print_sentence(easel, proof)}, target.string());
    if (console.verbose)
        console.detail(
            table_sentence(worst_lightness_error(PrintTable(model, scan.scale()), model, scan.scale())));
}

// The only file, or one of the same name in a folder.
fs::path target_of(const Options& options, const std::string& source) {
    if (!is_folder(options.output)) return options.output;
    return fs::path(options.output) / (fs::path(source).stem().string() + "." + options.suffix);
}

// Two negatives of one name would write the same print.
void refuse_name_twice(const std::vector<std::string>& scans) {
    std::set<std::string> names;
    for (const auto& scan : scans)
        if (!names.insert(fs::path(scan).stem().string()).second)
            throw Error(Fault::usage, scan, "a second negative of this name",
                        "negatives of different names for one folder");
}

void run(const Options& options, const Console& console) {
    if (options.scans.size() > 1 && !is_folder(options.output))
        throw Error(Fault::usage, "--output", options.output + " is no folder",
                    "an existing folder for several negatives");
    static_cast<void>(
        choice<bool>({{"tif", true}, {"png", true}, {"jpg", true}}, options.suffix, "--format"));
    static_cast<void>(within(options.border_percent, 0, 50, "--border"));
    if (options.long_side_mm) static_cast<void>(within(*options.long_side_mm, 10, 5000, "--long-side"));
    refuse_name_twice(options.scans);
    const Job job{options.pack.pack(), options.recipe.recipe(),
                  OutputProfile::named(options.picture.profile)};

    // One bad negative does not keep the others from being printed; the first fault is the program's own.
    std::optional<Error> first;
    for (const auto& source : options.scans) {
        try {
            print_one(options, job, source, target_of(options, source), console);
        } catch (const Error& error) {
            if (options.scans.size() == 1) throw;
            Console::fault(error.what());
            if (!first) first = error;
        }
    }
    if (first) throw Error(first->fault(), "print", "not all negatives could be printed");
}

}  // namespace

void add_print(CLI::App& program, const Console& console) {
    auto* verb = program.add_subcommand("print", "simulated prints at the full size of their scans");
    const auto options = std::make_shared<Options>();
    verb->add_option("NEG", options->scans, "scanned negatives or digital pictures")->required();
    verb->add_option("-o,--output", options->output, "picture to write (.tif .png .jpg), or a folder")
        ->required();
    verb->add_option("--format", options->suffix, "in a folder: tif, png or jpg [tif]");
    verb->add_option("--border", options->border_percent, "unexposed border, percent of the longer side [0]");
    verb->add_option(
        "--long-side", options->long_side_mm,
        "longer side of the print in mm, for the picture's resolution [from scan and magnification]");
    options->pack.add_to(*verb);
    options->recipe.add_to(*verb);
    options->negative.add_to(*verb);
    options->picture.add_to(*verb);
    verb->callback([options, &console] { run(*options, console); });
}

}  // namespace fogproof::cli
