// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "support/typed_files.hpp"

#include <cmath>
#include <filesystem>
#include <limits>

namespace fogproof::tests {

void save_profiles(const Program& program) {
    const auto save = [&](cmsHPROFILE profile, const std::string& name) {
        cmsSaveProfileToFile(profile, (program / name).c_str());
        cmsCloseProfile(profile);
    };
    save(cmsCreateInkLimitingDeviceLink(cmsSigCmykData, 300), "link.icc");
    save(cmsCreateLab4Profile(nullptr), "lab.icc");
    save(cmsCreate_sRGBProfile(), "good.icc");
}

void save_masks(const Program& program, int wide, int high) {
    const auto save = [&](int width, int height, int bands, double full, VipsInterpretation meaning,
                          const std::string& name) {
        raster<std::uint8_t>(
            width, height, bands, [&](int, int y, int) { return full * (1 - double(y) / height); }, meaning)
            .write_to_file((program / name).c_str());
    };
    save(wide, high, 1, 255, VIPS_INTERPRETATION_B_W, "mask.tif");
    save(high, wide, 1, 255, VIPS_INTERPRETATION_B_W, "tall_mask.tif");
    save(wide, wide, 1, 255, VIPS_INTERPRETATION_B_W, "square_mask.png");
    save(wide, high, 1, 0, VIPS_INTERPRETATION_B_W, "black_mask.png");
    save(wide, high, 3, 255, VIPS_INTERPRETATION_sRGB, "colour_mask.png");
    save(wide, high, 2, 255, VIPS_INTERPRETATION_B_W, "alpha_mask.png");
}

void make_typed_files(const Program& program) {
    using vips::VImage;
    vips_ready();
    constexpr int kWide = 96, kHigh = 64;
    const auto save = [&](const VImage& image, const std::string& name) {
        image.write_to_file((program / name).c_str());
    };
    // Tones lean to the dense side from clear film on, as those of a negative do, so that nothing is warned
    // of.
    const auto slope = [](int x, int y, int) {
        return 65535 * std::pow(10.0, -(0.01 + 1.3 * std::sqrt(double(x) / kWide * (0.5 + 0.5 * y / kHigh))));
    };
    const auto scan = raster<std::uint16_t>(kWide, kHigh, 1, slope, VIPS_INTERPRETATION_GREY16);
    for (const char* folder : {"folder", "twin"}) std::filesystem::create_directory(program / folder);
    for (const char* name : {"scan.tif", "other.tif", "twin/scan.tif", "whole.png"}) save(scan, name);
    save(raster<std::uint16_t>(
             kWide, kHigh, 1, [](int, int, int) { return 30000.0; }, VIPS_INTERPRETATION_GREY16),
         "even.tif");
    save(scan.crop(0, 0, 4, 4), "tiny.tif");
    // As if next to no light had come through: densities from 3.4 on.
    save((scan.copy_memory() / 2500.0).cast(VIPS_FORMAT_USHORT), "dark.tif");
    save(raster<float>(
             kWide, kHigh, 1,
             [&](int x, int y, int band) {
                 return x == 50 && y == 30 ? std::numeric_limits<double>::quiet_NaN()
                                           : slope(x, y, band) / 65535;
             },
             VIPS_INTERPRETATION_B_W),
         "nan.tif");
    for (const auto& [whole, cut] :
         {std::pair{"scan.tif", "truncated.tif"}, {"whole.png", "truncated.png"}}) {
        const std::string bytes = content_of(program / whole);
        program.write(cut, bytes.substr(0, bytes.size() * 2 / 3));
    }
    program.write("text.tif", "not a picture\n");
    program.write("empty.tif", "");
    for (const char* name : {"there.tif", "there.toml", "there.png.json"}) program.write(name, "kept");

    const std::string head = "fogproof_pack = 1\n", slips = head + "[paper]\nwhite = 0.08\n";
    program.write("unanchored.toml", slips + "[fog]\nblank = 0.35\n");
    program.write("pack.toml", slips + "[fog]\nblank = 0.35\n[anchor]\nknown = true\n");
    program.write("fresh.toml", slips + "[fog]\nblank = 0.08\n[anchor]\nknown = true\n");
    program.write("graded.toml", slips + "contrast = \"graded\"\niso_range = 87\n[fog]\nblank = 0.35\n");
    program.write("broken.toml", head + "name = \n");
    program.write("strange_key.toml", head + "[paper]\nwhitte = 0.1\n");
    program.write("strange_section.toml", head + "[papre]\nwhite = 0.1\n");
    program.write("wrong_type.toml", head + "[paper]\nwhite = \"clear\"\n");
    program.write("out_of_range.toml", head + "[paper]\nwhite = 9\n");
    program.write("contradiction.toml", head + "[paper]\nwhite = 0.4\n[fog]\nblank = 0.1\n");
    program.write("strange_recipe.toml", "fogproof_recipe = 1\n[bleach]\ntmie_s = 40\n");
    program.write("readings.csv",
                  "strip,wedge_density,exposure_s,filter,restrainer_ml_l,develop_s,bleach_s,bleach_parts,"
                  "redevelop_s,density\nwhite,,0,,,0,,,,0.08\nblank,,0,2,,90,,,,0.35\n");
    program.write("instrument.txt",
                  "ISO28178\nNUMBER_OF_FIELDS 2\nBEGIN_DATA_FORMAT\nSAMPLE_ID D_VIS\nEND_DATA_FORMAT\n"
                  "NUMBER_OF_SETS 2\nBEGIN_DATA\n1 0.10\n2 1.50\nEND_DATA\n");
    program.write("recipe.toml", "fogproof_recipe = 1\n[bleach]\ntime_s = 40\n");
    save_profiles(program);
    StripScan drawn{.width = 600, .height = 250, .lid = 0.06};
    drawn.dust = 0, drawn.noise = 0.002, drawn.seed = 5;
    DrawnStrip strip;
    strip.x = 300, strip.y = 110, strip.length = 500, strip.width = 80;
    strip.densities = printed_wedge(7, 0.3, 0.12, 1.8, 2.0, 1.0);
    drawn.strips = {strip};
    drawn.patches = {{{20, 190, 120, 50}, 0.09}};
    save(drawn.linear(), "strip.tif");
    save(raster<std::uint8_t>(
             kWide, kHigh, 1, [&](int x, int y, int band) { return slope(x, y, band) / 257; },
             VIPS_INTERPRETATION_B_W),
         "scan.jpg");
    save(raster<std::uint8_t>(
             kWide, kHigh, 4, [&](int x, int y, int band) { return slope(x, y, band) / 257; },
             VIPS_INTERPRETATION_CMYK),
         "cmyk.tif");
    save_masks(program, kWide, kHigh);
    save(scan.copy_memory().cast(VIPS_FORMAT_DOUBLE), "double.tif");
    save(scan.copy_memory().cast(VIPS_FORMAT_SHORT), "signed.tif");
    save((scan.copy_memory() / 65535.0).cast(VIPS_FORMAT_FLOAT) * -1000 + 1e7, "bright.tif");
}

}  // namespace fogproof::tests
