// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <system_error>
#include <vips/vips8>

#include "demo/demo.hpp"
#include "demo/paper.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/pack/file.hpp"
#include "scan/vips_session.hpp"
#include "system/input_file.hpp"
#include "system/output_set.hpp"

namespace fogproof::demo {
namespace fs = std::filesystem;

void write_demo_negative(const DemoNegative& scan, WholeFile& file) {
    vips_ready();
    try {
        vips_error_clear();
        // libvips reads through this pointer while saving and never writes to it.
        auto* pixels = const_cast<std::uint16_t*>(scan.codes.data());
        const vips::VImage image =
            vips::VImage::new_from_memory(pixels, scan.codes.size() * sizeof(std::uint16_t), scan.width,
                                          scan.height, 1, VIPS_FORMAT_USHORT)
                .copy(vips::VImage::option()
                          ->set("interpretation", VIPS_INTERPRETATION_GREY16)
                          ->set("xres", scan.pixels_per_mm)
                          ->set("yres", scan.pixels_per_mm));
        image.tiffsave_target(vips::VTarget::new_to_descriptor(file.descriptor()),
                              vips::VImage::option()->set("resunit", VIPS_FOREIGN_TIFF_RESUNIT_CM));
    } catch (const vips::VError& error) {
        throw cannot_be_written(file.target(), in_few_words(error.what()));
    }
}

void write_demo(const fs::path& folder, double megapixels, WholeFile::Replace replace) {
    refuse_demo_size(megapixels);
    std::error_code fault;
    fs::create_directories(folder, fault);
    if (!is_folder(folder))
        throw Error(Fault::cannot_create, folder.string(),
                    "cannot be made a folder" + (fault ? ": " + fault.message() : std::string()),
                    "an existing folder, or a new one in an existing folder");
    for (const char* name : {"negative.tif", "pack.toml", "readings.csv", "README.txt"})
        WholeFile::refuse_unwritable(folder / name, replace);
    OutputSet files;
    write_demo_negative(demo_negative(megapixels), files.file(folder / "negative.tif", replace));
    files.write(folder / "pack.toml", written(demo::described_paper()), replace);
    files.write(folder / "readings.csv", demo::strip_readings(), replace);
    files.write(folder / "README.txt", demo_story(), replace);
    files.place();
}

}  // namespace fogproof::demo
