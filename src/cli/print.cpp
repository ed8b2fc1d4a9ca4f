// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <array>
#include <filesystem>
#include <iterator>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <vector>

#include "choose/printing.hpp"
#include "cli/batch.hpp"
#include "cli/batch_options.hpp"
#include "cli/choice.hpp"
#include "cli/drawn_print_options.hpp"
#include "cli/prepared_negative.hpp"
#include "cli/typed_values.hpp"
#include "cli/verbs.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/print/print_model.hpp"
#include "fogproof/print/print_steps.hpp"
#include "picture/full_print.hpp"
#include "print/recipe_doubts.hpp"
#include "report/print_words.hpp"
#include "report/toning_words.hpp"
#include "report/turned_words.hpp"
#include "report/zero_words.hpp"
#include "scan/local_masks.hpp"
#include "scan/print_size.hpp"
#include "system/input_file.hpp"
#include "system/output_folder.hpp"
#include "table/print_table.hpp"

namespace fogproof::cli {
namespace {

namespace fs = std::filesystem;

constexpr char kWholeSheet[] = "sheet";

double border_percent(const std::string& text) {
    std::string_view number = trimmed(text);
    if (number.ends_with('%')) number.remove_suffix(1);
    const auto percent = number_in(trimmed(number));
    if (!percent)
        throw Error(Fault::usage, "--border", "\"" + text + "\" is no number",
                    "percent of the longer side, 0 to 50, or sheet for the sheet to its edges");
    return within(*percent, 0, 50, "--border");
}

struct PrintOptions : DrawnPrintOptions {
    BatchOptions batch;
    std::string output, suffix = "tif";
    CLI::Option* format = nullptr;
    bool json = false, into_folder = false;
    std::string border = "0";
    std::optional<double> long_side_mm;
    std::optional<int> size;
};

struct Job {
    Pack pack;
    Recipe recipe;
    OutputProfile profile;
    ScanOptions scan;
    SheetLayout sheet;
    Laying laying;
    std::vector<std::string> warnings;  ///< of pack and recipe, said once for all negatives
};

// What is drawn around the picture: a share of its longer side, or the sheet.
PrintLook look_of(const PrintOptions& options, const Job& job, const PreparedNegative& negative) {
    PrintLook look{options.picture.chosen_rendering(), 0, std::nullopt, negative.fog};
    const int width = negative.scan.width(), height = negative.scan.height();
    if (options.border == kWholeSheet)
        look.whole_sheet = look.fog ? look.fog->frame() : laid_on_sheet(job.sheet, width, height, job.laying);
    else
        look.border = border_percent(options.border) / 100;
    look.refuse_beyond_sheet(width, height);
    return look;
}

int longer_side(const Scan& scan) {
    return std::max(scan.width(), scan.height());
}

// A print has no more pixels than its scan.
std::vector<std::string> size_notes(const PrintOptions& options, const Scan& scan) {
    const int longer = longer_side(scan);
    if (!options.size || *options.size <= longer) return {};
    return {"--size " + std::to_string(*options.size) + " is more than the frame has; the print has its " +
            std::to_string(longer) + " pixels"};
}

// The longer side of the picture, where the sheet or an option tells it.
std::optional<double> drawn_mm(const PrintOptions& options, const Job& job, const Scan& scan) {
    if (options.border != kWholeSheet) return options.long_side_mm;
    const FrameOnSheet frame = laid_on_sheet(job.sheet, scan.width(), scan.height(), job.laying);
    return std::max(frame.width, frame.height);
}

double pixels_per_mm(const PrintOptions& options, const Job& job, const PreparedNegative& negative,
                     const PrintLook& look) {
    const Scan& scan = negative.scan;
    const double full =
        negative.fog ? scan.width() / negative.fog->frame().width
        : look.whole_sheet
            ? scan.width() / look.whole_sheet->width
            : print_resolution(scan, options.long_side_mm, job.pack.darkroom.enlarger.setting.magnification);
    const int longer = longer_side(scan);
    return options.size ? full * (double(std::min(*options.size, longer)) / longer) : full;
}

// The file of one print; the model that its colours are of.
PrintModel drawn(const PrintOptions& options, const Job& job, const PreparedNegative& negative,
                 const Proof& proof, PictureOptions picture, const fs::path& target, const Console& console) {
    const auto& [scan, printing, fog, masks] = negative;
    const auto bath = options.picture.bath(working_strength_g_l(bleach_bath(job.pack, job.recipe)));
    PrintModel model = printing.print(proof.steps, bath);
    std::optional<LocalPrint> local;
    if (!masks->empty()) local.emplace(printing, proof.steps, masks, bath);
    const LocalPrint* const work = local ? &*local : nullptr;
    const PrintLook look = look_of(options, job, negative);
    picture.pixels_per_mm = pixels_per_mm(options, job, negative, look);
    picture.description = described({print_description(printing, proof, target.parent_path()),
                                     negative.sheet_described(), turned_description(scan.degrees_turned()),
                                     options.pack.label(with_map_as_from(target.parent_path(), job.pack))},
                                    target, console);
    try {
        if (options.size)
            render_small_print(scan, model, look, *options.size, job.profile, picture, target, work);
        else
            render_print(scan, model, look, job.profile, picture, target, work);
    } catch (const Error& error) {
        // A scan that changed while it was read is the likelier cause.
        if (error.fault() == Fault::io) scan.require_unchanged();
        throw;
    }
    return model;
}

// The print's numbers as JSON.
std::string print_one(const PrintOptions& options, const Job& job, const std::string& source,
                      const fs::path& target, const Console& console) {
    const PictureOptions picture = options.picture.options(target.string(), 16);
    WholeFile::refuse_unwritable(target, picture.replace);
    OpenedNegative opened = opened_negative(source, job.scan);
    const Scan& scan = opened.scan;
    std::ranges::copy(toner_notes(job.pack, std::array{job.recipe}),
                      std::back_inserter(opened.remarks.notes));
    PreparedNegative negative(scan, job.pack);
    negative.lay_on(job.sheet, job.laying);
    negative.mask(job.recipe);
    const bool sheet_counts = negative.fog || options.border == kWholeSheet;
    console.notes(options.sheet.idle_notes(sheet_counts ? SheetUse::all : SheetUse::nothing), source);
    opened.add(rim_warnings(job.recipe, *negative.masks));
    if (const auto drawn = negative.drawn_mm() ? negative.drawn_mm() : drawn_mm(options, job, scan))
        opened.add(size_warnings(scan, job.pack, job.sheet, drawn));
    console.remarks(opened.remarks, source);
    Console::cautions(toner_cautions(std::array{job.recipe}), source);
    opened.add(job.warnings);
    console.notes(size_notes(options, scan), target.string());
    if (!options.size) refuse_unsavable(target, scan.width(), scan.height(), picture.bits);
    console.notes(zero_notes(job.pack, scan.film_base(), !job.recipe.flashes.empty()), source);
    negative.count_places();
    const Proof proof = negative.printing.proof(job.recipe);
    require_exposable(negative.printing, {&proof, 1}, source);
    opened.warn(dodge_warnings(proof.steps, *negative.masks));

    const PrintModel model = drawn(options, job, negative, proof, picture, target, console);
    console.notes({print_sentence(negative.printing, proof)}, target.string());
    // What is odd in the recipe explains it.
    if (job.warnings.empty()) opened.warn(flat_warnings(proof));
    if (console.verbose)
        console.detail(
            table_sentence(worst_lightness_error(PrintTable(model, scan.scale()), model, scan.scale())));
    if (const auto lies = negative.sheet_sentence()) console.notes({*lies}, target.string());
    return print_json(negative.printing, proof, negative.touched_places(), negative.sheet_json(), source,
                      target.string(), opened.remarks);
}

// A folder that exists; or one to be made, for several negatives or where a slash says that it is meant.
bool goes_into_folder(const PrintOptions& options, std::size_t scans) {
    const fs::path output = options.output;
    if (is_folder(output) || (!output.empty() && !output.has_filename())) return true;
    if (scans == 1) return false;
    std::error_code unknown;
    if (output.has_extension() || fs::exists(output, unknown))
        throw Error(Fault::usage, "--output", options.output + " is no folder",
                    "a folder for several negatives, made if it does not exist");
    return true;
}

// The only file, or one of the same name in a folder.
fs::path target_of(const PrintOptions& options, const std::string& source) {
    if (!options.into_folder) return options.output;
    return fs::path(options.output) / (fs::path(source).stem().string() + "." + options.suffix);
}

void run(PrintOptions options, const Console& console) {
    const Shard shard = options.batch.part();
    const std::vector<std::string> scans = options.batch.all();
    options.into_folder = goes_into_folder(options, scans.size());
    if (options.into_folder) require_folder_can_be(options.output);
    static_cast<void>(
        choice<bool>({{"tif", true}, {"png", true}, {"jpg", true}}, options.suffix, "--format"));
    if (options.border != kWholeSheet) static_cast<void>(border_percent(options.border));
    if (options.long_side_mm) static_cast<void>(within(*options.long_side_mm, 10, 5000, "--long-side"));
    if (options.size) static_cast<void>(within(*options.size, 16, 20000, "--size"));
    if (options.format->count() > 0 && !options.into_folder)
        console.notes({"--format is for prints written into a folder, so it changes nothing here"},
                      options.output);
    console.notes(options.picture.idle_notes(target_of(options, scans.front())), options.output);
    std::vector<std::string> read = scans;
    read.push_back(options.batch.list);
    auto [recipe, pack, files, warnings] = options.taken(read, console);
    for (const auto& scan : scans) files.writes(target_of(options, scan), scan);
    Job job{std::move(pack),
            std::move(recipe),
            OutputProfile::named(options.picture.profile),
            options.negative.scan_options(),
            options.sheet.layout(),
            options.sheet.laying(),
            std::move(warnings)};
    job.laying.long_side_mm = options.long_side_mm;
    require_bleach_before_redevelopment(std::array{job.recipe});
    refuse_coloured_in_grey(job.profile.channels(), std::array{job.recipe}, options.picture.is_under_bath());
    const auto doubts = recipe_doubts(job.pack, std::array{job.recipe});
    Console::warnings(doubts);
    std::ranges::copy(doubts, std::back_inserter(job.warnings));

    const auto work = [&](const std::string& source) {
        return print_one(options, job, source, target_of(options, source), console);
    };
    if (options.into_folder) make_folder(options.output);
    std::vector<std::string> prints;
    const auto take = [&](const std::string& numbers) { prints.push_back(numbers); };
    const Batch batch{"print", "printed", shard.part(scans), options.output, work, take};
    const auto fault = worked_through(batch, options.batch.limits());
    if (options.json && (!prints.empty() || !fault)) Console::answer(prints_as_json(prints));
    if (fault) throw *fault;
}

}  // namespace

void add_print(CLI::App& program, const Console& console) {
    auto* verb = program.add_subcommand("print", "simulated prints at the full size of their scans");
    const auto options = std::make_shared<PrintOptions>();
    options->batch.add_to(*verb);
    verb->add_option(
            "-o,--output", options->output,
            "picture to write (.tif .png .jpg), or a folder, which is made for several negatives or where "
            "its name ends in /")
        ->required();
    options->format = verb->add_option("--format", options->suffix, "in a folder: tif, png or jpg [tif]");
    verb->add_option(
        "--border", options->border,
        "width of the unexposed border in percent of the longer side; or sheet, for all of the sheet [0]");
    verb->add_option("--long-side", options->long_side_mm,
                     "longer side of the print in mm, or with its unit (30cm), for the picture's resolution "
                     "[from scan and magnification]")
        ->type_name(kMillimetres);
    verb->add_option("--size", options->size,
                     "longer side in pixels; a smaller print averages the light of the full one [full size]");
    verb->add_flag("--json", options->json, "numbers of each print as JSON on standard output");
    options->add_to(*verb);
    verb->callback([options, &console] { run(*options, console); });
}

}  // namespace fogproof::cli
