// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/tiff_image.hpp"

#include <cstring>
#include <exception>

#include "pixels/line_reader.hpp"
#include "scan/vips_session.hpp"

namespace fogproof::scan {
namespace {

// These run inside libvips, which is C: no exception may leave them.
void* begin(VipsImage*, void* scan, void*) noexcept try {
    return new LineReader(*static_cast<const TiffScan*>(scan));
} catch (const std::exception& fault) {
    vips_error(kLinesComplaint, "%s%c", fault.what(), kMessageEnd);
    return nullptr;
}

int generate(VipsRegion* out, void* reader, void*, void*, gboolean*) noexcept try {
    const VipsRect area = out->valid;
    const std::size_t pixel = VIPS_IMAGE_SIZEOF_PEL(out->im), line = pixel * std::size_t(out->im->Xsize);
    const std::byte* from = static_cast<LineReader*>(reader)->lines(area.top, area.height);
    for (int y = 0; y < area.height; ++y, from += line)
        std::memcpy(VIPS_REGION_ADDR(out, area.left, area.top + y), from + pixel * std::size_t(area.left),
                    pixel * std::size_t(area.width));
    return 0;
} catch (const std::exception& fault) {
    vips_error(kLinesComplaint, "%s%c", fault.what(), kMessageEnd);
    return -1;
}

int end(void* reader, void*, void*) {
    delete static_cast<LineReader*>(reader);
    return 0;
}

void forget_scan(VipsImage*, void* scan) {
    delete static_cast<TiffScan*>(scan);
}

}  // namespace

vips::VImage tiff_image(const TiffScan& scan) {
    vips_ready();
    const TiffFacts& facts = scan.facts();
    const bool is_deep = facts.bits == 16;
    const VipsInterpretation meaning = facts.is_rgb
                                           ? (is_deep ? VIPS_INTERPRETATION_RGB16 : VIPS_INTERPRETATION_sRGB)
                                           : (is_deep ? VIPS_INTERPRETATION_GREY16 : VIPS_INTERPRETATION_B_W);
    const vips::VImage made(vips_image_new());
    VipsImage* image = made.get_image();
    vips_image_init_fields(image, facts.width, facts.height, facts.samples,
                           is_deep ? VIPS_FORMAT_USHORT : VIPS_FORMAT_UCHAR, VIPS_CODING_NONE, meaning, 1, 1);
    if (vips_image_pipelinev(image, VIPS_DEMAND_STYLE_THINSTRIP, nullptr) != 0) throw vips::VError();
    auto* kept = new TiffScan(scan);
    g_signal_connect(image, "postclose", G_CALLBACK(forget_scan), kept);
    if (vips_image_generate(image, begin, generate, end, kept, nullptr) != 0) throw vips::VError();
    return made;
}

}  // namespace fogproof::scan
