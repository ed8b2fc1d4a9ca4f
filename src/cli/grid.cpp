// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <filesystem>
#include <iterator>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>

#include "base/markup.hpp"
#include "cli/choice.hpp"
#include "cli/negative_options.hpp"
#include "cli/pack_options.hpp"
#include "cli/picture_options.hpp"
#include "cli/recipe_options.hpp"
#include "cli/run_inputs.hpp"
#include "cli/sheet_options.hpp"
#include "cli/verbs.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/print/print_steps.hpp"
#include "print/recipe_doubts.hpp"
#include "report/edge_fog_words.hpp"
#include "report/fitted_page.hpp"
#include "report/grid_sheet.hpp"
#include "report/print_words.hpp"
#include "report/proof_page.hpp"
#include "report/toning_words.hpp"
#include "report/turned_words.hpp"
#include "report/zero_words.hpp"
#include "scan/fogged_sheet.hpp"
#include "scan/local_masks.hpp"
#include "system/output_set.hpp"

namespace fogproof::cli {
namespace {

struct GridOptions {
    NegativeOptions negative;
    PackOptions pack;
    RecipeOptions recipe;
    PictureChoices picture;
    SheetOptions sheet;
    std::string scan, output, across, down;
    bool halves = false, spread = false, html = false;
    int cell_pixels = GridLook{}.cell_pixels;
};

// Grids are made to be printed at this resolution.
constexpr double kGridPixelsPerMm = 10;
constexpr std::size_t kMostCells = 120;

std::optional<Axis> asked_axis(const std::string& text, const std::string& place, const Recipe& recipe) {
    if (text.empty()) return std::nullopt;
    return axis_in(text, place, recipe.local);
}

// What typed options state for all prints.
std::vector<AxisQuantity> held_by(const GridOptions& options, const Recipe& recipe,
                                  const std::optional<Axis>& across, const std::optional<Axis>& down) {
    using enum AxisQuantity;
    std::vector<AxisQuantity> held;
    for (const auto& [option, quantity] : {std::pair{"--grade", grade},
                                           {"--split", grade},
                                           {"--exposure", exposure},

                                           {"--restrainer", restrainer},
                                           {"--develop", develop},
                                           {"--bleach", bleach},
                                           {"--redevelop", redevelop},
                                           {"--toner", toner}}) {
        if (!options.recipe.line.gives(option)) continue;
        for (const auto& [axis, place] : {std::pair{&across, "--across"}, {&down, "--down"}})
            if (*axis && (*axis)->quantity == quantity)
                throw Error(
                    Fault::usage, option,
                    "is given beside " + std::string(place) + " " + name_of(**axis) + ", which varies it",
                    "one of the two");
        held.push_back(quantity);
    }
    if (options.recipe.line.gives("--split")) held.push_back(exposure);  // unless an axis scales them
    if (recipe.exposures.size() > 1) held.push_back(grade);              // each exposure has its own
    for (const auto* axis : {&across, &down})
        if (*axis) held.push_back((*axis)->quantity);
    return held;
}

void refuse_clash(const Axis& across, const Axis& down) {
    if (name_of(across) == name_of(down))
        throw Error(Fault::usage, "--across and --down", "both are " + name_of(down),
                    "two different quantities");
    if (across.values.size() * down.values.size() > kMostCells)
        throw Error(Fault::usage, "--across and --down", "too many cells",
                    "up to " + std::to_string(kMostCells));
}

void run(const GridOptions& options, const Console& console) {
    PictureOptions picture = options.picture.options(options.output, 8);
    const std::string numbers = options.output + ".json", page = options.output + ".html";
    RunFiles files =
        run_that_reads({options.scan, options.pack.path, options.recipe.file, options.picture.profile});
    const Recipe recipe = options.recipe.recipe();
    for (const auto& mask : mask_files(recipe)) files.reads(mask);
    const PackOptions::Taken taken = options.pack.taken();
    const Pack& pack = taken.pack;
    console.remarks(taken.remarks, {});
    files.reads(pack.edge_fog.map);
    files.writes(options.output, "the grid");
    files.writes(numbers, "its numbers");
    if (options.html) files.writes(page, "its page");
    console.notes(options.picture.idle_notes(options.output), options.output);
    WholeFile::refuse_unwritable(options.output, picture.replace);
    WholeFile::refuse_unwritable(numbers, picture.replace);
    if (options.html) WholeFile::refuse_unwritable(page, picture.replace);
    const OutputProfile profile = OutputProfile::named(options.picture.profile);
    const std::optional<Axis> across = asked_axis(options.across, "--across", recipe),
                              down = asked_axis(options.down, "--down", recipe);
    std::vector<AxisQuantity> held = held_by(options, recipe, across, down);
    const SheetLayout sheet_layout = options.sheet.layout();
    const Laying laying = options.sheet.laying();

    Notes notes;
    const Scan scan = Scan::open(options.scan, options.negative.scan_options(), notes);
    Printing printing(with_negative(pack, scan.film_base()), Tones(scan.histogram(), scan.scale()));
    const auto fog = fogged_sheet(pack, sheet_layout, laying, scan);
    const auto masks = std::make_shared<const Masks>(local_masks(recipe, scan, fog.get()));
    console.notes(options.sheet.idle_notes(fog ? SheetUse::all : SheetUse::nothing), options.scan);
    if (!masks->empty()) printing.count_places(placed_tones(scan, masks));
    GridRequest request;
    request.negative = plain_line(std::filesystem::path(options.scan).stem().string());
    request.base = recipe;
    request.across = across ? *across : usual_across(printing, recipe, held);
    if (!across) held.push_back(request.across.quantity);
    request.down = down ? *down : usual_down(printing, recipe, held);
    refuse_clash(request.across, request.down);
    const std::vector<Recipe> recipes = recipes_over(recipe, request.across, request.down);
    require_bleach_before_redevelopment(recipes);
    refuse_toned_in_grey(profile.channels(), recipes);
    request.remarks = {std::move(notes), scan.warnings(), scan.degrees_turned()};
    std::ranges::copy(rim_warnings(recipe, *masks), std::back_inserter(request.remarks.warnings));
    std::ranges::copy(recipe_doubts(pack, recipes), std::back_inserter(request.remarks.warnings));
    console.remarks(request.remarks, options.scan);
    const auto toners = toner_notes(pack, recipes);
    console.notes(toners, options.scan);
    console.notes(zero_notes(pack, scan.film_base(), !recipe.flashes.empty()), options.scan);
    request.panels = options.halves   ? GridRequest::Panels::halves
                     : options.spread ? GridRequest::Panels::spread
                                      : GridRequest::Panels::likely;
    request.bath = options.picture.bath(working_strength_g_l(bleach_bath(pack, recipe)));
    const WorkedGrid grid = worked_grid(printing, std::move(request));
    require_exposable(printing, grid.proofs, options.scan);
    for (const Proof& proof : grid.proofs)
        if (const auto dodges = dodge_warnings(proof.steps, *masks); !dodges.empty()) {
            Console::warnings(dodges, options.scan);
            break;
        }

    const GridLook look{options.picture.chosen_rendering(),
                        int(within(options.cell_pixels, 80, 4000, "--cell"))};
    GridSheet sheet = grid_sheet(printing, grid, look.rendering);
    sheet.local = local_masks_of(scan, masks, fog);
    std::ranges::copy(toners, std::back_inserter(sheet.legend));
    if (fog) sheet.legend.push_back("On the sheet: " + edge_fog_sentence(*fog, masks->back()) + ".");
    picture.pixels_per_mm = kGridPixelsPerMm;
    picture.description = described(
        {fog ? sheet_description(*fog) : Description{}, turned_description(scan.degrees_turned()),
         grid_description(grid, std::filesystem::path(options.output).parent_path()),
         options.pack.label(with_map_as_from(std::filesystem::path(options.output).parent_path(), pack))},
        options.output, console);
    OutputSet outputs;
    render_grid(scan, sheet, look, profile, picture, outputs.file(options.output, picture.replace));
    outputs.write(numbers, grid_json(printing, grid, fog ? edge_fog_json(*fog, masks->back()) : nullptr),
                  picture.replace);
    if (options.html) {
        const GridLook closer{look.rendering, page_cell_pixels(look.cell_pixels)};
        const FittedPage fitted = fitted_proof_page(scan, printing, grid, sheet, closer, profile);
        console.notes(fitted.notes, options.output);
        outputs.write(page, fitted.text, picture.replace);
    }
    outputs.place();
}

}  // namespace

void add_grid(CLI::App& program, const Console& console) {
    auto* verb = program.add_subcommand(
        "grid", "proof grid: small prints over two axes, beside the paper's own white");
    const auto options = std::make_shared<GridOptions>();
    verb->add_option("NEG", options->scan, "scanned negative or digital picture")->required();
    verb->add_option("-o,--output", options->output,
                     "picture to write (.tif .png .jpg); its numbers go beside it (grid.png: grid.png.json)")
        ->required();
    verb->add_option("--across", options->across, "axis across: grade=1,2,3,4");
    verb->add_option(
        "--down", options->down,
        "axis down: bleach=0,50%,100%,150%; axes: grade exposure restrainer develop bleach "
        "redevelop toner, or a local work of the recipe by its name: sky=0,0.5,1 times its amount");
    auto* halves = verb->add_flag("--halves", options->halves,
                                  "each print before the bleach (left) and after it (right)");
    verb->add_flag("--spread", options->spread,
                   "each print as dark as it may come out, as likely, as light as it may (95 %)")
        ->excludes(halves);
    verb->add_option("--cell", options->cell_pixels, "longer side of one print in pixels, 80 to 4000 [400]");
    verb->add_flag("--html", options->html,
                   "write a page too (grid.png.html): the proofs, with a large print that bleaches as you "
                   "watch, a magnifying glass, curves and histogram");
    options->pack.add_to(*verb);
    options->recipe.add_to(*verb);
    options->sheet.add_to(*verb, kSheetGroup);
    options->negative.add_to(*verb);
    options->picture.add_to(*verb);
    verb->callback([options, &console] { run(*options, console); });
}

}  // namespace fogproof::cli
