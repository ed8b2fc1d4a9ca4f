// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <algorithm>
#include <filesystem>
#include <iterator>
#include <memory>

#include "base/markup.hpp"
#include "cli/handwork_files.hpp"
#include "cli/negative_options.hpp"
#include "cli/read_instrument.hpp"
#include "cli/read_labels.hpp"
#include "cli/read_print.hpp"
#include "cli/read_sheet.hpp"
#include "cli/run_inputs.hpp"
#include "cli/strip_options.hpp"
#include "cli/verbs.hpp"
#include "fit/label_doubts.hpp"
#include "fogproof/base/error.hpp"
#include "pack/appended_readings.hpp"
#include "picture/picture_options.hpp"
#include "picture/strip_picture.hpp"
#include "reading/flatbed_doubt.hpp"
#include "reading/strip_doubts.hpp"
#include "report/print_report.hpp"
#include "report/strip_report.hpp"
#include "scan/coding.hpp"
#include "scan/reflection_scan.hpp"
#include "system/output_set.hpp"
#include "system/picture_kind.hpp"
#include "system/whole_file.hpp"

namespace fogproof::cli {
namespace {

namespace fs = std::filesystem;

/// Everything of one input, before it is known how many strips there are in all.
struct Input {
    std::string path;
    ReflectionImage image;
    StripRequest request;
    ScanReading scan;
    InstrumentFile instrument;
    [[nodiscard]] bool is_scan() const { return image.width > 0; }
    [[nodiscard]] std::size_t strips() const { return is_scan() ? scan.strips.size() : 1; }
};

Input opened(const std::string& path, const ReadRequest& options, std::span<const PieceLabels> filed) {
    StripRequest request = options.strips.request(path);
    if (!picture_kind(path)) {
        Input input{path, {}, {}, {}, instrument_file(path)};
        input.scan.notes = input.instrument.notes;
        return input;
    }
    ask_for_pieces(request, filed, options.labels);
    Notes notes;
    Input input{path, paper_scan(options, path, notes), std::move(request), {}, {}};
    input.scan = strips_read(input.image, input.request);
    input.scan.notes.insert(input.scan.notes.begin(), notes.begin(), notes.end());
    return input;
}

void refuse_early(const ReadRequest& options, std::span<const PieceLabels> filed,
                  WholeFile::Replace replace) {
    std::vector<std::string> read = options.inputs;
    read.push_back(options.print.negative);
    read.push_back(options.labels);
    for (const PieceLabels& piece : filed)
        if (is_print(piece)) read.push_back(negative_of(options, piece));
    RunFiles files = run_that_reads(read);
    files.writes(options.output, "the readings");
    WholeFile::refuse_unwritable(options.output, WholeFile::Replace::allowed);  // rows are appended
    if (!options.print.handwork.empty()) {
        if (options.inputs.size() > 1)
            throw Error(Fault::usage, "--handwork", "takes one print, but several are given",
                        "one print at a time");
        HandworkFiles(options.print.handwork).declare(files, replace);
    }
    for (std::size_t i = 0; i < options.inputs.size(); ++i) {
        for (std::size_t before = 0; before < i; ++before)
            if (std::error_code unknown; fs::equivalent(options.inputs[before], options.inputs[i], unknown))
                throw Error(Fault::usage, options.inputs[i], "is given twice", "each file once");
        if (options.picture.empty()) continue;
        const fs::path picture = picture_of(options, i);
        static_cast<void>(picture_format(picture));
        files.writes(picture, options.inputs[i]);
        WholeFile::refuse_unwritable(picture, replace);
    }
}

// Told of halves or steps, an instrument's file would be taken as if nothing had been said.
void refuse_words_of_scans(const ReadRequest& options) {
    if (const auto option = options.line.first_of({"--picture", "--white", "--dark", "--known", "--labels",
                                                   "--frame", "--steps", "--halves", "--leave-out",
                                                   "--encoding", "--max-pixels", "--bleached-half"}))
        throw Error(Fault::usage, *option, "is for scans, and no input is one",
                    std::string("a scan (") + kPictureKinds + "), or leave it out");
}

// One strip or patch of a scan, or one instrument's file, under its labels.
StripLabels labels_for(const ReadRequest& options, std::span<const PieceLabels> filed, int piece,
                       std::size_t strip, std::size_t count, const std::string& usual) {
    const auto told = std::ranges::find(filed, std::optional(piece), &PieceLabels::piece);
    if (told == filed.end()) return options.strips.labels(strip, count, usual);
    StripLabels labels = options.strips.labels(strip, count, usual, told->strip);
    // Steps are typed of the strips beside it; a patch has none.
    if (told->kind == PieceRequest::Kind::patch) labels.wedge.reset(), labels.exposures.clear();
    return labels;
}

// Those pieces of a scan that are prints of a negative.
std::vector<Reading> rows_of_prints(const ReadRequest& options, std::span<const PieceLabels> filed,
                                    const Input& input, std::vector<NamedPrint>& prints,
                                    const Console& console) {
    std::vector<Reading> rows;
    const fs::path path(input.path);
    for (const PieceLabels& piece : filed) {
        if (!is_print(piece)) continue;
        const StripLabels labels = options.strips.labels(
            0, 1, plain_line(path.stem().string()) + "-" + std::to_string(*piece.piece), piece.strip);
        const PieceOfScan of_scan{input.path, input.image, input.request, *piece.piece,
                                  negative_of(options, piece)};
        auto [read, more] = print_piece(print_options_for(options, piece), of_scan, labels, console);
        rows.insert(rows.end(), more.begin(), more.end());
        prints.push_back({plain_line(path.filename().string()), labels.common.strip, input.image.scan_pixels,
                          std::move(read)});
    }
    return rows;
}

void run(ReadRequest options, const Console& console) {
    const auto replace = options.force ? WholeFile::Replace::allowed : WholeFile::Replace::never;
    if (!options.labels_out.empty()) return write_labels(options, console);
    if (options.output.empty())
        throw Error(Fault::usage, "--output", "is missing", "the readings file; or --labels-out FILE");
    if (!options.sheet.empty()) return read_sheet(options, console);
    const std::vector<PieceLabels> filed = labels_of(options);
    refuse_early(options, filed, replace);
    if (!options.print.negative.empty()) return read_prints(options, console);
    if (std::ranges::none_of(filed, is_print)) options.print.refuse_without_negative();
    std::vector<Input> inputs;
    std::size_t count = 0;
    for (const auto& path : options.inputs) {
        inputs.push_back(opened(path, options, filed));
        count += inputs.back().strips();
        console.notes(inputs.back().scan.notes, path);
        Console::warnings(inputs.back().scan.warnings, path);
    }
    if (std::ranges::none_of(inputs, &Input::is_scan)) refuse_words_of_scans(options);

    std::vector<NamedStrip> named;
    std::vector<NamedPrint> prints;
    std::vector<OriginalRows> rows_of;
    std::vector<Reading> all;
    Remarks remarks;
    std::size_t strip = 0;
    for (const Input& input : inputs) {
        const std::string stem = usual_name(options, input.path),
                          file = plain_line(fs::path(input.path).filename().string());
        std::vector<Reading> rows;
        if (!input.is_scan()) {
            InstrumentRows read =
                instrument_rows(input.instrument, options.strips.labels(strip++, count, stem),
                                !options.strips.names.empty(), input.path);
            console.notes(read.notes, input.path);
            std::ranges::move(read.notes, std::back_inserter(remarks.notes));
            rows = std::move(read.rows);
        }
        for (std::size_t i = 0; i < input.scan.strips.size(); ++i) {
            const std::string usual = input.strips() > 1 ? stem + "-" + std::to_string(i + 1) : stem;
            const StripLabels labels =
                labels_for(options, filed, input.scan.strips[i].piece, strip++, count, usual);
            const Remarks doubts = strip_doubts(input.scan.strips[i], labels);
            console.remarks(doubts, input.path);
            std::ranges::copy(doubts.notes, std::back_inserter(remarks.notes));
            std::ranges::copy(doubts.warnings, std::back_inserter(remarks.warnings));
            auto more = labelled(input.scan.strips[i], labels);
            tell_flatbed_doubt(more, input.scan.doubt);
            rows.insert(rows.end(), more.begin(), more.end());
            named.push_back({file, labels.common.strip, input.scan.strips[i], input.scan.doubt});
        }
        const auto of_prints = rows_of_prints(options, filed, input, prints, console);
        rows.insert(rows.end(), of_prints.begin(), of_prints.end());
        add_known_slip(rows, input.request.known, input.path, options.output, all);
        // What is written must be readable: ranges are checked once, where files are read.
        static_cast<void>(parse_readings(readings_text(rows, file), "rows of " + file));
        all.insert(all.end(), rows.begin(), rows.end());
        std::ranges::copy(input.scan.notes, std::back_inserter(remarks.notes));
        std::ranges::copy(input.scan.warnings, std::back_inserter(remarks.warnings));
        rows_of.push_back({file + (input.is_scan() ? ", flatbed scan" : ", instrument"), std::move(rows)});
    }
    const auto doubts = label_doubts(all);
    Console::warnings(doubts);
    std::ranges::copy(doubts, std::back_inserter(remarks.warnings));
    refuse_unappendable(options.output, rows_of);
    OutputSet files;
    for (std::size_t i = 0; i < inputs.size(); ++i)
        if (!options.picture.empty() && inputs[i].is_scan())
            save_strip_picture(inputs[i].image, inputs[i].scan, fs::path(inputs[i].path).filename().string(),
                               files.file(picture_of(options, i), replace));
    append_readings(options.output, rows_of, files);
    Console::answer(options.json ? strips_json(named, prints, all, remarks)
                                 : strips_text(named) + (prints.empty() ? "" : prints_text(prints)));
    console.notes({std::to_string(all.size()) + (all.size() == 1 ? " row" : " rows") + " appended"},
                  options.output);
}

}  // namespace

ReflectionImage paper_scan(const ReadRequest& request, const std::string& path, Notes& notes) {
    const auto encoding = encoding_in(request.encoding, "--encoding");
    if (encoding && !request.line.gives("--encoding")) notes.push_back(words_of_set(*encoding));
    return reflection_scan(path, encoding, pixel_limit(request.max_pixels), notes);
}

std::string usual_name(const ReadRequest& request, const fs::path& path) {
    const auto with_folders = [](const fs::path& file, std::size_t count) {
        fs::path rest = fs::weakly_canonical(file);
        std::string name = count == 0 ? rest.stem().string() : rest.filename().string();
        for (; count > 1 && rest.has_relative_path(); --count) {
            rest = rest.parent_path();
            if (rest.has_filename()) name = rest.filename().string() + "-" + name;
        }
        return name;
    };
    constexpr std::size_t kDeepest = 20;
    std::size_t count = 0;
    const auto is_shared = [&] {
        return std::ranges::count(request.inputs, with_folders(path, count),
                                  [&](const std::string& input) { return with_folders(input, count); }) > 1;
    };
    while (count < kDeepest && is_shared()) ++count;
    return plain_line(with_folders(path, count));
}

fs::path picture_of(const ReadRequest& request, std::size_t input) {
    fs::path path = request.picture;
    if (request.inputs.size() > 1)
        path.replace_filename(path.stem().string() + "-" + std::to_string(input + 1) +
                              path.extension().string());
    return path;
}

void add_read(CLI::App& program, const Console& console) {
    auto* verb = program.add_subcommand(
        "read", "densities off a flatbed scan of strips or prints, or out of an instrument's file");
    const auto options = std::make_shared<ReadRequest>();
    verb->add_option(
            "SCAN", options->inputs,
            "scans (.tif .png .jpg), CGATS files of an instrument, or CSV with a column density, whose "
            "empty cells take what is typed")
        ->required();
    verb->add_option("-o,--output", options->output, "readings file; rows are appended");
    verb->add_option(
        "--labels", options->labels,
        "what lies on the scan: a CSV file with one line for each piece, which --labels-out or plan "
        "writes; options override it");
    verb->add_option("--labels-out", options->labels_out,
                     "write such a file with the pieces found on the scan, for you to fill in; no "
                     "readings yet");
    verb->add_option("--sheet-of", options->sheet,
                     "a pack of paper: SCAN shows one sheet of it, developed without exposure; "
                     "--output is then the pack with the fog of its edges, and NAME-edges.png beside "
                     "it is the map");
    verb->add_option("--picture", options->picture, "draw what was read into a file (.png .tif .jpg)");
    verb->add_option(
        "--encoding", options->encoding,
        "linear, srgb, gamma22, or density (full code 0 D, code 0 4 D); overrides profile and default");
    verb->add_option("--max-pixels", options->max_pixels,
                     "larger scans are refused before they are read [4e9]");
    options->strips.add_to(*verb);
    options->print.add_to(*verb);
    options->line = CommandLine(*verb);
    verb->add_flag("--json", options->json, "everything as JSON");
    verb->add_flag("--force", options->force, "replace an existing picture; readings are never replaced");
    verb->callback([options, &console] { run(*options, console); });
}

}  // namespace fogproof::cli
