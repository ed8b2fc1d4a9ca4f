// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <filesystem>
#include <iterator>
#include <memory>

#include "cli/choice.hpp"
#include "cli/prepared_negative.hpp"
#include "cli/proposed_files.hpp"
#include "cli/start_options.hpp"
#include "cli/typed_values.hpp"
#include "cli/verbs.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/print/print_steps.hpp"
#include "fogproof/print/recipe_file.hpp"
#include "picture/level_picture.hpp"
#include "print/recipe_head.hpp"
#include "proof/start_ladder.hpp"
#include "report/grid_sheet.hpp"
#include "report/print_words.hpp"
#include "report/start_report.hpp"
#include "report/strip_sheet.hpp"
#include "report/toning_words.hpp"
#include "report/turned_words.hpp"
#include "report/zero_words.hpp"
#include "scan/advice_on_edges.hpp"
#include "scan/local_masks.hpp"
#include "scan/print_size.hpp"
#include "scan/small_negative.hpp"
#include "system/output_set.hpp"

namespace fogproof::cli {
namespace {

// One pack asked about one negative.
struct Question {
    PreparedNegative negative;
    AskedTarget target;
    std::optional<StartingPoints> points{};

    Question(const StartOptions& options, const Pack& pack, const Recipe& local, const Scan& scan,
             const SmallNegative& overview)
        : negative(scan, pack, options.target.fresh_grade()),
          target(options.target.wanted(negative.printing, scan, overview)) {
        negative.lay_on(options.sheet.layout(), options.sheet.laying());
        negative.mask(local);
        negative.printing.decide(options.decided.decided_toner());
        negative.count_places();
    }
    [[nodiscard]] SearchBounds bounds(const StartOptions& options) const {
        return options.decided.kept_in(usual_bounds(negative.printing));
    }
    void answer(const std::vector<LocalWork>& local, const SearchBounds& bounds) {
        points = starting_points(negative.printing, target.wanted, bounds, local);
    }
};

// A negative on a pack, with all that a question about it takes.
struct Asked {
    const StartOptions& options;
    const PreparedNegative& negative;
    const StartingPoints& points;
    std::optional<Seconds> overdone;
    std::optional<ProposedWork> proposed;
    const Wanted& wanted;
};

StartRequest request_of(const Asked& asked, const AskedTarget& target, const std::vector<std::string>& doubts,
                        const SmallNegative& overview) {
    StartRequest request;
    const auto& [scan, printing, fog, masks] = asked.negative;
    request.negative = negative_name(asked.options.scan);
    request.target = target.words;
    if (!target.wanted.fresh) request.ends = wanted_ends(target.wanted, printing.frame());
    request.warnings = scan.warnings();
    request.degrees_turned = scan.degrees_turned();
    std::ranges::copy(target.warnings, std::back_inserter(request.warnings));
    std::ranges::copy(doubts, std::back_inserter(request.warnings));
    std::ranges::copy(rim_warnings(asked.points.best.recipe, *masks), std::back_inserter(request.warnings));
    std::ranges::copy(dodge_warnings(asked.points.best.proof.steps, *masks),
                      std::back_inserter(request.warnings));
    request.touched = asked.negative.touched_places();
    request.sought_work = asked.options.propose;
    request.proposed = asked.proposed;
    request.dry_down = within(asked.options.dry_down_percent, 0, 30, "--dry-down") / 100;
    request.strip = strip_place(overview.width, overview.height, overview.density);
    if (const auto pull = moment_to_pull(printing, asked.points.best))
        request.telling = telling_place(*pull, overview.width, overview.height, overview.density);
    return request;
}

void write_recipe(const Asked& asked) {
    OutputSet file;
    file.write(asked.options.recipe,
               written(with_masks_as_from(std::filesystem::path(asked.options.recipe).parent_path(),
                                          written_out(asked.points.best, asked.negative.printing))),
               asked.options.replace());
    if (asked.proposed)
        save_levels(asked.negative.masks->front(),
                    file.file(proposed_mask_file(asked.options.recipe, asked.proposed->place.kind),
                              asked.options.replace()));
    file.place();
}

std::string answer_of(const Asked& asked, const StartRequest& request) {
    const auto& [options, negative, points, overdone, proposed, wanted] = asked;
    const Printing& printing = negative.printing;
    if (!overdone)
        return options.json ? start_json(printing, points, request) : start_text(printing, points, request);
    const Proof& made = points.best.proof;
    const Rescue saved = rescue(printing, made, *overdone, wanted);
    return options.json ? rescue_json(printing, made, saved, request)
                        : rescue_text(printing, made, saved, request);
}

void draw_ladder(const Asked& asked, const std::string& name) {
    const auto& [options, negative, points, overdone, proposed, wanted] = asked;
    const Printing& printing = negative.printing;
    GridRequest ladder = overdone ? rescue_ladder(printing, points.best, *overdone, name)
                                  : bleach_ladder(printing, points.best, name, options.ladder_times());
    ladder.bath = options.picture.bath(working_strength_g_l(printing.pack().darkroom.bath));
    const Rendering rendering = options.picture.chosen_rendering();
    const WorkedGrid grid = worked_grid(printing, std::move(ladder));
    GridSheet sheet = grid_sheet(printing, grid, rendering);
    sheet.local = negative.masks_to_draw();
    render_grid(negative.scan, sheet, GridLook{rendering}, OutputProfile::named(options.picture.profile),
                options.picture.options(options.ladder, 8), options.ladder);
}

void draw_strip(const Asked& asked, const StartRequest& request, const Console& console) {
    const StartOptions& options = asked.options;
    const Printing& printing = asked.negative.printing;
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
    render_test_strip(
        asked.negative.scan,
        strip_sheet(printing, predicted, request.negative, asked.negative.masks, bath, rendering), rendering,
        OutputProfile::named(options.picture.profile), picture, target);
}

// What options by themselves rule out.
void refuse_contradictions(const StartOptions& options) {
    options.require_alone();
    static_cast<void>(options.decided.kept_in({}));
    static_cast<void>(options.target.fresh_grade());
    options.seen.refuse_idle();
    static_cast<void>(options.ladder_times());
}

// The band that was seen on the strip; the question is then asked anew, of the pack that shows it.
SeenBand told_by_strip(Question& question, const StartOptions& options, const Pack& pack, const Recipe& local,
                       const SmallNegative& overview) {
    SeenBand seen =
        seen_band(question.negative.printing, question.points->best, *options.seen.band,
                  negative_name(options.scan), {overview.width, overview.height, overview.density});
    const SearchBounds held = held_to_strip(question.points->best, question.bounds(options));
    question = Question(options, options.seen.told_by(pack, seen), local, question.negative.scan, overview);
    if (seen.today) question.negative.printing.print_in(*seen.today);
    question.answer(local.local, held);
    return seen;
}

// The work that is worth it, if any; the answer is then that with it.
std::optional<ProposedWork> proposed_for(Question& question, const StartOptions& options,
                                         const SmallNegative& overview) {
    PreparedNegative& negative = question.negative;
    auto found = proposed(negative.printing, question.target.wanted, question.bounds(options),
                          *question.points, negative.scan, overview, negative.fog.get(), options.recipe);
    if (!found) return std::nullopt;
    question.points = std::move(found->points);
    negative.masks = std::move(found->masks);
    return std::move(found->work);
}

void run(const StartOptions& options, const Console& console) {
    PackOptions::Taken taken = options.pack.taken();
    Pack& pack = taken.pack;
    const std::optional<Seconds> overdone = options.overdone();
    refuse_contradictions(options);
    console.notes(taken.remarks.notes);
    const Recipe local = options.local.recipe();
    pack.darkroom.bath = options.local.bath(pack.darkroom.bath, local, options.dilution);
    std::vector<std::string> doubts = options.doubts(pack, overdone);
    if (auto doubt = doubt_of_head(pack, local)) doubts.push_back(std::move(*doubt));
    std::ranges::move(taken.remarks.warnings, std::back_inserter(doubts));
    Console::warnings(doubts);
    options.check_files(local, pack);

    for (const std::string& drawn : {options.ladder, options.strip})
        if (!drawn.empty()) console.notes(options.picture.idle_notes(drawn), drawn);

    const OpenedNegative opened = opened_negative(options.scan, options.negative.scan_options());
    const Scan& scan = opened.scan;
    console.remarks(opened.remarks, options.scan);
    console.notes(zero_notes(pack, scan.film_base(), false), options.scan);
    const SmallNegative overview = small_negative(scan, kOverviewPixels);
    const SheetLayout sheet = options.sheet.layout();
    Question question(options, pack, local, scan, overview);
    const PreparedNegative& negative = question.negative;
    const std::array decided{options.decided.recipe()};
    console.notes(toner_notes(negative.printing.pack(), decided), options.scan);
    Console::cautions(toner_cautions(decided), options.scan);
    console.notes(question.target.picture_notes, options.target.match);
    Console::warnings(question.target.warnings, options.scan);
    if (options.ladder.empty() && options.strip.empty())
        console.notes(options.picture.undrawn_notes("--ladder or --strip"), options.scan);
    console.notes(options.sheet.idle_notes(negative.fog ? SheetUse::all : SheetUse::nothing), options.scan);
    Console::warnings(rim_warnings(local, *negative.masks), options.scan);
    if (options.sheet.is_told() || negative.fog) {
        const auto oversize = size_warnings(scan, pack, sheet, negative.drawn_mm());
        Console::warnings(oversize, options.scan);
        std::ranges::copy(oversize, std::back_inserter(doubts));
    }
    question.answer(local.local, question.bounds(options));
    std::optional<SeenBand> seen;
    if (options.seen.band) seen = told_by_strip(question, options, pack, local, overview);
    std::optional<ProposedWork> work;
    if (options.propose) work = proposed_for(question, options, overview);
    const StartingPoints& points = *question.points;
    require_exposable(negative.printing, {&points.best.proof, 1}, options.scan);
    Console::warnings(dodge_warnings(points.best.proof.steps, *negative.masks), options.scan);

    const Asked asked{options, negative, points, overdone, work, question.target.wanted};
    StartRequest request = request_of(asked, question.target, doubts, overview);
    request.seen = seen;
    if (negative.fog)
        request.edges =
            advice_on_edges(negative.printing, points.best.proof.steps, *negative.fog, sheet, overview);
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
