// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Scans of plain ramps, written and opened.
#pragma once

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <lcms2.h>
#include <fstream>
#include <numeric>

#include "fogproof/base/error.hpp"
#include "scan/scan.hpp"
#include "support/film_scan.hpp"
#include "support/rooms.hpp"
#include "support/scan_codes.hpp"
#include "system/whole_file.hpp"

namespace fogproof::tests {

using testing::AllOf;
using testing::Contains;
using testing::HasSubstr;
using vips::VImage;

inline constexpr double kClosedForm = 1e-9;  // densities computed in double on both sides
constexpr double kLogStep = 5e-5;  // half a step of the 16-bit coding in density, and single-precision light
constexpr double kProfile = 2e-5;  // Little CMS evaluates curves in single precision

inline const ScanOptions kWhole{.whole = true};

inline double density_at(const Scan& scan, int x, int y) {
    return scan.scale()[codes_of(scan)[std::size_t(y * scan.width() + x)]].value;
}

inline Scan open_whole(const std::filesystem::path& path) {
    Notes notes;
    return Scan::open(path, kWhole, notes);
}

inline double ramp16(int x, int y, int) {
    return 200 + x * 900 + y * 17;
}
inline double ramp8(int x, int y, int) {
    return 10 + x * 3 + y;
}

class ScanFiles : public testing::Test {
  protected:
    TestFolder folder;
    void write(const VImage& image, const std::string& name, vips::VOption* options = nullptr) {
        image.write_to_file((folder / name).c_str(), options);
    }
    void write_tiff16(const std::string& name, int width = 64, int height = 48,
                      vips::VOption* options = nullptr) {
        write(raster<std::uint16_t>(width, height, 1, ramp16, VIPS_INTERPRETATION_GREY16), name, options);
    }
};

/// A little-endian TIFF of one strip, 8-bit grey, with private tags that no library knows.
inline std::string tiff_with_private_tags(int width, int height) {
    std::string bytes("II*\0\x08\0\0\0", 8);
    const auto put = [&](std::uint32_t value, int size) {
        for (int i = 0; i < size; ++i) bytes += char(value >> 8 * i & 255);
    };
    const std::uint32_t data = 8 + 2 + 11 * 12 + 4;
    const std::uint32_t entries[][2] = {{256, std::uint32_t(width)},
                                        {257, std::uint32_t(height)},
                                        {258, 8},
                                        {259, 1},
                                        {262, 1},
                                        {273, data},
                                        {277, 1},
                                        {278, std::uint32_t(height)},
                                        {279, std::uint32_t(width * height)},
                                        {50001, 7},
                                        {65001, 9}};
    put(std::size(entries), 2);
    for (const auto& [tag, value] : entries) put(tag, 2), put(4, 2), put(1, 4), put(value, 4);
    put(0, 4);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) bytes += char(int(ramp8(x, y, 0)));
    return bytes;
}

inline std::vector<unsigned char> bytes_of(cmsHPROFILE profile) {
    cmsUInt32Number size = 0;
    cmsSaveProfileToMem(profile, nullptr, &size);
    std::vector<unsigned char> bytes(size);
    cmsSaveProfileToMem(profile, bytes.data(), &size);
    cmsCloseProfile(profile);
    return bytes;
}

inline VImage with_profile(const VImage& image, const std::vector<unsigned char>& icc) {
    VImage tagged = image.copy();
    tagged.set(VIPS_META_ICC_NAME, nullptr, const_cast<unsigned char*>(icc.data()), icc.size());
    return VImage(tagged).copy_memory();
}

inline std::vector<unsigned char> grey_gamma_profile(double gamma) {
    cmsToneCurve* curve = cmsBuildGamma(nullptr, gamma);
    const auto icc = bytes_of(cmsCreateGrayProfile(cmsD50_xyY(), curve));
    cmsFreeToneCurve(curve);
    return icc;
}

/// A scanner's profile with a colour table: curves of gamma 2, then a table that mixes the channels.
inline std::vector<unsigned char> table_profile() {
    const cmsHPROFILE profile = cmsCreateProfilePlaceholder(nullptr);
    cmsSetProfileVersion(profile, 4.3);
    cmsSetDeviceClass(profile, cmsSigInputClass);
    cmsSetColorSpace(profile, cmsSigRgbData);
    cmsSetPCS(profile, cmsSigXYZData);
    cmsWriteTag(profile, cmsSigMediaWhitePointTag, cmsD50_XYZ());
    cmsToneCurve* square = cmsBuildGamma(nullptr, 2.0);
    cmsToneCurve* curves[3] = {square, square, square};
    // Corners of the cube, blue running fastest; Y = 0.3 R + 0.5 G + 0.2 B, coded with 1.0 as 32768.
    std::vector<cmsUInt16Number> corners;
    for (int corner = 0; corner < 8; ++corner) {
        const double y = 0.3 * (corner >> 2) + 0.5 * (corner >> 1 & 1) + 0.2 * (corner & 1);
        for (const double white : {0.9642, 1.0, 0.8249})
            corners.push_back(cmsUInt16Number(std::lround(32768 * y * white)));
    }
    cmsPipeline* pipeline = cmsPipelineAlloc(nullptr, 3, 3);
    cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, curves));
    cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocCLut16bit(nullptr, 2, 3, 3, corners.data()));
    cmsPipelineInsertStage(pipeline, cmsAT_END, cmsStageAllocToneCurves(nullptr, 3, nullptr));
    EXPECT_TRUE(cmsWriteTag(profile, cmsSigAToB0Tag, pipeline));
    cmsPipelineFree(pipeline);
    cmsFreeToneCurve(square);
    return bytes_of(profile);
}

}  // namespace fogproof::tests
