// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <filesystem>
#include <iterator>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>

#include "cli/choice.hpp"
#include "cli/drawn_print_options.hpp"
#include "cli/prepared_negative.hpp"
#include "cli/verbs.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/print/print_steps.hpp"
#include "print/recipe_doubts.hpp"
#include "report/fitted_page.hpp"
#include "report/grid_sheet.hpp"
#include "report/print_words.hpp"
#include "report/proof_page.hpp"
#include "report/toning_words.hpp"
#include "report/turned_words.hpp"
#include "report/zero_words.hpp"
#include "scan/local_masks.hpp"
#include "scan/print_size.hpp"
#include "system/output_set.hpp"

namespace fogproof::cli {
namespace {

struct GridOptions : DrawnPrintOptions {
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
    std::vector<std::pair<std::string, AxisQuantity>> stated{{"--split", grade}};
    for (const std::string& name : axis_names())
        stated.emplace_back("--" + name, AxisQuantity(stated.size() - 1));
    for (const auto& [option, quantity] : stated) {
        if (!options.recipe.line.gives(option.c_str())) continue;
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

// Axes as far as they are asked for, and what no other axis may vary.
struct AskedAxes {
    std::optional<Axis> across, down;
    std::vector<AxisQuantity> held;

    AskedAxes(const GridOptions& options, const Recipe& recipe)
        : across(asked_axis(options.across, "--across", recipe)),
          down(asked_axis(options.down, "--down", recipe)),
          held(held_by(options, recipe, across, down)) {}
    /// The others are chosen to suit the negative.
    void settle(GridRequest& request, const Printing& printing) && {
        request.across = across ? *across : usual_across(printing, request.base, held);
        if (!across) held.push_back(request.across.quantity);
        request.down = down ? *down : usual_down(printing, request.base, request.across, held);
        refuse_clash(request.across, request.down);
    }
};

// The files that a grid writes; no page unless one is asked for.
struct GridFiles {
    std::string picture, numbers, page;

    explicit GridFiles(const GridOptions& options)
        : picture(options.output),
          numbers(options.output + ".json"),
          page(options.html ? options.output + ".html" : "") {}
    void declare(RunFiles& files) const {
        files.writes(picture, "the grid");
        files.writes(numbers, "its numbers");
        files.writes(page, "its page");
    }
    void refuse_unwritable(WholeFile::Replace replace) const {
        for (const auto& file : {picture, numbers, page})
            if (!file.empty()) WholeFile::refuse_unwritable(file, replace);
    }
};

GridRequest::Panels panels(const GridOptions& options) {
    return options.halves   ? GridRequest::Panels::halves
           : options.spread ? GridRequest::Panels::spread
                            : GridRequest::Panels::likely;
}

// Of many prints one warning is enough.
void warn_of_dodges(const std::vector<Proof>& proofs, const Masks& masks, const std::string& scan) {
    for (const Proof& proof : proofs)
        if (const auto dodges = dodge_warnings(proof.steps, masks); !dodges.empty()) {
            Console::warnings(dodges, scan);
            break;
        }
}

GridSheet drawn_sheet(const PreparedNegative& negative, const WorkedGrid& grid, Rendering rendering,
                      const std::vector<std::string>& toners) {
    GridSheet sheet = grid_sheet(negative.printing, grid, rendering);
    sheet.local = negative.masks_to_draw();
    std::ranges::copy(toners, std::back_inserter(sheet.legend));
    if (const auto lies = negative.sheet_sentence()) sheet.legend.push_back("On the sheet: " + *lies + ".");
    return sheet;
}

void run(const GridOptions& options, const Console& console) {
    PictureOptions picture = options.picture.options(options.output, 8);
    auto [recipe, pack, files, warnings] = options.taken({options.scan}, console);
    const GridFiles written(options);
    written.declare(files);
    console.notes(options.picture.idle_notes(options.output), options.output);
    written.refuse_unwritable(picture.replace);
    const OutputProfile profile = OutputProfile::named(options.picture.profile);
    AskedAxes axes(options, recipe);
    const SheetLayout sheet_layout = options.sheet.layout();
    const Laying laying = options.sheet.laying();

    OpenedNegative opened = opened_negative(options.scan, options.negative.scan_options());
    const Scan& scan = opened.scan;
    PreparedNegative negative(scan, pack);
    negative.lay_on(sheet_layout, laying);
    negative.mask(recipe);
    console.notes(options.sheet.idle_notes(negative.fog ? SheetUse::all : SheetUse::nothing), options.scan);
    negative.count_places();
    const Printing& printing = negative.printing;
    GridRequest request;
    request.negative = negative_name(options.scan);
    request.base = recipe;
    std::move(axes).settle(request, printing);
    const std::vector<Recipe> recipes = recipes_over(recipe, request.across, request.down);
    require_bleach_before_redevelopment(recipes);
    refuse_coloured_in_grey(profile.channels(), recipes, options.picture.is_under_bath());
    opened.add(rim_warnings(recipe, *negative.masks));
    if (const auto drawn = negative.drawn_mm()) opened.add(size_warnings(scan, pack, sheet_layout, drawn));
    opened.add(recipe_doubts(pack, recipes));
    console.remarks(opened.remarks, options.scan);
    opened.add(warnings);
    request.remarks = std::move(opened.remarks);
    auto toners = toner_notes(pack, recipes);
    console.notes(toners, options.scan);
    const auto cautions = toner_cautions(recipes);
    Console::cautions(cautions, options.scan);
    std::ranges::copy(cautions, std::back_inserter(toners));
    console.notes(zero_notes(pack, scan.film_base(), !recipe.flashes.empty()), options.scan);
    request.panels = panels(options);
    request.bath = options.picture.bath(working_strength_g_l(bleach_bath(pack, recipe)));
    const WorkedGrid grid = worked_grid(printing, std::move(request));
    require_exposable(printing, grid.proofs, options.scan);
    warn_of_dodges(grid.proofs, *negative.masks, options.scan);

    const GridLook look{options.picture.chosen_rendering(),
                        int(within(options.cell_pixels, 80, 4000, "--cell"))};
    const GridSheet sheet = drawn_sheet(negative, grid, look.rendering, toners);
    const std::filesystem::path folder = std::filesystem::path(options.output).parent_path();
    picture.pixels_per_mm = kGridPixelsPerMm;
    picture.description = described(
        {negative.sheet_described(), turned_description(scan.degrees_turned()),
         grid_description(printing, grid, folder), options.pack.label(with_map_as_from(folder, pack))},
        options.output, console);
    OutputSet outputs;
    render_grid(scan, sheet, look, profile, picture, outputs.file(written.picture, picture.replace));
    outputs.write(written.numbers,
                  grid_json(printing, grid, negative.touched_places(), negative.sheet_json()),
                  picture.replace);
    if (options.html) {
        const GridLook closer{look.rendering, page_cell_pixels(look.cell_pixels)};
        const FittedPage fitted = fitted_proof_page(scan, printing, grid, sheet, closer, profile);
        console.notes(fitted.notes, options.output);
        outputs.write(written.page, fitted.text, picture.replace);
    }
    outputs.place();
    console.notes({"grid of " + std::to_string(grid.proofs.size()) + " prints; its numbers are in " +
                   written.numbers + (options.html ? ", its page is " + written.page : "")},
                  options.output);
    const std::string page = options.output + ".html";
    if (std::error_code unknown; !options.html && std::filesystem::exists(page, unknown))
        Console::warnings({page + " is the page of an earlier grid; --html writes it anew"}, options.output);
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
    verb->add_option("--down", options->down,
                     "axis down: bleach=0,50%,100%,150%; axes: " + listed(axis_names()) +
                         ", or a local work of the recipe by its name: sky=0,0.5,1 times its amount");
    auto* halves = verb->add_flag("--halves", options->halves,
                                  "each print before the bleach (left) and after it (right)");
    verb->add_flag(
            "--spread", options->spread,
            "each print in thirds: as dark as it may come out, as is likely, as light as it may (95 %)")
        ->excludes(halves);
    verb->add_option("--cell", options->cell_pixels, "longer side of one print in pixels, 80 to 4000 [400]");
    verb->add_flag("--html", options->html,
                   "write a page too (grid.png.html): the proofs, with a large print that bleaches as you "
                   "watch, a magnifying glass, curves and histogram");
    options->add_to(*verb);
    verb->callback([options, &console] { run(*options, console); });
}

}  // namespace fogproof::cli
