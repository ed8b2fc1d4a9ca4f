// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <filesystem>
#include <iterator>
#include <memory>

#include "base/markup.hpp"
#include "cli/choice.hpp"
#include "cli/proposed_files.hpp"
#include "cli/start_options.hpp"
#include "cli/typed_values.hpp"
#include "cli/verbs.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/recipe_file.hpp"
#include "picture/level_picture.hpp"
#include "proof/start_ladder.hpp"
#include "report/grid_sheet.hpp"
#include "report/print_words.hpp"
#include "report/start_report.hpp"
#include "report/strip_sheet.hpp"
#include "report/toning_words.hpp"
#include "report/turned_words.hpp"
#include "report/zero_words.hpp"
#include "scan/advice_on_edges.hpp"
#include "scan/fogged_sheet.hpp"
#include "scan/local_masks.hpp"
#include "scan/small_negative.hpp"
#include "system/output_set.hpp"

namespace fogproof::cli {
namespace {

std::string negative_name(const StartOptions& options) {
    return plain_line(std::filesystem::path(options.scan).stem().string());
}

// One pack asked about one negative.
struct Question {
    Printing printing;
    AskedTarget target;
    std::shared_ptr<const SheetFog> fog;
    std::shared_ptr<const Masks> masks;
    std::optional<StartingPoints> points{};

    Question(const StartOptions& options, const Pack& pack, const Recipe& local, const Scan& scan,
             const SmallNegative& overview)
        : printing(with_negative(pack, scan.film_base()), Tones(scan.histogram(), scan.scale()),
                   options.target.fresh_grade()),
          target(options.target.wanted(printing, scan, overview)),
          fog(fogged_sheet(printing.pack(), options.sheet.layout(), options.sheet.laying(), scan)),
          masks(std::make_shared<const Masks>(local_masks(local, scan, fog.get()))) {
        printing.decide(options.decided.decided_toner());
        if (!masks->empty()) printing.count_places(placed_tones(scan, masks));
    }
    void answer(const std::vector<LocalWork>& local, const SearchBounds& bounds) {
        points = starting_points(printing, target.wanted, bounds, local);
    }
};

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
    const Wanted& wanted;
};

StartRequest request_of(const Asked& asked, const AskedTarget& target, const std::vector<std::string>& doubts,
                        const SmallNegative& overview) {
    StartRequest request;
    request.negative = negative_name(asked.options);
    request.target = target.words;
    if (!target.wanted.fresh) request.ends = wanted_ends(target.wanted, asked.printing.frame());
    request.warnings = asked.scan.warnings();
    request.degrees_turned = asked.scan.degrees_turned();
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
               asked.options.replace());
    if (asked.proposed)
        save_levels(asked.masks->front(),
                    file.file(proposed_mask_file(asked.options.recipe, asked.proposed->place.kind),
                              asked.options.replace()));
    file.place();
}

std::string answer_of(const Asked& asked, const StartRequest& request) {
    const auto& [options, scan, printing, points, overdone, masks, fog, proposed, wanted] = asked;
    if (!overdone)
        return options.json ? start_json(printing, points, request) : start_text(printing, points, request);
    const Proof& made = points.best.proof;
    const Rescue saved = rescue(printing, made, *overdone, wanted);
    return options.json ? rescue_json(printing, made, saved, request)
                        : rescue_text(printing, made, saved, request);
}

void draw_ladder(const Asked& asked, const std::string& negative) {
    const auto& [options, scan, printing, points, overdone, masks, fog, proposed, wanted] = asked;
    GridRequest ladder = overdone ? rescue_ladder(printing, points.best, *overdone, negative)
                                  : bleach_ladder(printing, points.best, negative, options.ladder_times());
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
                                     turned_description(request.degrees_turned),
                                     options.pack.label(with_map_as_from(folder, printing.pack()))},
                                    target, console);
    render_test_strip(asked.scan,
                      strip_sheet(printing, predicted, request.negative, asked.masks, bath, rendering),
                      rendering, OutputProfile::named(options.picture.profile), picture, target);
}

