// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <array>
#include <iterator>
#include <memory>
#include <optional>

#include "base/markup.hpp"
#include "base/words.hpp"
#include "cli/choice.hpp"
#include "cli/pack_fit.hpp"
#include "cli/pack_options.hpp"
#include "cli/run_inputs.hpp"
#include "cli/verbs.hpp"
#include "fogproof/pack/file.hpp"
#include "pack/from_slips.hpp"
#include "pack/grade_words.hpp"
#include "pack/schema.hpp"
#include "picture/drawing_file.hpp"
#include "print/recipe_doubts.hpp"
#include "report/curve_chart.hpp"
#include "report/pack_report.hpp"
#include "system/whole_file.hpp"

namespace fogproof::cli {
namespace {

WholeFile::Replace replacing(bool force) {
    return force ? WholeFile::Replace::allowed : WholeFile::Replace::never;
}

struct NewOptions {
    Slips slips;
    std::string output, surface = "gloss", tint, grade, agent, head;
    bool force = false;
    CommandLine line;
};

std::variant<Tint, TintReading> tint_in(const std::string& text) {
    const auto parts = split(text, ',');
    if (parts.size() == 2) {
        const auto a = number_in(parts[0]), b = number_in(parts[1]);
        if (a && b) return TintReading{*a, *b};
    }
    if (parts.size() > 1)
        throw Error(Fault::usage, "--tint", "\"" + text + "\"",
                    "A,B in CIELAB, as 0.5,4, or one of cold, neutral, warm");
    return choice<Tint>({{"neutral", Tint::neutral}, {"cold", Tint::cold}, {"warm", Tint::warm}}, text,
                        "--tint");
}

void add_new(CLI::App& pack, const Console& console) {
    auto* verb = pack.add_subcommand("new", "a pack from two slips: one only fixed, one developed unexposed");
    const auto options = std::make_shared<NewOptions>();
    options->line = CommandLine(*verb);
    Slips& slips = options->slips;
    verb->add_option("--white", slips.white_density, "density of the fixed-only slip")->required();
    verb->add_option("--blank", slips.blank_density, "density of the slip developed unexposed")->required();
    verb->add_option("--black-density", slips.black_density,
                     "density of a fully exposed slip, if you have one");
    verb->add_option("--surface", options->surface, listed(surface_words()) + " [gloss]");
    verb->add_option("--graded", options->grade,
                     "graded paper: its grade, 0, 1 ... 5; without it the paper is variable contrast");
    verb->add_option("--iso-range", slips.iso_range, "graded paper: its ISO range instead of a grade");
    verb->add_option("--tint", options->tint,
                     "base as the eye names it: neutral, cold or warm; or as measured, A,B in CIELAB: 0.5,4");
    verb->add_option("--restrainer-agent", options->agent,
                     "what your restrainer stock holds: bromide, benzotriazole or unknown [unknown]");
    verb->add_option("--restrainer-stock", slips.restrainer_stock_percent,
                     "its strength, g in 100 ml [10 of bromide, 1 of benzotriazole]");
    verb->add_option("--bleach-stock", slips.ferricyanide_g_l,
                     "potassium ferricyanide in your bleach concentrate, g/L [100]");
    verb->add_option("--head", options->head,
                     "your enlarger's head: diffuser, condenser or unknown [unknown]");
    verb->add_option("--name", slips.name, "what you call the pack");
    verb->add_option("-o,--output", options->output, "file of the pack")->required();
    verb->add_flag("--force", options->force, "replace an existing file");
    verb->callback([options, &console] {
        run_that_reads({}).writes(options->output, "the pack");
        Slips& given = options->slips;
        given.surface = choice<Surface>(surface_words(), options->surface, "--surface");
        if (!options->tint.empty()) given.tint = tint_in(options->tint);
        if (!options->grade.empty()) given.grade = grade_told(options->grade, "--graded");
        if (given.grade || given.iso_range) given.contrast = Contrast::graded;
        if (options->line.is_overruled("--restrainer-stock", "--restrainer-agent"))
            given.restrainer_stock_percent.reset();
        if (!options->agent.empty()) given.restrainer_agent = agent_in(options->agent, "--restrainer-agent");
        if (!options->head.empty()) given.head = head_in(options->head, "--head");
        write_whole(options->output, written(pack_from_slips(given)), replacing(options->force));
        Console::warnings(slip_doubts(given), options->output);
        std::vector<std::string> measured{"white", "blank"};
        if (given.black_density) measured.emplace_back("black");
        if (given.tint && std::holds_alternative<TintReading>(*given.tint)) measured.emplace_back("tint");
        std::vector<std::string> notes{"measured: " + listed(measured) +
                                       "; what you did not give is assumed until you measure it"};
        if (options->head.empty())
            notes.emplace_back(
                "which head does your enlarger have? --head diffuser or --head condenser makes exposures "
                "surer");
        console.notes(notes, options->output);
    });
}

void add_check(CLI::App& pack) {
    auto* verb = pack.add_subcommand("check", "read a pack's file and say whether it is valid");
    const auto path = std::make_shared<std::string>();
    verb->add_option("PACK", *path, "file of the pack")->required();
    verb->callback([path] {
        const Pack read = read_pack(*path);
        static_cast<void>(paper_model(read));
        const auto count = [&](Origin origin) {
            return std::ranges::count_if(pack_numbers(), [&](const auto& number) {
                return !is_departure(number) && is_listed(read, number) &&
                       read.known(number.name()).origin == origin;
            });
        };
        Console::answer(plain_line(*path) + " is valid: \"" + read.name + "\", " +
                        std::to_string(count(Origin::measured)) + " numbers measured, " +
                        std::to_string(count(Origin::partly_measured)) + " partly measured, " +
                        std::to_string(count(Origin::given)) + " given, " +
                        std::to_string(count(Origin::assumed)) + " assumed\n");
    });
}

struct ShowOptions {
    std::string path, drawing;
    std::vector<std::string> at;
    bool json = false, all = false, force = false;
};

void show(const ShowOptions& options, const Console& console) {
    run_that_reads({options.path}).writes(options.drawing, "the curves");
    const Pack pack = read_pack(options.path);
    if (!options.drawing.empty()) refuse_undrawable(options.drawing);
    constexpr std::size_t kMostCurves = 40;  // more than a drawing has room for
    if (options.at.size() > kMostCurves)
        throw Error(Fault::usage, "--at", "is given " + std::to_string(options.at.size()) + " times",
                    "up to " + std::to_string(kMostCurves));
    std::vector<CurveRequest> requests;
    for (const auto& text : options.at) requests.push_back(curve_request(text, "--at"));
    std::vector<std::string> doubts;
    for (const auto& request : requests) {
        require_bleach_before_redevelopment(std::array{request.recipe});
        std::ranges::copy(recipe_doubts(pack, std::array{request.recipe}), std::back_inserter(doubts));
    }
    Console::warnings(doubts);
    if (!requests.empty() && options.drawing.empty() && !options.json)
        console.notes({"--at changes nothing here: it is for --curves and --json"}, options.path);
    if (requests.empty()) requests = usual_curves(pack);
    if (!options.drawing.empty())
        save_drawing(curves_svg(pack, worked_curves(pack, requests)), options.drawing,
                     replacing(options.force));
    if (options.json)
        Console::answer(pack_json(pack, worked_curves(pack, requests), doubts));
    else
        Console::answer(pack_text(pack, options.all ? Numbers::listed : Numbers::counted));
}

void add_show(CLI::App& pack, const Console& console) {
    auto* verb = pack.add_subcommand("show", "what a pack can do, and how much of it was measured");
    const auto options = std::make_shared<ShowOptions>();
    verb->add_option("PACK", options->path, "file of the pack")->required();
    verb->add_option("--at", options->at,
                     "a way of working to show as a curve: grade=3,restrainer=20,bleach=40s; repeat "
                     "for more; for --curves and --json")
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    verb->add_option("--curves", options->drawing, "draw the curves into a file (.svg .png)");
    verb->add_flag("--all", options->all, "list every number of the pack too");
    verb->add_flag("--json", options->json, "everything as JSON, with the curves");
    verb->add_flag("--force", options->force, "replace an existing drawing");
    verb->callback([options, &console] { show(*options, console); });
}

}  // namespace

void add_pack(CLI::App& program, const Console& console) {
    auto* verb = program.add_subcommand("pack", "describe a pack of paper: new, check, show, fit");
    verb->require_subcommand(1);
    add_new(*verb, console);
    add_check(*verb);
    add_show(*verb, console);
    add_fit(*verb, console);
}

}  // namespace fogproof::cli
