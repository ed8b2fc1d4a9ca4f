// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/log_coded.hpp"

#include <exception>
#include <vector>

#include "negative/density_scale.hpp"

namespace fogproof::scan {
namespace {

// Runs inside libvips, which is C: no exception may leave it.
int generate_log_codes(VipsRegion* out, void* sequence, void*, void* law, gboolean*) noexcept try {
    auto* in = static_cast<VipsRegion*>(sequence);
    const VipsRect area = out->valid;
    if (vips_region_prepare(in, &area) != 0) return -1;
    std::vector<float> light(std::size_t(area.width));
    for (int line = 0; line < area.height; ++line) {
        const int y = area.top + line;
        (*static_cast<const LineLight*>(law))(VIPS_REGION_ADDR(in, area.left, y), light);
        auto* codes = reinterpret_cast<std::uint16_t*>(VIPS_REGION_ADDR(out, area.left, y));
        for (const float each : light) *codes++ = log_code_of_light(each);
    }
    return 0;
} catch (const std::exception& fault) {
    vips_error(kSampleComplaint, "%s", fault.what());
    return -1;
}

// libvips' own beginning and end of such a sequence, whose places are not known before it is opened.
void* begin_sequence(VipsImage* out, void* image, void* law) {
    return vips_start_one(out, image, law);
}

int end_sequence(void* sequence, void* image, void* law) {
    return vips_stop_one(sequence, image, law);
}

void forget_law(VipsImage*, void* law) {
    delete static_cast<LineLight*>(law);
}

}  // namespace

vips::VImage log_coded(const vips::VImage& pixels, LineLight to_light) {
    VipsImage* input = pixels.get_image();
    const vips::VImage made(vips_image_new());
    VipsImage* output = made.get_image();
    if (vips_image_pipelinev(output, VIPS_DEMAND_STYLE_THINSTRIP, input, nullptr) != 0) throw vips::VError();
    output->Bands = 1;
    output->BandFmt = VIPS_FORMAT_USHORT;
    output->Type = VIPS_INTERPRETATION_GREY16;
    // The output may outlive the handle it was made from.
    g_object_ref(input);
    g_object_set_data_full(G_OBJECT(output), "fogproof-input", input, g_object_unref);
    auto* law = new LineLight(std::move(to_light));
    g_signal_connect(output, "postclose", G_CALLBACK(forget_law), law);
    if (vips_image_generate(output, begin_sequence, generate_log_codes, end_sequence, input, law) != 0)
        throw vips::VError();
    return made;
}

}  // namespace fogproof::scan
