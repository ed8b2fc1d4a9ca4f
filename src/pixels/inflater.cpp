// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/inflater.hpp"

#include <array>

#include "fogproof/base/error.hpp"

namespace fogproof::pixels {
namespace {

// TIFF 6.0, section 14: every sample is what it adds to the one before it of its channel.
template <std::size_t channels, class Sample>
void sum_up(Sample* samples, std::size_t count) {
    std::array<Sample, channels> sum{};
    for (std::size_t i = 0; i < count; i += channels)
        for (std::size_t c = 0; c < channels; ++c) samples[i + c] = sum[c] = Sample(sum[c] + samples[i + c]);
}

template <class Sample>
void sum_up_line(std::byte* line, std::size_t bytes, int channels) {
    auto* const samples = reinterpret_cast<Sample*>(line);
    const std::size_t count = bytes / sizeof(Sample);
    switch (channels) {
        case 1:
            return sum_up<1>(samples, count);
        case 2:
            return sum_up<2>(samples, count);
        case 3:
            return sum_up<3>(samples, count);
        case 4:
            return sum_up<4>(samples, count);
        default:
            throw Error(Fault::internal, "a strip", "has samples that are not known");
    }
}

std::uint16_t predictor_of(const TiffHandle& tiff) {
    return tiff.field<std::uint16_t>(TIFFTAG_PREDICTOR, 1);
}

}  // namespace

bool Inflater::takes(const TiffHandle& tiff, const TiffScan::Layout& layout) {
    const auto coding = tiff.field<std::uint16_t>(TIFFTAG_COMPRESSION, COMPRESSION_NONE);
    return (coding == COMPRESSION_ADOBE_DEFLATE || coding == COMPRESSION_DEFLATE) && !layout.is_swapped &&
           (predictor_of(tiff) == 1 || predictor_of(tiff) == 2);
}

Inflater::Inflater(const TiffHandle& tiff, const TiffScan::Layout& layout)
    : layout_(layout),
      has_differences_(predictor_of(tiff) == 2),
      decompressor_(libdeflate_alloc_decompressor()) {
    if (!decompressor_) throw Error(Fault::unavailable, "libdeflate", "has no memory");
}

bool Inflater::unit(const TiffHandle& tiff, std::uint32_t number, std::byte* to, std::size_t bytes,
                    std::size_t line_bytes) {
    int fault = 0;
    const std::uint64_t stated = TIFFGetStrileByteCountWithErr(tiff.get(), number, &fault);
    // What is longer than the pixels and some was not deflated to be short.
    if (fault != 0 || stated > bytes + bytes / 2 + 1024) return false;
    packed_.resize(stated);
    const tmsize_t size = layout_.is_tiled
                              ? TIFFReadRawTile(tiff.get(), number, packed_.data(), tmsize_t(stated))
                              : TIFFReadRawStrip(tiff.get(), number, packed_.data(), tmsize_t(stated));
    if (size != tmsize_t(stated) || libdeflate_zlib_decompress(decompressor_.get(), packed_.data(), stated,
                                                               to, bytes, nullptr) != LIBDEFLATE_SUCCESS)
        return false;
    for (std::size_t line = 0; has_differences_ && line < bytes; line += line_bytes) {
        if (layout_.facts.bits == 16)
            sum_up_line<std::uint16_t>(to + line, line_bytes, layout_.facts.samples);
        else
            sum_up_line<std::uint8_t>(to + line, line_bytes, layout_.facts.samples);
    }
    return true;
}

}  // namespace fogproof::pixels