void run(const StartOptions& options, const Console& console) {
    PackOptions::Taken taken = options.pack.taken();
    Pack& pack = taken.pack;
    const std::optional<Seconds> overdone = options.overdone();
    options.require_alone();
    static_cast<void>(options.decided.kept_in({}));
    static_cast<void>(options.target.fresh_grade());
    options.seen.refuse_idle();
    static_cast<void>(options.ladder_times());
    console.notes(taken.remarks.notes);
    std::vector<std::string> doubts = options.doubts(pack, overdone);
    std::ranges::move(taken.remarks.warnings, std::back_inserter(doubts));
    Console::warnings(doubts);
    if (options.dilution) pack.darkroom.bath.parts = within(*options.dilution, 0, 1000, "--dilution");
    Recipe local;
    local.local = options.local.works();
    options.check_files(local, pack);

    for (const std::string& drawn : {options.ladder, options.strip})
        if (!drawn.empty()) console.notes(options.picture.idle_notes(drawn), drawn);

    Notes notes;
    const Scan scan = Scan::open(options.scan, options.negative.scan_options(), notes);
    console.remarks({std::move(notes), scan.warnings()}, options.scan);
    console.notes(zero_notes(pack, scan.film_base(), false), options.scan);
    const SmallNegative overview = small_negative(scan, kOverviewPixels);
    const SheetLayout sheet = options.sheet.layout();
    Question question(options, pack, local, scan, overview);
    console.notes(toner_notes(question.printing.pack(), std::array{options.decided.recipe()}), options.scan);
    Console::warnings(question.target.warnings, options.scan);
    if (options.ladder.empty() && options.strip.empty())
        console.notes(options.picture.undrawn_notes("--ladder or --strip"), options.scan);
    console.notes(options.sheet.idle_notes(question.fog ? SheetUse::all : SheetUse::nothing), options.scan);
    Console::warnings(rim_warnings(local, *question.masks), options.scan);
    question.answer(local.local, options.decided.kept_in(usual_bounds(question.printing)));
    std::optional<SeenBand> seen;
    if (options.seen.band) {
        seen =
            seen_band(question.printing, question.points->best, *options.seen.band, negative_name(options));
        const SearchBounds held =
            held_to_strip(question.points->best, options.decided.kept_in(usual_bounds(question.printing)));
        question = Question(options, options.seen.told_by(pack, *seen), local, scan, overview);
        if (seen->today) question.printing.print_in(*seen->today);
        question.answer(local.local, held);
    }
    Printing& printing = question.printing;
    StartingPoints points = std::move(*question.points);
    std::shared_ptr<const Masks> masks = question.masks;
    const auto& fog = question.fog;
    std::optional<ProposedWork> work;
    if (options.propose)
        if (auto found =
                proposed(printing, question.target.wanted, options.decided.kept_in(usual_bounds(printing)),
                         points, scan, overview, fog.get(), options.recipe)) {
            work = std::move(found->work);
            points = std::move(found->points);
            masks = std::move(found->masks);
        }
    require_exposable(printing, {&points.best.proof, 1}, options.scan);
    Console::warnings(dodge_warnings(points.best.proof.steps, *masks), options.scan);

    const Asked asked{options, scan, printing, points, overdone, masks, fog, work, question.target.wanted};
    StartRequest request = request_of(asked, question.target, doubts, overview);
    request.seen = seen;
    if (fog) request.edges = advice_on_edges(printing, points.best.proof.steps, *fog, sheet, overview);
    console.detail(std::to_string(points.tried) + " recipes tried");
    if (!options.recipe.empty()) write_recipe(asked);
    if (seen) options.seen.keep(*seen, options.scan);
    Console::answer(answer_of(asked, request));
    if (!options.ladder.empty()) draw_ladder(asked, request.negative);
    if (!options.strip.empty()) draw_strip(asked, request, console);
}

}  // namespace

void add_start(CLI::App& program, const Console& console) {
    auto* verb = program.add_subcommand(
        "start", "starting exposure, filter, restrainer and bleach for a negative on a pack");
    const auto options = std::make_shared<StartOptions>();
    options->add_to(*verb);
    verb->callback([options, &console] { run(*options, console); });
}

}  // namespace fogproof::cli
