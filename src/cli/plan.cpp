// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <array>
#include <filesystem>
#include <iterator>
#include <memory>

#include "cli/batch.hpp"
#include "cli/batch_options.hpp"
#include "cli/choice.hpp"
#include "cli/decided_options.hpp"
#include "cli/negative_options.hpp"
#include "cli/pack_options.hpp"
#include "cli/prepared_negative.hpp"
#include "cli/recipe_options.hpp"
#include "cli/run_inputs.hpp"
#include "cli/target_options.hpp"
#include "cli/verbs.hpp"
#include "cli/work_options.hpp"
#include "picture/cell_pictures.hpp"
#include "print/recipe_doubts.hpp"
#include "print/recipe_head.hpp"
#include "proof/plan_proofs.hpp"
#include "report/fitted_page.hpp"
#include "report/grid_sheet.hpp"
#include "report/plan_labels.hpp"
#include "report/print_words.hpp"
#include "report/proof_page.hpp"
#include "report/toning_words.hpp"
#include "report/work_sheets.hpp"
#include "report/worksheet_pictures.hpp"
#include "report/zero_words.hpp"
#include "scan/advice_on_edges.hpp"
#include "scan/local_masks.hpp"
#include "scan/print_size.hpp"
#include "scan/small_negative.hpp"
#include "system/input_file.hpp"
#include "system/output_folder.hpp"
#include "system/output_set.hpp"

