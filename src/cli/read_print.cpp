// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/read_print.hpp"

#include <algorithm>
#include <filesystem>
#include <iterator>

#include "base/markup.hpp"
#include "cli/choice.hpp"
#include "cli/handwork_files.hpp"
#include "cli/pack_options.hpp"
#include "cli/typed_values.hpp"
#include "fit/label_doubts.hpp"
#include "fogproof/base/error.hpp"
#include "pack/appended_readings.hpp"
#include "pack/carrier.hpp"
#include "pack/schema.hpp"
#include "picture/print_picture.hpp"
#include "reading/flatbed_doubt.hpp"
#include "reading/known_slip.hpp"
#include "reading/light_density.hpp"
#include "reading/negative_view.hpp"
#include "reading/print_reading.hpp"
#include "report/print_report.hpp"
#include "scan/reflection_scan.hpp"
#include "system/output_set.hpp"
#include "system/picture_kind.hpp"

namespace fogproof::cli {
namespace {

ScanOptions film_options(const PrintOfNegativeOptions& print, const std::string& frame) {
    NegativeOptions film = print.film;
    film.frame = frame;
    film.encoding = print.negative_encoding;
    film.encoding_option = "--negative-encoding";
    film.line = print.line;
    return film.scan_options();
}

FilmOverPaper over_paper(const PrintOfNegativeOptions& print, const Scan& negative) {
    FilmOverPaper film;
    film.callier = head_defaults(print.head.empty() ? Head::unknown : head_in(print.head, "--head")).callier;
    const auto take = [](const std::optional<double>& told, const char* name, const char* option,
                         double& number) {
        if (told) number = within(*told, pack_number(name)->minimum, pack_number(name)->maximum, option);
    };
    film.flare = Enlarger{}.flare;
    if (!print.line.is_overruled("--callier", "--head"))
        take(print.callier, "enlarger.callier", "--callier", film.callier);
    take(print.flare, "enlarger.flare", "--flare", film.flare);
    film.mean_transmitted = Tones(negative.histogram(), negative.scale()).mean_transmitted(film.callier);
    return film;
}

void tell_film(StripLabels& labels, const Scan& negative, const FilmOverPaper& film) {
    labels.common.callier = to_thousandths(film.callier);
    const FilmBase& base = negative.film_base();
    const bool is_known = base.from == FilmBase::From::given || base.from == FilmBase::From::scan;
    if (!labels.common.carrier_density && is_known)
        labels.common.carrier_density = to_thousandths(base.density);
}

ScanPoint point_in(const std::string& text) {
    const auto parts = split(text, ',');
    const auto x = parts.size() == 2 ? number_in(parts[0]) : std::nullopt;
    const auto y = x ? number_in(parts[1]) : std::nullopt;
    if (!y || *x < 0 || *y < 0)
        throw Error(Fault::usage, "--tie", "\"" + text + "\"", "a point X,Y in pixels");
    return {*x, *y};
}

std::vector<TiedPoints> ties_of(const ReadRequest& request) {
    std::vector<TiedPoints> ties;
    for (const std::string& text : request.print.tie) {
        const auto parts = split(text, '=');
        if (parts.size() != 2)
            throw Error(Fault::usage, "--tie", "\"" + text + "\"",
                        "X,Y=X,Y: a point of the negative's scan, and of the print's");
        ties.push_back({point_in(parts[0]), point_in(parts[1])});
    }
    if (!ties.empty() && request.inputs.size() > 1)
        throw Error(Fault::usage, "--tie", "takes one print, but several are given", "one print at a time");
    return ties;
}

// Steps, wedges and times of bands say something of strips; a print's tones come from its negative.
void refuse_words_of_strips(const StripOptions& strips) {
    for (const auto& [is_given, option] : {std::pair{!strips.wedge.empty(), "--wedge"},
                                           {!strips.exposures.empty(), "--exposures"},
                                           {strips.steps != 0, "--steps"},
                                           {strips.leave_out, "--leave-out"}})
        if (is_given)
            throw Error(Fault::usage, option, "is for strips, but --negative reads prints",
                        Advice{"give one of them"});
}

}  // namespace

void PrintOfNegativeOptions::add_to(CLI::App& app) {
    line = CommandLine(app);
    const std::string group = "Prints held against their negative";
    app.add_option("--negative", negative,
                   "scan of the negative of which SCAN is a print; reads the print's tones (--frame "
                   "is then the picture in the negative's scan)")
        ->group(group);
    app.add_option("--handwork", handwork,
                   "write what was burnt or dodged on one print as a mask for a recipe (.png .tif), "
                   "and beside it the recipe's lines and a picture to look at")
        ->group(group);
    app.add_option("--tie", tie,
                   "a point of the negative's scan and the same point of SCAN, in their pixels, such as "
                   "812,340=1530,655; repeat it for three points or more, of halves three of each, where the "
                   "program finds no place by itself")
        ->group(group)
        ->type_name("X,Y=X,Y")
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
    app.add_option("--negative-encoding", negative_encoding, "as --encoding, of the negative's scan")
        ->group(group);
    app.add_option("--as", film.kind, "negative, or positive for a digital picture [negative]")->group(group);
    app.add_option("--channels", film.channels,
                   "of the negative's scan: luminance or blue-green [as for prints]")
        ->group(group);
    app.add_flag("--whole", film.whole, "the whole scan of the negative is the picture")->group(group);
    app.add_flag("--keep-askew", film.keep_askew, "do not turn the negative's scan when its frame lies askew")
        ->group(group);
    app.add_option("--clear", film.clear, "clear film: a region LEFT,TOP,WIDTH,HEIGHT, or its transmittance")
        ->group(group);
    app.add_option("--black", film.black,
                   "scanner black of the negative's scan: a region, or its transmittance")
        ->group(group);
    app.add_option("--base-fog", film.base_fog, "density of the film's base + fog over an empty carrier")
        ->group(group);
    app.add_flag("--mirror", film.mirror, "the scan shows the negative from the wrong side")->group(group);
    app.add_option("--head", head, "diffuser, condenser or unknown; brings its usual Callier Q")
        ->group(group);
    app.add_option("--callier", callier, "Callier Q: 1 to 1.05 diffuser, 1.2 to 1.5 condenser")->group(group);
    app.add_option("--flare", flare, "share of the mean light spread over the easel")->group(group);
}

void PrintOfNegativeOptions::refuse_without_negative() const {
    if (const auto option = line.first_of({"--bleached-half", "--handwork", "--tie"}))
        throw Error(Fault::usage, *option, "is for prints, but no negative is given",
                    "--negative FILE beside it, or leave it out");
    if (const auto option =
            line.first_of({"--negative-encoding", "--as", "--channels", "--whole", "--keep-askew", "--clear",
                           "--black", "--base-fog", "--mirror", "--head", "--callier", "--flare"}))
        refuse_as_of_no_negative(*option);
}

void read_prints(const ReadRequest& request, const Console& console) {
    const auto replace = request.force ? WholeFile::Replace::allowed : WholeFile::Replace::never;
    refuse_words_of_strips(request.strips);
    const std::vector<TiedPoints> ties = ties_of(request);
    for (const auto& path : request.inputs)
        if (!picture_kind(path))
            throw Error(Fault::data, path, "is no scan",
                        std::string("a scan of a print (") + kPictureKinds + ") beside --negative");
    Notes negative_notes;
    const ScanOptions film_as = film_options(request.print, request.strips.frame);
    const Scan negative = Scan::open(request.print.negative, film_as, negative_notes);
    console.notes(negative_notes, request.print.negative);
    Console::warnings(negative.warnings(), request.print.negative);
    const FilmOverPaper film = over_paper(request.print, negative);
    const NegativeView view = negative_view(negative, film_as);

    std::vector<NamedPrint> named;
    std::vector<ReflectionImage> images;
    std::vector<StripRequest> requests;
    std::vector<OriginalRows> rows_of;
    std::vector<Reading> all;
    Remarks remarks{negative_notes, negative.warnings(), negative.degrees_turned()};
    const std::size_t count = request.inputs.size();
    for (std::size_t i = 0; i < count; ++i) {
        const std::string& path = request.inputs[i];
        StripOptions strips = request.strips;
        strips.frame.clear();
        const std::string stem = usual_name(request, path),
                          file = plain_line(std::filesystem::path(path).filename().string());
        StripLabels labels = strips.labels(i, count, stem);
        Notes notes;
        images.push_back(paper_scan(request, path, notes));
        requests.push_back(strips.request(path));
        requests.back().ties = ties;
        PrintReading read = print_read(images.back(), requests.back(), view, film);
        read.notes.insert(read.notes.begin(), notes.begin(), notes.end());
        console.notes(read.notes, path);
        Console::warnings(read.warnings, path);
        std::ranges::copy(read.notes, std::back_inserter(remarks.notes));
        std::ranges::copy(read.warnings, std::back_inserter(remarks.warnings));
        tell_film(labels, negative, film);
        auto rows = labelled(read, labels.common);
        tell_flatbed_doubt(rows, read.doubt);
        add_known_slip(rows, requests.back().known, path, request.output, all);
        // What is written must be readable: ranges are checked once, where files are read.
        static_cast<void>(parse_readings(readings_text(rows, file), "rows of " + file));
        all.insert(all.end(), rows.begin(), rows.end());
        named.push_back({file, labels.common.strip, images.back().scan_pixels, std::move(read)});
        rows_of.push_back({file + ", flatbed scan of a print", std::move(rows)});
    }
    const auto doubts = label_doubts(all);
    Console::warnings(doubts);
    std::ranges::copy(doubts, std::back_inserter(remarks.warnings));
    refuse_unappendable(request.output, rows_of);
    OutputSet files;
    if (!request.picture.empty())
        for (std::size_t i = 0; i < count; ++i)
            save_print_picture(images[i], named[i].read, named[i].source,
                               files.file(picture_of(request, i), replace));
    std::string handwork;
    if (!request.print.handwork.empty())
        handwork = HandworkFiles(request.print.handwork)
                       .save(named[0].read, images[0], named[0].source, files, replace);
    append_readings(request.output, rows_of, files);
    if (!handwork.empty()) console.notes({handwork}, request.print.handwork);
    Console::answer(request.json ? prints_json(named, all, remarks) : prints_text(named));
    console.notes({std::to_string(all.size()) + " rows appended"}, request.output);
}

void add_known_slip(std::vector<Reading>& rows, std::span<const KnownPatch> known, const std::string& scan,
                    const std::string& output, std::span<const Reading> before) {
    const auto slip = known_slip(known, plain_line(std::filesystem::path(scan).stem().string()));
    if (!slip) return;
    const auto is_among = [&](std::span<const Reading> some) {
        return std::ranges::find(some, slip->strip, &Reading::strip) != some.end();
    };
    std::error_code unknown;
    if (is_among(before) ||
        (std::filesystem::exists(output, unknown) && is_among(read_readings_file(output))))
        return;
    rows.push_back(*slip);
}

std::pair<PrintReading, std::vector<Reading>> print_piece(const PrintOfNegativeOptions& print,
                                                          const PieceOfScan& scan, StripLabels labels,
                                                          const Console& console) {
    Notes notes;
    const ScanOptions film_as = film_options(print, {});
    const Scan negative = Scan::open(scan.negative, film_as, notes);
    console.notes(notes, scan.negative);
    Console::warnings(negative.warnings(), scan.negative);
    const FilmOverPaper film = over_paper(print, negative);
    PrintReading read =
        print_piece_read(scan.image, scan.request, scan.piece, negative_view(negative, film_as), film);
    const std::string piece = scan.path + ", piece " + std::to_string(scan.piece);
    console.notes(read.notes, piece);
    Console::warnings(read.warnings, piece);
    tell_film(labels, negative, film);
    auto rows = labelled(read, labels.common);
    tell_flatbed_doubt(rows, read.doubt);
    return {std::move(read), std::move(rows)};
}

}  // namespace fogproof::cli
