// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <system_error>
#include <vips/vips8>

#include "demo/demo.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/pack/file.hpp"
#include "reading/piece_labels.hpp"
#include "scan/vips_call.hpp"
#include "scan/vips_session.hpp"
#include "system/input_file.hpp"
#include "system/output_set.hpp"

namespace fogproof::demo {
namespace fs = std::filesystem;

namespace {

void write_negative(const DemoNegative& scan, WholeFile& file) {
    vips_ready();
    try {
        vips_error_clear();
        // libvips reads through this pointer while saving and never writes to it.
        auto* pixels = const_cast<std::uint16_t*>(scan.codes.data());
        const vips::VImage bare =
            vips::VImage::new_from_memory(pixels, scan.codes.size() * sizeof(std::uint16_t), scan.width,
                                          scan.height, 1, VIPS_FORMAT_USHORT);
        const vips::VImage image = made_by_vips([&](VipsImage** made) {
            return vips_copy(bare.get_image(), made, "interpretation", VIPS_INTERPRETATION_GREY16, "xres",
                             scan.pixels_per_mm, "yres", scan.pixels_per_mm, nullptr);
        });
        const vips::VTarget to = vips::VTarget::new_to_descriptor(file.descriptor());
        require_done(vips_tiffsave_target(image.get_image(), to.get_target(), "resunit",
                                          VIPS_FOREIGN_TIFF_RESUNIT_CM, nullptr));
    } catch (const vips::VError& error) {
        throw cannot_be_written(file.target(), in_few_words(error.what()));
    }
}

void write_print(const DemoPrint& scan, WholeFile& file) {
    try {
        vips_error_clear();
        auto* pixels = const_cast<std::uint8_t*>(scan.codes.data());
        const vips::VImage bare = vips::VImage::new_from_memory(pixels, scan.codes.size(), scan.width,
                                                                scan.height, 1, VIPS_FORMAT_UCHAR);
        const vips::VImage image = made_by_vips([&](VipsImage** made) {
            return vips_copy(bare.get_image(), made, "interpretation", VIPS_INTERPRETATION_B_W, nullptr);
        });
        const vips::VTarget to = vips::VTarget::new_to_descriptor(file.descriptor());
        require_done(vips_jpegsave_target(image.get_image(), to.get_target(), "Q", 92, nullptr));
    } catch (const vips::VError& error) {
        throw cannot_be_written(file.target(), in_few_words(error.what()));
    }
}

}  // namespace

std::string demo_print_labels() {
    PieceLabels print;
    print.kind = PieceRequest::Kind::print;
    print.negative = "negative.tif";
    print.halves = true;
    Reading& row = print.strip.common;
    row.strip = "print";
    row.exposure_s = kPrintExposure, row.filter = kPrintFilter;
    row.restrainer_ml_l = kPrintRestrainer, row.develop_s = kPrintDevelop;
    row.bleach_s = kPrintBleach, row.bleach_parts = true_paper().darkroom.bath.parts;
    const std::vector<std::string> comments{
        "How the print on print.jpg was made: cut in two halves, one of them bleached."};
    return labels_text({&print, 1}, comments);
}

std::string demo_story() {
    return R"(A box of paper from the attic of a mountain hut

Everything here is invented: the hut, the negative and the paper. No photograph
was taken and no pack was measured; the numbers are plausible, no more.

The story. Under the roof of a hut lay an opened box of photographic paper,
24 sheets of 18 x 24 cm, variable contrast, semi-matt, older than anyone could
tell. Two slips cut from one sheet gave the first verdict: a slip that was only
fixed reads 0.09, a slip developed without any light reads 0.42. The paper has
fogged by a third of a density; nothing printed on it will be whiter than grey,
unless the print is bleached a little afterwards.

The negative is a 35 mm frame of that hut in the snow, with highlights that a
fogged paper swallows first.

  negative.tif   the scanned frame: 16-bit grey, linear transmittance, with the
                 clear film edge, the perforations and the film holder around it
  pack.toml      the pack of paper, as far as it is known
  readings.csv   densities read off its test strips
  print.jpg      flatbed scan of a print of the negative, cut in two: the left
                 half as it was developed, the right half bleached for 40 s; the
                 slip below was only fixed
  print-labels.csv   how that print was made
  README.txt     this page

What to try:

  fogproof pack show pack.toml
  fogproof grid negative.tif --pack pack.toml -o grid.tif
  fogproof pack fit readings.csv --pack pack.toml -o measured.toml
  fogproof start negative.tif --pack measured.toml
  fogproof print negative.tif --pack pack.toml --grade 4 --bleach 100% -o print.tif

What a print teaches, without test strip, wedge or densitometer. print-labels.csv
says how the print was made; the slip is piece 3 on the picture seen.jpg:

  fogproof read print.jpg --labels print-labels.csv --known 3=fixed \
           -o prints.csv --picture seen.jpg
  fogproof pack fit prints.csv --pack pack.toml --negative negative.tif \
           -o learnt.toml
  fogproof plan negative.tif --pack learnt.toml -o sheets

The worksheet is sheets/negative.html, and sheets/negative-labels.csv says how the
print will have been made. Print it, scan it with a slip beside it, and begin again
with the first of the three commands: each print makes the next one surer.

Before you do it in real trays: keep potassium ferricyanide away from acids,
from heat and from strong sunlight, which can set free a very poisonous gas.
Wear gloves and eye protection, air the room, keep trays and food apart, label
every bottle. Follow the labels and safety data sheets of your chemicals and
your local rules, also for what may go down the drain.
)";
}

void write_demo(const fs::path& folder, double megapixels, WholeFile::Replace replace) {
    refuse_demo_size(megapixels);
    constexpr char kAllowed[] = "a folder, or a place where one can be made";
    if (folder.empty()) throw Error(Fault::cannot_create, "DIR", "a folder without a name", kAllowed);
    std::error_code fault;
    fs::create_directories(folder, fault);
    if (!is_folder(folder))
        throw Error(Fault::cannot_create, folder.string(),
                    "cannot be made a folder" + (fault ? ": " + fault.message() : std::string()), kAllowed);
    for (const char* name : kDemoFiles) WholeFile::refuse_unwritable(folder / name, replace);
    OutputSet files;
    const DemoNegative negative = demo_negative(megapixels);
    write_negative(negative, files.file(folder / "negative.tif", replace));
    write_print(demo_print(negative), files.file(folder / "print.jpg", replace));
    files.write(folder / "print-labels.csv", demo_print_labels(), replace);
    files.write(folder / "pack.toml", written(described_paper()), replace);
    files.write(folder / "readings.csv", strip_readings(), replace);
    files.write(folder / "README.txt", demo_story(), replace);
    files.place();
}

}  // namespace fogproof::demo
