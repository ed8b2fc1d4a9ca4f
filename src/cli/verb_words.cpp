// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/verb_words.hpp"

#include <algorithm>
#include <string>

#include "report/columns.hpp"
#include "report/reading_columns_words.hpp"

namespace fogproof::cli {
namespace {

constexpr Example kProgramExamples[] = {
    {"fogproof demo hut", "write the invented scenario into a folder; all other examples work in there"},
    {"fogproof grid hut/negative.tif --pack hut/pack.toml -o grid.png",
     "see it over grades and bleach times"},
};
constexpr Example kDemoExamples[] = {
    {"fogproof demo . --force", "into this folder, over an older demo"},
    {"fogproof demo . --megapixels 0.3 --force", "a small negative, for a quick look"},
};
constexpr Example kGridExamples[] = {
    {"fogproof grid negative.tif --pack pack.toml -o grid.png --force", "grades across, bleach times down"},
    {"fogproof grid negative.tif --pack pack.toml --across grade=1,2,3 --down bleach=0,50%,100% --html -o "
     "three.png",
     "as chosen, with a page beside the picture"},
};
constexpr Example kPrintExamples[] = {
    {"fogproof print negative.tif --pack pack.toml --grade 2 --bleach 100% -o print.tif",
     "at full size, cleared; the program finds the exposure"},
    {"fogproof print negative.tif --pack pack.toml --exposure +1/3 --size 1200 -o small.jpg",
     "a third of a stop more, small"},
};
constexpr Example kStartExamples[] = {
    {"fogproof start negative.tif --pack pack.toml --recipe-out best.toml",
     "the best recipe, kept for print --recipe"},
    {"fogproof start negative.tif --pack pack.toml --restrainer 10 --develop 2min --strip strip.png",
     "two things are decided; the test strip is drawn as it will come out"},
};
constexpr Example kPlanExamples[] = {
    {"fogproof plan negative.tif --pack pack.toml -o evening", "worksheet, proofs, labels and the session"},
    {"fogproof plan negative.tif --pack pack.toml --sheet 18x24cm --developer-parts 1+14 -o smaller",
     "for another sheet and a thinner developer"},
};
constexpr Example kPackExamples[] = {
    {"fogproof pack new --white 0.09 --blank 0.42 -o attic.toml", "from two slips"},
    {"fogproof pack show attic.toml", "is it worth printing on?"},
};
constexpr Example kPackNewExamples[] = {
    {"fogproof pack new --white 0.09 --blank 0.42 --head diffuser -o two-slips.toml",
     "a slip only fixed and one developed unexposed"},
    {"fogproof pack new --white 0.08 --blank 0.31 --graded 3 --surface matt --name \"the shelf\" -o "
     "shelf.toml",
     "graded paper"},
};
constexpr Example kPackCheckExamples[] = {
    {"fogproof pack check pack.toml", "is the file valid?"},
    {"fogproof pack new --white 0.08 --blank 0.31 --graded 3 -o edited.toml", "writes another, to be edited"},
    {"fogproof pack check edited.toml", "after an edit by hand"},
};
constexpr Example kPackFitExamples[] = {
    {"fogproof pack fit readings.csv --pack pack.toml -o measured.toml",
     "strips that were read teach the pack"},
    {"fogproof read print.jpg --labels print-labels.csv --known 3=fixed -o prints.csv",
     "makes readings of a print"},
    {"fogproof pack fit prints.csv --pack pack.toml --negative negative.tif -o learnt.toml",
     "which teach the pack too; the answer says what this negative gains"},
};
constexpr Example kPackShowExamples[] = {
    {"fogproof pack show pack.toml", "a verdict, whites, contrast, what to measure next"},
    {"fogproof pack show pack.toml --at grade=2,bleach=40s --curves curves.svg",
     "a curve drawn with its doubt"},
};
constexpr Example kReadExamples[] = {
    {"fogproof read print.jpg --labels print-labels.csv --known 3=fixed -o prints.csv --picture seen.jpg",
     "a print against its negative, a fixed slip beside it"},
    {"fogproof read print.jpg --labels-out pieces.csv --picture pieces.png",
     "what lies on the scan, to be filled in"},
};
constexpr Example kDarkroomExamples[] = {
    {"fogproof darkroom --new", "write the settings file, once"},
    {"fogproof darkroom", "show what is set"},
};
constexpr Example kCompletionExamples[] = {
    {"fogproof completion bash > fogproof.bash", "to be sourced by ~/.bashrc"},
    {"fogproof completion fish > fogproof.fish", "for ~/.config/fish/completions"},
};
constexpr Example kManualExamples[] = {
    {"fogproof manual .", "into this folder"},
    {"fogproof manual . --force", "over older pages"},
};

// Plain paragraphs. Every sentence has a row in tests/reference/promises.txt.
constexpr VerbWords kWords[] = {
    {"",
     "Scans are TIFF, PNG or JPEG files with 8 or 16 bits or floats, grey or in colour. The program "
     "believes what says how the codes stand for light in this order: --encoding, a PNG's cICP chunk, "
     "an embedded profile, the chunks sRGB and gAMA or TIFF's TransferFunction, the EXIF colour "
     "space. Without any of them, 16-bit codes count as linear and 8-bit codes as sRGB. The program "
     "finds the frame and takes the clear film around it as base + fog. A frame that lies askew by 0.2 "
     "to about 5 degrees is set upright: the program turns the scan. --keep-askew does not turn it and "
     "takes an upright rectangle inside the frame. Regions are always given in pixels of the scan as it "
     "lies. The program prints every guess, and an option replaces it.\n\n"
     "The program warns of a scan that looks gamma-coded, inverted, positive, "
     "orange-masked, stretched, or cropped without base + fog, and of a frame that seems to run into the "
     "holder. It also warns of amounts that look "
     "like a mistake. Each warning says what it does to the print and which option settles it. JSON, "
     "sheets and pages show the warnings too. --quiet shows neither notes nor guesses, but still warnings "
     "and cautions.\n\n"
     "Write times as 90, 90s, 1:30 "
     "or 2min, lengths as 240x300 (mm), 24x30cm or 8x10in, dilutions as 1+50, stops as +1 or +1/3. "
     "Write decimals with a point (2.5); a comma separates two values.",
     kProgramExamples},
    {"demo", "Everything in the scenario is invented: the hut, the negative, the paper and its readings.",
     kDemoExamples},
    {"grid",
     "Every cell is a print with its own border. The border was developed and bleached with the print "
     "but never exposed: it shows the fog. The slip beside it is the same paper, only fixed. The "
     "words below name the filter, the exposure, the bleach, the densities, the ISO range of the "
     "finished curve and the tones that are lost. They also say how far the print is from what this "
     "paper would have given before it fogged.\n\n"
     "Grades go across and bleach depths down unless --across and --down say otherwise. A grade, an "
     "exposure, a bleach or a dose that an option states holds for all cells, and the axis varies "
     "something else. The frame marks the print that is closest to fresh paper. Among prints that "
     "differ only in exposure, it goes to the one that looks closest, as start exposes it. A shorter "
     "exposure may give a smaller L* figure, but its highlights are empty.",
     kGridExamples},
    {"print",
     "Prints are written at full size with 16 or 8 bits, as TIFF, PNG or JPEG, in a profile that --profile "
     "knows or in any ICC profile of RGB or grey. The XMP of a print holds its recipe and the pack's "
     "numbers, so --recipe can read a print. A recipe tells for which magnification, f-number and light "
     "its seconds are; a warning says so where the enlarger is set otherwise. --verify reads the picture "
     "back before it takes its "
     "name.\n\n"
     "--toner sulphide or thiourea turns the silver that the bleach took into sepia, the "
     "silver of the fog too. After a long bleach all tones are toned, after a short one only the "
     "lights. --toner selenium tones silver that was not bleached. Their colours are judgement until "
     "the pack holds a measured patch ([sulphide] patch_l, patch_a, patch_b).\n\n"
     "Where a pack is "
     "fogged from the edges in, print, grid, start and plan lay the picture on its sheet (--sheet, "
     "--margin, --turn-sheet). print --border sheet shows the whole sheet. start says which margin to "
     "trim and whether to turn the sheet.\n\n"
     "Name many negatives, or list them in a file (--list "
     "FILE). The program prints several at once (--jobs, --memory). One bad negative does not stop "
     "the others; the program names it at the end. --shard 3/8 prints the third of eight parts. "
     "examples/archive-parallel.sh of the sources prints a whole archive that way. Compressed scans are kept "
     "decoded, "
     "and askew ones turned, in a nameless file under $TMPDIR while there is room. However a run "
     "ends, even by Ctrl-C, it leaves only whole files. No output is ever one of the inputs. Files that "
     "belong together appear "
     "all or none; if that fails, a message names the missing ones.",
     kPrintExamples},
    {"start",
     "Brackets hold 95 % of what the pack leaves open. The best recipe is the one whose print is "
     "expected to come closest, averaged over all papers that this pack may be. So it stays near what "
     "was measured unless leaving it gains something. A table follows with the best recipe at each "
     "grade and the best without bleach. --grade, --restrainer, --develop, --bleach and --toner keep "
     "what you have decided. start also says how much one more strip, print or wedge would gain for "
     "this negative. print, grid and plan give the same recipe the same seconds.\n\n"
     "The goal is the "
     "print that this paper would have given before it fogged. Each print is judged as by an eye that "
     "has adapted to its white. --place 0.09@95% puts a tone at a density above white instead. "
     "--match FILE aims at the tones of another print. --fresh 3.5 aims at fresh paper of that grade, "
     "even one for which the pack has no filter. --mind 80%-100% gives more weight to the tones that "
     "matter most. Local work from --local-work counts in every time that start gives. --local looks for "
     "the one burn or dodge that would gain most and says how much; --recipe-out then writes its "
     "recipe and its mask.\n\n"
     "--ladder FILE draws a row of prints, from pulled too early to pulled "
     "too late. It runs from half to double the recommended time unless --rungs says otherwise, and "
     "shows the recommended print large beside that of fresh paper. --rescue 140s says what redevelopment "
     "brings back of a print that was left in too long, and how sure its time is. --strip FILE draws the "
     "test strip as it will come "
     "out. --seen 3 then takes the third band of the real strip, developed but not yet bleached, as the "
     "one that is as dark as the same place of that picture at the recommended exposure: it moves "
     "the exposure, and --readings-out keeps it as a reading.\n\n"
     "A pack gets its seconds from readings with an exposure time (read a print or a test strip, then "
     "pack fit), from --black-time 8s@2, or from an [anchor] in its file. Without them, answers are in "
     "stops. Seconds count from what "
     "lay in the carrier when they were measured: nothing, clear film, or film of a known density. "
     "--carrier says which; without it the program takes clear film, and a note says so. A flash "
     "without the negative is light through an empty carrier.",
     kStartExamples},
    {"plan",
     "Each negative gets a worksheet to print and tick, the labels of its print, and a page of proofs "
     "with the recommended print marked. session.html is for all negatives: what to mix, in what "
     "order to expose and to bleach, which prints share a time (--alike), and when the bath is used "
     "up.",
     kPlanExamples},
    {"pack", "A pack is one box of paper. Its file keeps its numbers, and where each of them comes from.",
     kPackExamples},
    {"pack new",
     "Cut two slips from a sheet in the dark. Fix one without developing it. Develop the other as "
     "usual, without exposing it. Read both with a densitometer, or scan them on a flatbed and use "
     "read.",
     kPackNewExamples},
    {"pack check", "A pack file is valid when no number in it contradicts another.", kPackCheckExamples},
    {"pack fit",
     "Readings are a CSV file with one patch a row; only density is required. read also takes "
     "instruments' CGATS files (ISO 28178). Where strips were read, the fit follows them. Far from "
     "there it returns to the laws, and its bands widen. Every number is called measured, partly "
     "measured, given or assumed, by how far the readings narrowed it. If one strip disagrees with the rest, "
     "its likely correct label is suggested. A strip whose labels give it clearly more or less light than "
     "its densities show is named too. Readings that the pack has already learnt from are refused.",
     kPackFitExamples, true},
    {"pack show",
     "The verdict comes first: what bleach does to white and black, and which prints that allows. "
     "--all lists every number of the pack. pack show also names what to measure next: a wedge, a "
     "test strip or a print.",
     kPackShowExamples},
    {"read",
     "With --negative, read finds the negative's frame on the scan of a print. It writes what each "
     "tone became: up to forty rows, and one more for an unexposed border. It removes the falloff of "
     "the enlarger, and it leaves dust and handwork out. A print of another picture is "
     "refused. Another exposure of the same scene is refused where film grain shows it; otherwise a note "
     "asks you to make sure. Read prints before they are toned: toned silver has other densities.\n\n"
     "Whatever stands out from the lid is a piece with a number. --known gives a piece "
     "its density: a reading, or fixed (0.06 to 0.11), fresh-white or grey-card, each with its doubt. "
     "read finds strips and steps even when they lie askew. It appends rows to the readings file, and "
     "--picture shows what it read. It warns of known densities that the scan itself contradicts, and of "
     "tones that automatic levels have altered; only blacks show that. It refuses "
     "clipped steps and names their numbers. It warns of steps that look alike, and refuses a strip where "
     "they may be at either end: tell the seconds of one of them alone.\n\n"
     "A flatbed is "
     "assumed to be good to 0.02 in whites, and in blacks to 2 % of the density and half a percent of "
     "stray light (more for 8-bit scans). Only a second, dark known patch takes the stray light away. "
     "The doubt is written into the rows, and all readings of one scan share it.",
     kReadExamples},
    {"darkroom",
     "Settings that never change go into a file: enlarger, trays, scanner, the pack in use. A recipe "
     "overrides them, but not those of the enlarger; an option on the command line overrides both. Where "
     "they decide how "
     "a scan is read, a note says so.",
     kDarkroomExamples},
    {"completion", "The script completes verbs, options and file names.", kCompletionExamples},
    {"manual", "The pages hold what --help tells, and more on each verb.", kManualExamples},
};

constexpr VerbWords kNone{};

// Under --help, names beside meanings.
std::string columns_in_help() {
    std::string text = kReadingColumnsHead;
    for (const auto& [name, meaning] : reading_columns_words()) text += "\n  " + left(name, 17) + meaning;
    return text + "\n\n";
}

void show_words_of(CLI::App& app, const std::string& verb) {
    std::string text;
    for (const Example& example : words_of_verb(verb).examples)
        text += "\n  " + std::string(example.command) + "\n      " + std::string(example.what);
    if (!text.empty()) text = "Examples, in a folder with the demo:" + text;
    if (words_of_verb(verb).tells_columns) text = columns_in_help() + text;
    if (!text.empty()) app.footer(text);
    for (CLI::App* nested : app.get_subcommands([](CLI::App*) { return true; }))
        show_words_of(*nested, verb + (verb.empty() ? "" : " ") + nested->get_name());
}

}  // namespace

const VerbWords& words_of_verb(std::string_view verb) {
    const auto found = std::ranges::find(kWords, verb, &VerbWords::verb);
    return found == std::end(kWords) ? kNone : *found;
}

void show_words(CLI::App& program) {
    show_words_of(program, "");
}

}  // namespace fogproof::cli
