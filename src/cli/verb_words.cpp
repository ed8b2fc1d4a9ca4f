// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/verb_words.hpp"

#include <algorithm>
#include <string>

namespace fogproof::cli {
namespace {

constexpr Example kProgramExamples[] = {
    {"fogproof demo .", "write the invented scenario that all examples work on"},
    {"fogproof grid negative.tif --pack pack.toml -o grid.png", "see it over grades and bleach times"},
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
     "at full size, cleared; the exposure is sought"},
    {"fogproof print negative.tif --pack pack.toml --exposure +1/3 --size 1200 -o small.jpg",
     "a third of a stop more, small"},
};
constexpr Example kStartExamples[] = {
    {"fogproof start negative.tif --pack pack.toml --recipe-out best.toml",
     "the best recipe, kept for print --recipe"},
    {"fogproof start negative.tif --pack pack.toml --restrainer 10 --develop 2min --strip strip.png",
     "two things decided, and the test strip drawn as it will come out"},
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
    {"fogproof pack check shelf.toml", "after an edit by hand"},
};
constexpr Example kPackFitExamples[] = {
    {"fogproof pack fit readings.csv --pack pack.toml -o measured.toml",
     "strips that were read teach the pack"},
    {"fogproof pack fit prints.csv --pack pack.toml --negative negative.tif -o learnt.toml",
     "so does a print; told is what this negative gains"},
};
constexpr Example kPackShowExamples[] = {
    {"fogproof pack show pack.toml", "a verdict, whites, contrast, what to measure next"},
    {"fogproof pack show measured.toml --at grade=2,bleach=40s --curves curves.svg",
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
     "Scans are TIFF, PNG or JPEG; 8 or 16 bit or float, grey or colour. What the file says of its codes is "
     "believed "
     "in this order: --encoding, a PNG's cICP chunk, an embedded profile, the chunks sRGB and gAMA or TIFF's "
     "TransferFunction, the EXIF colour space. Else 16-bit counts as linear and 8-bit as sRGB. The frame is "
     "found and "
     "its clear edge taken as base + fog. Every guess is printed, and an option replaces it.\n\n"
     "Warnings come for a scan that looks gamma-coded, inverted, positive, orange-masked, stretched or "
     "cropped without "
     "base + fog, and for amounts that are hardly meant. Each says what it would do to the print and the "
     "option that "
     "settles it. They stand in JSON, on sheets and pages too, and --quiet keeps them.\n\n"
     "Times are written as 90, 90s, 1:30 or 2min, lengths as 240x300 (mm), 24x30cm or 8x10in, dilutions as "
     "1+50, stops "
     "as +1 or +1/3. A number takes a point; the comma parts two values.",
     kProgramExamples},
    {"demo", "Everything in the scenario is invented: the hut, the negative, the paper and its readings.",
     kDemoExamples},
    {"grid",
     "Every cell is a print on its own border. The border was developed and bleached with the print but "
     "never exposed, "
     "for that is where fog shows. The slip beside it is the same paper only fixed. The words under it name "
     "filter, "
     "exposure, bleach, densities, the ISO range of the finished curve and the tones that are lost. They "
     "also say how "
     "far the print is from what this paper would have given before it fogged.",
     kGridExamples},
    {"print",
     "Prints come at full size in 16 or 8 bit as TIFF, PNG or JPEG, in sRGB, Display P3, grey or any ICC "
     "file of RGB "
     "or grey. Recipe and the pack's numbers are kept in the XMP, so a print is its own recipe. --verify "
     "reads the "
     "picture back before it takes its name.\n\n"
     "--toner sulphide or thiourea makes sepia of the silver that the bleach took, its fog as well: all of "
     "it "
     "after a long bleach, the lights alone after a short one. --toner selenium works on silver that was not "
     "bleached. Their colours are judgement until the pack holds a measured patch ([sulphide] patch_l, "
     "patch_a, patch_b).\n\n"
     "Where a pack is fogged from the edges in, print, grid, start and plan lay the picture on its sheet "
     "(--sheet, --margin, --turn-sheet; print --border sheet shows all of it), and start says which margin "
     "to trim and whether to turn the sheet.\n\n"
     "Many negatives are taken by name or --list FILE, several at once (--jobs, --memory). A bad one stops "
     "no other "
     "and is named at the end. --shard 3/8 does the third of eight parts. Whole archives go that way, as "
     "examples/archive-parallel.sh shows. Meanwhile coded scans are kept "
     "decoded in a "
     "nameless file under $TMPDIR, if it has room. Whatever ends a run, Ctrl-C included, leaves whole files "
     "only, and "
     "no output is ever one of the inputs. Files that belong together appear all or none; a message names "
     "what is "
     "missing should that fail.",
     kPrintExamples},
    {"start",
     "In brackets stands what the pack leaves open, 95 % of it. The recipe is the one whose print is "
     "expected closest "
     "over all papers that this pack may be, so it stays near what was measured unless leaving pays. A table "
     "with the "
     "best at each grade and the best without bleach follows. --grade, --restrainer, --develop and --bleach "
     "keep what you decided, --toner too. What reading one more strip, print or wedge "
     "would save "
     "on this negative is told as well. print, grid and plan give the same recipe the same seconds.\n\n"
     "Wanted is what this paper would have given before it fogged; each print is exposed as an eye sees it "
     "that adapts "
     "to its own white. --place 0.09@95% puts a tone at a density above white instead, --match FILE wants "
     "the tones of "
     "another print, --fresh 3.5 wants fresh paper of that grade, also of one that the pack has no filter "
     "for. --mind "
     "80%-100% counts what matters most. --ladder FILE draws the print pulled too early to too late; "
     "--rescue 140s "
     "says what redevelopment brings back of one left in too long. The ladder runs from half to double the "
     "told time unless --rungs says otherwise, and shows the told print large beside that of fresh paper. "
     "--strip FILE draws the test strip as it will come out. --seen 3 then takes the third band of the real "
     "strip as the one that looks right: it moves the exposure, and --readings-out keeps it as a reading. "
     "Local work of --local-work is counted in "
     "all seconds that are told. --local seeks the one burn or dodge that would gain most, says how much, "
     "and --recipe-out then writes its recipe and its mask.\n\n"
     "Seconds need an [anchor] in the pack's file or --black-time 8s@2; without one, answers are in stops. "
     "They count "
     "from what lay in the carrier when they were measured: nothing, clear film, or film of a known density. "
     "--carrier "
     "says it; unsaid, it was clear film, and a note says so. A flash without the negative is light through "
     "an empty "
     "carrier.",
     kStartExamples},
    {"plan",
     "Each negative gets a worksheet to print and tick, the labels of its print and its proofs as a page "
     "with the "
     "recommended print marked. session.html is for all of them: what to mix, in what order to expose and to "
     "bleach, "
     "which prints share a time (--alike), when the bath is spent.",
     kPlanExamples},
    {"pack", "A pack is one box of paper, its numbers kept in one file with where each of them comes from.",
     kPackExamples},
    {"pack new",
     "Cut two slips from a sheet in the dark. Fix one without developing it. Develop the other as usual, "
     "without "
     "exposing it. Read both with a densitometer, or lay them on a flatbed for read.",
     kPackNewExamples},
    {"pack check", "A file that is valid hangs together: no number contradicts another.", kPackCheckExamples},
    {"pack fit",
     "Readings are a CSV file, one patch a row, only density required; instruments' CGATS files (ISO 28178) "
     "come in "
     "by read. Where strips were read, the fit follows them; far from there it falls back on the laws, and "
     "its bands "
     "open. Every number is called measured, partly measured or assumed by how far the readings narrowed it. "
     "If one "
     "strip disagrees with the rest, its likely correct label is suggested. Readings that were fitted before "
     "are "
     "refused.",
     kPackFitExamples},
    {"pack show",
     "The verdict comes first: what bleach does to white and black, and what prints that allows. --all lists "
     "every "
     "number of the pack. What is measured next is named, wedge, test strip or print.",
     kPackShowExamples},
    {"read",
     "A print is held against its negative: the frame is found and what each tone became is written, up to "
     "forty rows, "
     "and one for an unexposed border. Falloff of the enlarger is taken out, dust and handwork are outvoted. "
     "A print "
     "of another negative is refused.\n\n"
     "Whatever stands out from the lid is a piece with a number. --known gives a piece its density: a "
     "reading, or "
     "fixed (0.06 to 0.11), fresh-white, grey-card, each with its doubt. Strips and steps are found even "
     "when they lie "
     "askew, rows are appended, and --picture shows what was read. Clipped steps are refused by their "
     "number.\n\n"
     "A flatbed is taken as good to 0.02 in whites, and to 2 % of the density and half a percent of stray "
     "light in "
     "blacks (assumed; more for 8-bit scans). Only a second, dark known patch takes the stray light away. "
     "The doubt is "
     "written into the rows and all readings of one scan share it.",
     kReadExamples},
    {"darkroom",
     "Settings that never change go into a file: enlarger, trays, scanner, the pack in use. An option on the "
     "command "
     "line counts before them.",
     kDarkroomExamples},
    {"completion", "The script offers verbs, options and file names.", kCompletionExamples},
    {"manual", "The pages hold what --help tells, and more words on each verb.", kManualExamples},
};

constexpr VerbWords kNone{};

void show_examples_of(CLI::App& app, const std::string& verb) {
    std::string text;
    for (const Example& example : words_of_verb(verb).examples)
        text += "\n  " + std::string(example.command) + "\n      " + std::string(example.what);
    if (!text.empty()) app.footer("Examples, in a folder with the demo:" + text);
    for (CLI::App* nested : app.get_subcommands([](CLI::App*) { return true; }))
        show_examples_of(*nested, verb + (verb.empty() ? "" : " ") + nested->get_name());
}

}  // namespace

const VerbWords& words_of_verb(std::string_view verb) {
    const auto found = std::ranges::find(kWords, verb, &VerbWords::verb);
    return found == std::end(kWords) ? kNone : *found;
}

void show_examples(CLI::App& program) {
    show_examples_of(program, "");
}

}  // namespace fogproof::cli
