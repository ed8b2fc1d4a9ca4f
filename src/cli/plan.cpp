// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <filesystem>
#include <iostream>
#include <memory>
#include <set>

#include "cli/choice.hpp"
#include "cli/negative_options.hpp"
#include "cli/pack_options.hpp"
#include "cli/target_options.hpp"
#include "cli/verbs.hpp"
#include "cli/work_options.hpp"
#include "fogproof/base/input_file.hpp"
#include "fogproof/base/markup.hpp"
#include "fogproof/render/cell_pictures.hpp"
#include "fogproof/render/small_negative.hpp"
#include "fogproof/report/proof_page.hpp"
#include "fogproof/report/worksheet_pictures.hpp"

namespace fogproof::cli {
namespace {

namespace fs = std::filesystem;

struct Options {
    NegativeOptions negative;
    PackOptions pack;
    WorkOptions work;
    TargetOptions target;
    std::vector<std::string> scans;
    std::string folder;
    bool json = false, force = false;
};

constexpr int kOverviewPixels = 600;
const char* const kSession = "session";

std::string name_of(const std::string& scan) {
    return valid_utf8(fs::path(scan).stem().string());
}

fs::path in_folder(const Options& options, const std::string& scan, const std::string& ending) {
    return fs::path(options.folder) / (fs::path(scan).stem().string() + ending);
}

void refuse_clashes(const Options& options) {
    std::set<std::string> names;
    for (const auto& scan : options.scans) {
        if (fs::path(scan).stem() == kSession)
            throw Error(Fault::usage, scan, "its sheet would be the session's", "another name");
        if (!names.insert(fs::path(scan).stem().string()).second)
            throw Error(Fault::usage, scan, "a second negative of this name", "negatives of different names");
    }
    if (options.folder.empty()) return;
    if (!is_folder(options.folder))
        throw Error(Fault::usage, "--output", options.folder + " is no folder", "an existing folder");
    const auto replace = options.force ? WholeFile::Replace::allowed : WholeFile::Replace::never;
    std::vector<std::string> sources = options.scans;
    sources.push_back(kSession);
    for (const auto& source : sources)
        for (const char* ending : {".html", ".txt"})
            WholeFile::refuse_unwritable(in_folder(options, source, ending), replace);
    for (const auto& scan : options.scans)
        WholeFile::refuse_unwritable(in_folder(options, scan, "-proofs.html"), replace);
}

void write_proofs(const Options& options, const std::string& source, const Scan& scan, const Easel& easel,
                  const Notes& notes, WholeFile::Replace replace) {
    GridRequest request;
    request.negative = name_of(source);
    request.across = usual_across(easel);
    request.down = usual_down(easel, request.base);
    request.notes = notes;
    const WorkedGrid grid = worked_grid(easel, std::move(request));
    const GridLook look{Rendering::absolute, page_cell_pixels(GridLook{}.cell_pixels)};
    write_whole(
        in_folder(options, source, "-proofs.html"),
        proof_page(easel, grid, cell_pictures(scan, grid.sheet.cells, look, OutputProfile::named("srgb"))),
        replace);
}

PlannedPrint plan_one(const Options& options, const std::string& source, const Pack& pack,
                      const WorkTerms& terms, const Console& console) {
    const auto replace = options.force ? WholeFile::Replace::allowed : WholeFile::Replace::never;
    Notes notes;
    const Scan scan = Scan::open(source, options.negative.scan_options(), notes);
    console.notes(notes, source);
    Easel easel(pack, Tones(scan.histogram(), scan.scale()));
    const SmallNegative overview = small_negative(scan, kOverviewPixels);
    auto [wanted, words] = options.target.wanted(easel, scan, overview);
    StartingPoint point = starting_points(easel, wanted, usual_bounds(easel)).best;
    PlannedPrint print = planned_print(name_of(source), std::move(words), std::move(easel), std::move(point),
                                       strip_place(overview.width, overview.height, overview.density),
                                       double(scan.width()) / scan.height(), terms);
    print.notes = notes;
    if (options.folder.empty()) return print;
    print.pictures = worksheet_pictures(scan, print);
    const Document sheet = print_sheet(print, terms);
    write_whole(in_folder(options, source, ".txt"), document_text(sheet), replace);
    write_whole(in_folder(options, source, ".html"), document_page(sheet), replace);
    write_proofs(options, source, scan, print.easel, notes, replace);
    print.pictures.clear();
    return print;
}

// Every negative on its own; one that cannot be planned does not keep the others from it.
std::vector<PlannedPrint> plan_all(const Options& options, const Pack& pack, const WorkTerms& terms,
                                   const Console& console, std::optional<Error>& first) {
    std::vector<PlannedPrint> prints;
    for (const auto& source : options.scans) {
        try {
            prints.push_back(plan_one(options, source, pack, terms, console));
        } catch (const Error& error) {
            if (options.scans.size() == 1) throw;
            Console::fault(error.what());
            if (!first) first = error;
        }
    }
    return prints;
}

void run(const Options& options, const Console& console) {
    refuse_clashes(options);
    const WorkTerms terms = options.work.terms();
    Pack pack = options.pack.pack();
    if (options.work.dilution) pack.bath.parts = within(*options.work.dilution, 0, 1000, "--dilution");
    std::optional<Error> first;
    const auto prints = plan_all(options, pack, terms, console, first);
    if (!prints.empty()) {
        const Session session = planned_session(prints, terms);
        const Document sheet = session_sheet(prints, session, terms);
        if (options.json) {
            std::cout << plan_json(prints, session, terms);
        } else if (options.folder.empty()) {
            for (const auto& print : prints) std::cout << document_text(print_sheet(print, terms)) << "\n\n";
            std::cout << document_text(sheet);
        }
        if (!options.folder.empty()) {
            const auto replace = options.force ? WholeFile::Replace::allowed : WholeFile::Replace::never;
            write_whole(in_folder(options, kSession, ".txt"), document_text(sheet), replace);
            write_whole(in_folder(options, kSession, ".html"), document_page(sheet), replace);
            console.notes({"worksheets of " + std::to_string(prints.size()) + " negatives and session.html"},
                          options.folder);
        }
    }
    if (first) throw Error(first->fault(), "plan", "not all negatives could be planned");
}

}  // namespace

void add_plan(CLI::App& program, const Console& console) {
    auto* verb = program.add_subcommand("plan", "worksheets for the darkroom and one bleaching session");
    const auto options = std::make_shared<Options>();
    verb->add_option("NEG", options->scans, "scanned negatives or digital pictures")->required();
    verb->add_option("-o,--output", options->folder,
                     "existing folder: for each negative NAME.html, NAME.txt and NAME-proofs.html, and "
                     "session.html, session.txt; without it the text goes to standard output");
    verb->add_flag("--json", options->json, "all numbers as JSON on standard output");
    verb->add_flag("--force", options->force, "replace existing files");
    options->work.add_to(*verb);
    options->target.add_to(*verb);
    options->pack.add_to(*verb);
    options->negative.add_to(*verb);
    verb->callback([options, &console] { run(*options, console); });
}

}  // namespace fogproof::cli
