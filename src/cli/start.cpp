// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <iterator>
#include <memory>

#include "base/markup.hpp"
#include "cli/choice.hpp"
#include "cli/decided_options.hpp"
#include "cli/negative_options.hpp"
#include "cli/pack_options.hpp"
#include "cli/picture_options.hpp"
#include "cli/proposed_files.hpp"
#include "cli/recipe_options.hpp"
#include "cli/run_inputs.hpp"
#include "cli/sheet_options.hpp"
#include "cli/target_options.hpp"
#include "cli/typed_values.hpp"
#include "cli/verbs.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/recipe_file.hpp"
#include "picture/level_picture.hpp"
#include "print/amounts.hpp"
#include "print/recipe_doubts.hpp"
#include "proof/start_ladder.hpp"
#include "report/grid_sheet.hpp"
#include "report/print_words.hpp"
#include "report/start_report.hpp"
#include "report/strip_sheet.hpp"
#include "report/zero_words.hpp"
#include "scan/advice_on_edges.hpp"
#include "scan/fogged_sheet.hpp"
#include "scan/local_masks.hpp"
#include "scan/small_negative.hpp"
#include "system/output_set.hpp"

namespace fogproof::cli {
namespace {

struct StartOptions {
    NegativeOptions negative;
    PackOptions pack;
    TargetOptions target;
    PictureChoices picture;
    DecidedOptions decided;
    LocalWorkOptions local;
    SheetOptions sheet;
    std::string scan, ladder, strip, rescue, recipe;
    std::optional<double> dilution;
    double dry_down_percent = 0;
    bool json = false, propose = false;
};

// What can hardly be meant.
std::vector<std::string> option_doubts(const StartOptions& options, const Pack& pack,
                                       std::optional<Seconds> overdone) {
    Recipe recipe = options.decided.recipe();
    // A print left in the bleach for long is what a rescue is for.
    if (overdone && overdone->value <= pack.bleach.soak_s) recipe.bleach = *overdone;
    auto doubts = recipe_doubts(pack, std::array{recipe});
    if (const double percent = options.dry_down_percent; percent > 0 && percent < 1)
        doubts.push_back("--dry-down " + decimal(percent, 3) +
                         " takes less than one percent off; percent are wanted: 8 for 8 %");
    return doubts;
}

// Time in the bleach of a print that has been left in it too long.
std::optional<Seconds> overdone_bleach(const StartOptions& options) {
    if (options.rescue.empty()) return std::nullopt;
    return Seconds{within(plain_amount(options.rescue, "s", "--rescue"), 0, 36000, "--rescue")};
}

WholeFile::Replace replace_of(const StartOptions& options) {
    return options.picture.force ? WholeFile::Replace::allowed : WholeFile::Replace::never;
}

// Refuses what can be refused before the scan is read.
void check_files(const StartOptions& options, const Recipe& local, const Pack& pack) {
    RunFiles files = run_that_reads(
        {options.scan, options.pack.path, options.target.match, options.picture.profile, options.local.file});
    for (const auto& mask : mask_files(local)) files.reads(mask);
    files.reads(pack.edge_fog.map);
    files.writes(options.ladder, "the ladder");
    files.writes(options.strip, "the test strip");
    files.writes(options.recipe, "the recipe");
    if (options.propose) declare_proposed_masks(files, options.recipe, replace_of(options));
    for (const std::string& picture : {options.ladder, options.strip}) {
        if (picture.empty()) continue;
        static_cast<void>(options.picture.options(picture, 8));
        WholeFile::refuse_unwritable(picture, replace_of(options));
    }
    if (!options.recipe.empty()) WholeFile::refuse_unwritable(options.recipe, replace_of(options));
}

// A negative on a pack, with all that a question about it takes.
struct Asked {
    const StartOptions& options;
    const Scan& scan;
    const Printing& printing;
    const StartingPoints& points;
    std::optional<Seconds> overdone;
    std::shared_ptr<const Masks> masks;
    std::shared_ptr<const SheetFog> fog;
    std::optional<ProposedWork> proposed;
};

// A work can be proposed for the whole picture, once nothing else is asked.
void require_alone(const StartOptions& options) {
    if (!options.propose) return;
    const auto refuse = [](const std::string& other) {
        throw Error(Fault::usage, "--local", "together with " + other, "one of the two");
    };
    if (!options.local.file.empty()) refuse("--local-work");
    if (!options.rescue.empty()) refuse("--rescue");
    if (!options.target.places.empty()) refuse("--place");
}

StartRequest request_of(const Asked& asked, const AskedTarget& target, const std::vector<std::string>& doubts,
                        const SmallNegative& overview) {
    StartRequest request;
    request.negative = plain_line(std::filesystem::path(asked.options.scan).stem().string());
    request.target = target.words;
    request.warnings = asked.scan.warnings();
    std::ranges::copy(target.warnings, std::back_inserter(request.warnings));
    std::ranges::copy(doubts, std::back_inserter(request.warnings));
    std::ranges::copy(rim_warnings(asked.points.best.recipe, *asked.masks),
                      std::back_inserter(request.warnings));
    std::ranges::copy(dodge_warnings(asked.points.best.proof.steps, *asked.masks),
                      std::back_inserter(request.warnings));
    for (const LevelGrid& mask : *asked.masks) request.touched.push_back(touched(mask));
    request.sought_work = asked.options.propose;
    request.proposed = asked.proposed;
    request.dry_down = within(asked.options.dry_down_percent, 0, 30, "--dry-down") / 100;
    request.strip = strip_place(overview.width, overview.height, overview.density);
    if (const auto pull = moment_to_pull(asked.printing, asked.points.best))
        request.telling = telling_place(*pull, overview.width, overview.height, overview.density);
    return request;
}

void write_recipe(const Asked& asked) {
    OutputSet file;
    file.write(asked.options.recipe,
               written(with_masks_as_from(std::filesystem::path(asked.options.recipe).parent_path(),
                                          written_out(asked.points.best, asked.printing))),
               replace_of(asked.options));
    if (asked.proposed)
        save_levels(asked.masks->front(),
                    file.file(proposed_mask_file(asked.options.recipe, asked.proposed->place.kind),
                              replace_of(asked.options)));
    file.place();
}

std::string answer_of(const Asked& asked, const StartRequest& request) {
    const auto& [options, scan, printing, points, overdone, masks, fog, proposed] = asked;
    if (!overdone)
        return options.json ? start_json(printing, points, request) : start_text(printing, points, request);
    const Rescue saved = rescue(printing, points.best.recipe, *overdone, Seconds{1});
    return options.json ? rescue_json(saved, request) : rescue_text(saved);
}

void draw_ladder(const Asked& asked, const std::string& negative) {
    const auto& [options, scan, printing, points, overdone, masks, fog, proposed] = asked;
    GridRequest ladder = overdone ? rescue_ladder(printing, points.best, *overdone, negative)
                                  : bleach_ladder(printing, points.best, negative);
    ladder.bath = options.picture.bath(working_strength_g_l(printing.pack().darkroom.bath));
    const Rendering rendering = options.picture.chosen_rendering();
    const WorkedGrid grid = worked_grid(printing, std::move(ladder));
    GridSheet sheet = grid_sheet(printing, grid, rendering);
    sheet.local = local_masks_of(scan, masks, fog);
    render_grid(scan, sheet, GridLook{rendering}, OutputProfile::named(options.picture.profile),
                options.picture.options(options.ladder, 8), options.ladder);
}

void draw_strip(const Asked& asked, const StartRequest& request, const Console& console) {
    const StartOptions& options = asked.options;
    const Printing& printing = asked.printing;
    const std::filesystem::path target = options.strip, folder = target.parent_path();
    const PredictedStrip predicted = predicted_strip(printing, asked.points.best, request.strip);
    const Rendering rendering = options.picture.chosen_rendering();
    const auto bath =
        options.picture.bath(working_strength_g_l(bleach_bath(printing.pack(), predicted.recipe)));
    PictureOptions picture = options.picture.options(options.strip, 8);
    picture.description = described({strip_description(printing, predicted, request.negative, folder),
                                     options.pack.label(with_map_as_from(folder, printing.pack()))},
                                    target, console);
    render_test_strip(asked.scan,
                      strip_sheet(printing, predicted, request.negative, asked.masks, bath, rendering),
                      rendering, OutputProfile::named(options.picture.profile), picture, target);
}

void run(const StartOptions& options, const Console& console) {
    Pack pack = options.pack.pack();
    const std::optional<Seconds> overdone = overdone_bleach(options);
    require_alone(options);
    static_cast<void>(options.decided.kept_in({}));
    static_cast<void>(options.target.fresh_grade());
    const std::vector<std::string> doubts = option_doubts(options, pack, overdone);
    Console::warnings(doubts);
    if (options.dilution) pack.darkroom.bath.parts = within(*options.dilution, 0, 1000, "--dilution");
    Recipe local;
    local.local = options.local.works();
    check_files(options, local, pack);

    Notes notes;
    const Scan scan = Scan::open(options.scan, options.negative.scan_options(), notes);
    console.remarks({std::move(notes), scan.warnings()}, options.scan);
    console.notes(zero_notes(pack, scan.film_base(), false), options.scan);
    Printing printing(with_negative(std::move(pack), scan.film_base()), Tones(scan.histogram(), scan.scale()),
                      options.target.fresh_grade());
    const SmallNegative overview = small_negative(scan, kOverviewPixels);
    const AskedTarget target = options.target.wanted(printing, scan, overview);
    Console::warnings(target.warnings, options.scan);
    const SheetLayout sheet = options.sheet.layout();
    const auto fog = fogged_sheet(printing.pack(), sheet, options.sheet.laying(), scan);
    console.notes(options.sheet.idle_notes(fog != nullptr), options.scan);
    auto masks = std::make_shared<const Masks>(local_masks(local, scan, fog.get()));
    if (!masks->empty()) {
        Console::warnings(rim_warnings(local, *masks), options.scan);
        printing.count_places(placed_tones(scan, masks));
    }
    const SearchBounds bounds = options.decided.kept_in(usual_bounds(printing));
    StartingPoints points = starting_points(printing, target.wanted, bounds, local.local);
    std::optional<ProposedWork> work;
    if (options.propose)
        if (auto found = proposed(printing, target.wanted, bounds, points, scan, overview, fog.get(),
                                  options.recipe)) {
            work = std::move(found->work);
            points = std::move(found->points);
            masks = std::move(found->masks);
        }
    require_exposable(printing, {&points.best.proof, 1}, options.scan);
    Console::warnings(dodge_warnings(points.best.proof.steps, *masks), options.scan);

    const Asked asked{options, scan, printing, points, overdone, masks, fog, work};
    StartRequest request = request_of(asked, target, doubts, overview);
    if (fog) request.edges = advice_on_edges(printing, points.best.proof.steps, *fog, sheet, overview);
    console.detail(std::to_string(points.tried) + " recipes tried");
    if (!options.recipe.empty()) write_recipe(asked);
    Console::answer(answer_of(asked, request));
    if (!options.ladder.empty()) draw_ladder(asked, request.negative);
    if (!options.strip.empty()) draw_strip(asked, request, console);
}

}  // namespace

void add_start(CLI::App& program, const Console& console) {
    auto* verb = program.add_subcommand(
        "start", "starting exposure, filter, restrainer and bleach for a negative on a pack");
    const auto options = std::make_shared<StartOptions>();
    verb->add_option("NEG", options->scan, "scanned negative or digital picture")->required();
    verb->add_flag("--json", options->json, "the answer as JSON");
    verb->add_option("--dilution", options->dilution, "of the bleach bath [the pack's]")
        ->type_name(kDilution);
    verb->add_option(
        "--dry-down", options->dry_down_percent,
        "for strips judged wet: percent by which the chosen band must be shortened, 8 to 12 by trade habit; "
        "the told times are for the dry print and stay [0]");
    verb->add_option("--ladder", options->ladder,
                     "picture of the print pulled too early to too late (.tif .png .jpg)");
    verb->add_option("--strip", options->strip,
                     "picture of the test strip as its bands will come out, to lay the real one beside "
                     "(.tif .png .jpg)");
    verb->add_option(
        "--rescue", options->rescue,
        "the best print was left in the bleach for so long (140s): what redevelopment brings back");
    verb->add_option("--recipe-out", options->recipe,
                     "file for the best recipe, which print takes as its own (.toml)");
    verb->add_flag(
        "--local", options->propose,
        "also seek the burn or dodge that would gain most; --recipe-out then writes it with its mask "
        "(RECIPE-burn.png or RECIPE-dodge.png)");
    options->decided.add_to(*verb);
    options->local.add_to(*verb);
    options->sheet.add_to(*verb, kSheetGroup);
    options->target.add_to(*verb);
    options->pack.add_to(*verb);
    options->negative.add_to(*verb);
    options->picture.add_to(*verb);
    verb->callback([options, &console] { run(*options, console); });
}

}  // namespace fogproof::cli
