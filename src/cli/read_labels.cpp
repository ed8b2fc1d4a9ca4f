// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/read_labels.hpp"

#include <algorithm>
#include <array>
#include <filesystem>
#include <tuple>
#include <utility>

#include "base/markup.hpp"
#include "base/shell_word.hpp"
#include "base/shortest.hpp"
#include "cli/run_inputs.hpp"
#include "fogproof/base/error.hpp"
#include "picture/picture_options.hpp"
#include "picture/strip_picture.hpp"
#include "reading/piece_kinds.hpp"
#include "report/labels_report.hpp"
#include "scan/reflection_scan.hpp"
#include "system/output_set.hpp"
#include "system/path_beside.hpp"
#include "system/picture_kind.hpp"
#include "system/text_file.hpp"

namespace fogproof::cli {
namespace {

namespace fs = std::filesystem;

void refuse_other_options(const ReadRequest& options) {
    if (options.inputs.size() > 1)
        throw Error(Fault::usage, "--labels-out",
                    "is for one scan, and " + std::to_string(options.inputs.size()) + " are given",
                    "a labels file for each scan");
    if (const auto option =
            options.line.first_of({"--output", "--labels", "--negative", "--known", "--white", "--dark",
                                   "--wedge", "--exposures", "--halves", "--bleached-half", "--leave-out"}))
        throw Error(Fault::usage, *option, "is given beside --labels-out, which reads nothing yet",
                    Advice{"leave it out and fill it into the labels file"});
    if (const auto option =
            options.line.first_of({"--sheet-of", "--handwork", "--tie", "--mirror", "--head", "--callier",
                                   "--flare", "--keep-askew", "--whole", "--as", "--channels", "--clear",
                                   "--black", "--base-fog", "--negative-encoding"}))
        throw Error(Fault::usage, *option, "is given beside --labels-out, which reads nothing yet",
                    Advice{"give it when you read"});
}

// How the scan was read when its pieces got their numbers, which holds for the next reading too.
std::string repeated(const ReadRequest& options) {
    std::string words;
    if (options.line.gives("--encoding")) words += " --encoding " + options.encoding;
    if (options.line.gives("--frame")) words += " --frame " + options.strips.frame;
    if (options.line.gives("--max-pixels")) words += " --max-pixels " + shortest(options.max_pixels);
    return words;
}

}  // namespace

std::vector<PieceLabels> labels_of(ReadRequest& options) {
    if (options.labels.empty()) return {};
    if (options.inputs.size() > 1)
        throw Error(Fault::usage, "--labels",
                    "is for one scan, and " + std::to_string(options.inputs.size()) + " are given",
                    "one scan, and a labels file for each");
    const auto all =
        parse_labels(read_text(options.labels, kLargestLabelsFile, kLabelsWanted), options.labels);
    const PieceLabels* print = only_print(all);
    if (!print) {
        for (const auto& [is_given, option, column] :
             {std::tuple{!options.print.negative.empty(), "--negative", "negative"},
              {!options.strips.bleached_half.empty(), "--bleached-half", "halves"}})
            if (is_given)
                throw Error(Fault::usage, option, "beside labels of several pieces",
                            std::string("the column ") + column + " of " + plain_line(options.labels));
        for (const auto& [is_given, option] : {std::pair{!options.print.handwork.empty(), "--handwork"},
                                               {!options.print.tie.empty(), "--tie"}})
            if (is_given)
                throw Error(Fault::usage, option, "beside labels of several pieces",
                            "one print at a time, with labels of its own");
        return all;
    }
    options.strips.filed = print->strip;
    options.strips.halves = options.strips.halves || print->halves;
    if (options.strips.bleached_half.empty() && print->bleached)
        options.strips.bleached_half = word_of(*print->bleached);
    if (options.print.negative.empty()) options.print.negative = negative_of(options, *print);
    options.print = print_options_for(options, *print);
    return {};
}

bool is_print(const PieceLabels& piece) {
    return piece.kind == PieceRequest::Kind::print && !piece.known;
}

PrintOfNegativeOptions print_options_for(const ReadRequest& options, const PieceLabels& piece) {
    PrintOfNegativeOptions held = options.print;
    const CommandLine& typed = held.line;
    if (piece.callier && !typed.gives("--head") && !typed.gives("--callier")) held.callier = piece.callier;
    if (piece.flare && !typed.gives("--flare")) held.flare = piece.flare;
    return held;
}

std::string negative_of(const ReadRequest& options, const PieceLabels& labels) {
    if (labels.negative.empty())
        throw Error(Fault::data, options.labels + ":" + std::to_string(labels.line),
                    "a print without negative",
                    "the scan of its negative in the column negative, or --negative");
    return path_beside(fs::path(options.labels).parent_path(), labels.negative).string();
}

void write_labels(const ReadRequest& options, const Console& console) {
    refuse_other_options(options);
    const std::string& path = options.inputs.front();
    const auto replace = options.force ? WholeFile::Replace::allowed : WholeFile::Replace::never;
    RunFiles run = run_that_reads({path});
    run.writes(options.labels_out, "the labels");
    WholeFile::refuse_unwritable(options.labels_out, replace);
    if (!options.picture.empty()) {
        static_cast<void>(picture_format(fs::path(options.picture)));
        run.writes(options.picture, path);
        WholeFile::refuse_unwritable(options.picture, replace);
    }
    if (!picture_kind(path))
        throw Error(Fault::data, path, "is no scan",
                    std::string("a scan (") + kPictureKinds + ") beside --labels-out");
    Notes notes;
    const ReflectionImage image = paper_scan(options, path, notes);
    PiecesSeen seen = pieces_seen(image, options.strips.request(path));
    console.notes(notes, path);
    console.notes(seen.scan.notes, path);
    Console::warnings(seen.scan.warnings, path);
    const std::string stem = plain_line(fs::path(path).stem().string()),
                      file = plain_line(fs::path(path).filename().string());
    const std::size_t count = seen.labels.size();
    for (std::size_t i = 0; i < count; ++i) {
        PieceLabels& piece = seen.labels[i];
        piece.strip = options.strips.labels(i, count, stem + "-" + std::to_string(i + 1), piece.strip);
    }
    OutputSet files;
    files.write(options.labels_out, labels_text(seen.labels, comments_on_pieces(file)), replace);
    if (!options.picture.empty())
        save_strip_picture(image, seen.scan, file, files.file(options.picture, replace));
    files.place();
    Console::answer(options.json ? pieces_json(seen) : pieces_text(seen, file));
    console.notes(
        {std::to_string(count) + (count == 1 ? " piece" : " pieces") +
         " to be labelled, then: fogproof read " + shell_word(plain_line(path)) + repeated(options) +
         " --labels " + shell_word(plain_line(options.labels_out)) + " -o READINGS"},
        options.labels_out);
}

}  // namespace fogproof::cli