namespace fogproof::cli {
namespace {

namespace fs = std::filesystem;

std::string negatives_counted(std::size_t count) {
    return std::to_string(count) + (count == 1 ? " negative" : " negatives");
}

struct PlanOptions {
    NegativeOptions negative;
    PackOptions pack;
    WorkOptions work;
    TargetOptions target;
    DecidedOptions decided;
    LocalWorkOptions local;
    BatchOptions batch;
    std::string folder;
    bool json = false, force = false;
};

const char* const kSession = "session";

fs::path in_folder(const PlanOptions& options, const std::string& scan, const std::string& ending) {
    return fs::path(options.folder) / (fs::path(scan).stem().string() + ending);
}

WholeFile::Replace replacing(const PlanOptions& options) {
    return options.force ? WholeFile::Replace::allowed : WholeFile::Replace::never;
}

// A session is of all its prints; a part of them has none.
void refuse_part_without_folder(const PlanOptions& options, const Shard& shard) {
    if (!shard.is_all() && (options.folder.empty() || options.json))
        throw Error(
            Fault::usage, "--shard", "without --output FOLDER, or with --json",
            Advice{"a part of the negatives has sheets of its own but no session, which needs all of them"});
}

// Of all negatives, whichever part of them is worked on: the parts share a folder.
void refuse_clashes(const PlanOptions& options, const Pack& pack, const Recipe& local,
                    const std::vector<std::string>& all) {
    for (const auto& scan : all)
        if (fs::path(scan).stem() == kSession)
            throw Error(Fault::usage, scan, "its worksheet would take the name of the session's",
                        "another name");
    if (options.folder.empty()) return;
    RunFiles files =
        run_that_reads({options.batch.list, options.pack.path, options.target.match, options.local.file});
    for (const auto& mask : mask_files(local)) files.reads(mask);
    files.reads(pack.edge_fog.map);
    for (const auto& scan : all) files.reads(scan);
    for (const auto& scan : all)
        for (const char* ending : {".html", ".txt", "-proofs.html", "-labels.csv"})
            files.writes(in_folder(options, scan, ending), scan);
    for (const char* ending : {".html", ".txt"})
        files.writes(in_folder(options, kSession, ending), "the session");
}

void refuse_unwritable(const PlanOptions& options, const std::vector<std::string>& scans, bool with_session) {
    if (options.folder.empty()) return;
    require_folder_can_be(options.folder);
    if (!is_folder(options.folder)) return;
    const auto replace = replacing(options);
    std::vector<std::string> sources = scans;
    if (with_session) sources.push_back(kSession);
    for (const auto& source : sources)
        for (const char* ending : {".html", ".txt"})
            WholeFile::refuse_unwritable(in_folder(options, source, ending), replace);
    for (const auto& scan : scans)
        for (const char* ending : {"-proofs.html", "-labels.csv"})
            WholeFile::refuse_unwritable(in_folder(options, scan, ending), replace);
}

FittedPage proofs(const Scan& scan, const PlannedPrint& print, const Wanted& wanted,
                  const LocalMasks& local) {
    const WorkedGrid grid = worked_grid(print.printing, plan_proofs(print, wanted));
    const GridLook look{Rendering::absolute, page_cell_pixels(GridLook{}.cell_pixels)};
    GridSheet sheet = grid_sheet(print.printing, grid, look.rendering);
    sheet.local = local;
    return fitted_proof_page(scan, print.printing, grid, sheet, look, OutputProfile::named("srgb"),
                             print.point.bleach_s);
}

// All that goes to the darkroom with one print.
void write_sheets(const PlanOptions& options, const PreparedNegative& negative, const std::string& source,
                  PlannedPrint& print, const Wanted& wanted, const WorkTerms& terms, const Console& console) {
    const auto replace = replacing(options);
    const LocalMasks local = negative.masks_to_draw();
    make_folder(options.folder);
    const fs::path labels = in_folder(options, source, "-labels.csv");
    // Toned silver has other densities than the silver that a fit knows.
    const bool teaches = !is_toned(print.point.recipe);
    print.small = session_picture(negative.scan, print, local);
    const Document sheet = print_sheet(print, terms, worksheet_pictures(negative.scan, print, local),
                                       teaches ? labels.filename().string() : "");
    OutputSet sheets;
    sheets.write(in_folder(options, source, ".txt"), document_text(sheet), replace);
    sheets.write(in_folder(options, source, ".html"), document_page(sheet), replace);
    const fs::path proofs_at = in_folder(options, source, "-proofs.html");
    const FittedPage page = proofs(negative.scan, print, wanted, local);
    console.notes(page.notes, proofs_at);
    sheets.write(proofs_at, page.text, replace);
    if (teaches)
        sheets.write(labels,
                     print_labels_text(print, fs::proximate(source, fs::path(options.folder)).string(),
                                       labels.filename().string()),
                     replace);
    sheets.place();
}

// What is the same for all negatives.
struct PlanJob {
    Pack pack;
    Recipe local;  ///< of nothing but local work
    ScanOptions scan;
    WorkTerms terms;
    std::vector<std::string> warnings;  ///< said once
};

PlannedPrint plan_one(const PlanOptions& options, const PlanJob& job, const std::string& source,
                      const Console& console) {
    const auto& [pack, local, how, terms, warnings] = job;
    OpenedNegative opened = opened_negative(source, how);
    const Scan& scan = opened.scan;
    console.remarks(opened.remarks, source);
    opened.add(warnings);
    console.notes(zero_notes(pack, scan.film_base(), false), source);
    PreparedNegative negative(scan, pack, options.target.fresh_grade());
    Printing& printing = negative.printing;
    printing.decide(terms.toner);
    Recipe toned;
    toned.toner = printing.toner();
    console.notes(toner_notes(pack, std::array{toned}), source);
    Console::cautions(toner_cautions(std::array{toned}), source);
    const SmallNegative overview = small_negative(scan, kOverviewPixels);
    AskedTarget asked = options.target.wanted(printing, scan, overview);
    console.notes(asked.picture_notes, options.target.match);
    opened.warn(asked.warnings);
    negative.lay_on(terms.sheet, options.work.sheet.laying());
    console.notes(options.work.sheet.idle_notes(negative.fog ? SheetUse::all : SheetUse::size), source);
    opened.warn(size_warnings(scan, pack, terms.sheet, negative.drawn_mm()));
    negative.mask(local);
    opened.warn(rim_warnings(local, *negative.masks));
    negative.count_places();
    StartingPoints points =
        starting_points(printing, asked.wanted, options.decided.kept_in(usual_bounds(printing)), local.local);
    StartingPoint point = std::move(points.best);
    require_exposable(printing, {&point.proof, 1}, source);
    opened.warn(dodge_warnings(point.proof.steps, *negative.masks));
    PlannedPrint print =
        planned_print(negative_name(source), std::move(asked.words), std::move(printing), std::move(point),
                      strip_place(overview.width, overview.height, overview.density),
                      double(scan.width()) / scan.height(), terms);
    print.remarks = std::move(opened.remarks);
    if (const auto pull = moment_to_pull(print.printing, print.point))
        print.telling = telling_place(*pull, overview.width, overview.height, overview.density);
    if (negative.fog)
        print.edges =
            advice_on_edges(print.printing, print.point.proof.steps, *negative.fog, terms.sheet, overview);
    if (!options.folder.empty()) write_sheets(options, negative, source, print, asked.wanted, terms, console);
    return print;
}

// Worked out in a process of its own, a print hands over its sheet as text, where that is wanted, and what
// the session asks of it.
std::string handed_over(const PlanOptions& options, const PlannedPrint& print, const WorkTerms& terms) {
    const bool spoken = options.folder.empty() && !options.json;
    return (spoken ? document_text(print_sheet(print, terms)) : "") + '\0' + session_print(print).packed();
}

void tell_session(const PlanOptions& options, const std::vector<SessionPrint>& prints, const Pack& pack,
                  const WorkTerms& terms, const Console& console) {
    const Session session = planned_session(prints, pack, terms);
    const Document sheet = session_sheet(prints, session, pack, terms);
    if (options.json)
        Console::answer(plan_json(prints, session, pack, terms));
    else if (options.folder.empty())
        Console::answer(document_text(sheet));
    if (options.folder.empty()) return;
    try {
        OutputSet sheets;
        sheets.write(in_folder(options, kSession, ".txt"), document_text(sheet), replacing(options));
        sheets.write(in_folder(options, kSession, ".html"), document_page(sheet), replacing(options));
        sheets.place();
    } catch (const Error& error) {
        throw Error(error.fault(), "", error.what(),
                    Advice{"negatives whose worksheets are written: " + std::to_string(prints.size())});
    }
    console.notes({"worksheets of " + negatives_counted(prints.size()) + " and session.html"},
                  options.folder);
}

void run(const PlanOptions& options, const Console& console) {
    const Shard shard = options.batch.part();
    refuse_part_without_folder(options, shard);
    const std::vector<std::string> all = options.batch.all(), scans = shard.part(all);
    PackOptions::Taken taken = options.pack.taken();
    PlanJob job{std::move(taken.pack), options.local.recipe(), {}, {}, {}};
    refuse_clashes(options, job.pack, job.local, all);
    refuse_unwritable(options, scans, shard.is_all());
    job.scan = options.negative.scan_options();
    job.terms = options.work.terms();
    job.terms.toner = options.decided.decided_toner();
    static_cast<void>(options.decided.kept_in({}));
    console.notes(taken.remarks.notes);
    job.pack.darkroom.bath = options.local.bath(job.pack.darkroom.bath, job.local, options.work.dilution);
    job.warnings = recipe_doubts(job.pack, std::array{options.decided.recipe()});
    if (auto doubt = doubt_of_head(job.pack, job.local)) job.warnings.push_back(std::move(*doubt));
    std::ranges::move(taken.remarks.warnings, std::back_inserter(job.warnings));
    Console::warnings(job.warnings);
    static_cast<void>(options.target.fresh_grade());
    std::vector<SessionPrint> prints;
    const auto work = [&](const std::string& source) {
        return handed_over(options, plan_one(options, job, source, console), job.terms);
    };
    const auto take = [&](const std::string& bytes) {
        const std::size_t end = bytes.find('\0');
        if (end > 0) Console::answer(bytes.substr(0, end) + "\n\n");
        prints.push_back(SessionPrint::unpacked(bytes.substr(end + 1)));
    };
    const auto fault =
        worked_through({"plan", "planned", scans, options.folder, work, take}, options.batch.limits());
    if (shard.is_all() && !prints.empty()) try {
            tell_session(options, prints, job.pack, job.terms, console);
        } catch (const Error& error) {
            if (!fault) throw;
            Console::fault(error.what());
        }
    else if (!shard.is_all())
        console.notes({"worksheets of " + negatives_counted(prints.size()) +
                       "; no session, which needs all of them in one run"},
                      options.folder);
    if (fault) throw *fault;
}

}  // namespace

void add_plan(CLI::App& program, const Console& console) {
    auto* verb = program.add_subcommand("plan", "worksheets for the darkroom and one bleaching session");
    const auto options = std::make_shared<PlanOptions>();
    options->batch.add_to(*verb);
    verb->add_option(
        "-o,--output", options->folder,
        "folder, made if it does not exist: for each negative NAME.html, NAME.txt, NAME-proofs.html and "
        "NAME-labels.csv (its print's labels, which read takes), and session.html, session.txt; without "
        "it the text goes to standard output");
    verb->add_flag("--json", options->json, "all numbers as JSON on standard output");
    verb->add_flag("--force", options->force, "replace existing files");
    options->work.add_to(*verb);
    options->decided.add_to(*verb);
    options->local.add_to(*verb);
    options->target.add_to(*verb);
    options->pack.add_to(*verb);
    options->negative.add_to(*verb);
    verb->callback([options, &console] { run(*options, console); });
}

}  // namespace fogproof::cli
