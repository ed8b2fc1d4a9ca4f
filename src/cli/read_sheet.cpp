// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/read_sheet.hpp"

#include <filesystem>
#include <iterator>

#include "cli/choice.hpp"
#include "cli/negative_options.hpp"
#include "cli/run_inputs.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/pack/file.hpp"
#include "picture/level_picture.hpp"
#include "reading/blank_sheet.hpp"
#include "report/blank_sheet_report.hpp"
#include "scan/reflection_scan.hpp"
#include "system/output_set.hpp"
#include "system/picture_kind.hpp"
#include "system/whole_file.hpp"

namespace fogproof::cli {
namespace {

namespace fs = std::filesystem;

constexpr const char* kNotOfASheet = "does not apply to a blank sheet, which --sheet-of reads";

void refuse_other_words(const ReadRequest& options) {
    if (options.inputs.size() > 1)
        throw Error(Fault::usage, "--sheet-of", "takes one scan, but several are given", "one at a time");
    const StripOptions& strips = options.strips;
    for (const auto& [is_given, option] : {std::pair{!options.picture.empty(), "--picture"},
                                           {!options.labels.empty(), "--labels"},
                                           {!options.print.negative.empty(), "--negative"},
                                           {!options.print.handwork.empty(), "--handwork"},
                                           {!strips.wedge.empty(), "--wedge"},
                                           {!strips.exposures.empty(), "--exposures"},
                                           {strips.steps != 0, "--steps"},
                                           {strips.halves, "--halves"},
                                           {!strips.bleached_half.empty(), "--bleached-half"},
                                           {strips.leave_out, "--leave-out"}})
        if (is_given) throw Error(Fault::usage, option, kNotOfASheet, Advice{"give one of them"});
    if (const auto option = options.line.first_of({"--exposure",   "--filter",
                                                   "--carrier",    "--restrainer",
                                                   "--develop",    "--bleach",
                                                   "--parts",      "--redevelop",
                                                   "--strip",      "--tie",
                                                   "--mirror",     "--head",
                                                   "--callier",    "--flare",
                                                   "--whole",      "--as",
                                                   "--channels",   "--clear",
                                                   "--black",      "--base-fog",
                                                   "--keep-askew", "--negative-encoding"}))
        throw Error(Fault::usage, *option, kNotOfASheet,
                    "a sheet that was developed as usual, without exposure or bleach");
}

// pack.toml -> pack-edges.png
fs::path map_beside(const fs::path& pack) {
    return pack.parent_path() / (pack.stem().string() + "-edges.png");
}

}  // namespace

void read_sheet(const ReadRequest& options, const Console& console) {
    refuse_other_words(options);
    const auto replace = options.force ? WholeFile::Replace::allowed : WholeFile::Replace::never;
    const std::string& scan = options.inputs.front();
    const fs::path output = options.output, map = map_beside(output);
    Pack pack = read_pack(options.sheet);
    RunFiles files = run_that_reads({scan, options.sheet, pack.edge_fog.map});
    files.writes(output, "the pack");
    files.writes(map, "its map");
    for (const auto& file : {output, map}) WholeFile::refuse_unwritable(file, replace);
    if (!picture_kind(scan))
        throw Error(Fault::data, scan, "is no picture",
                    std::string("a flatbed scan of a sheet (") + kPictureKinds + ")");
    Notes notes;
    const ReflectionImage image = paper_scan(options, scan, notes);
    const CalibratedScan seen = calibrated(image, options.strips.request(scan));
    const BlankSheet sheet = blank_sheet(seen, pack, scan);
    notes.insert(notes.end(), seen.notes.begin(), seen.notes.end());
    notes.insert(notes.end(), sheet.notes.begin(), sheet.notes.end());
    console.notes(notes, scan);
    Console::warnings(seen.warnings, scan);
    pack = with_edge_map(std::move(pack), sheet, map.filename().string());
    OutputSet outputs;
    save_levels(sheet.map, outputs.file(map, replace));
    outputs.write(output, written(pack), replace);
    outputs.place();
    Console::answer(options.json ? blank_sheet_json(sheet, pack) : blank_sheet_text(sheet, pack));
    console.notes({"the pack with the fog of its edges; its map is " + map.string()}, output.string());
}

}  // namespace fogproof::cli
