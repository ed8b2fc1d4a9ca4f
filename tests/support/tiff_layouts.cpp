// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "support/tiff_layouts.hpp"

#include <cstring>
#include <fstream>
#include <iterator>
#include <stdexcept>

namespace fogproof::tests {

void write_tiff(const std::filesystem::path& path, const TiffForm& form, int width, int height,
                const SampleLaw& law) {
    const std::string mode = std::string("w") + (form.big_endian ? "b" : "l") + (form.big_tiff ? "8" : "");
    TIFF* const tiff = TIFFOpen(path.c_str(), mode.c_str());
    if (tiff == nullptr) throw std::runtime_error("no TIFF");
    const std::uint16_t meaning = form.samples >= 3 ? PHOTOMETRIC_RGB
                                  : form.white_low  ? PHOTOMETRIC_MINISWHITE
                                                    : PHOTOMETRIC_MINISBLACK;
    TIFFSetField(tiff, TIFFTAG_IMAGEWIDTH, std::uint32_t(width));
    TIFFSetField(tiff, TIFFTAG_IMAGELENGTH, std::uint32_t(height));
    TIFFSetField(tiff, TIFFTAG_BITSPERSAMPLE, std::uint16_t(form.bits));
    TIFFSetField(tiff, TIFFTAG_SAMPLESPERPIXEL, std::uint16_t(form.samples));
    TIFFSetField(tiff, TIFFTAG_PHOTOMETRIC, meaning);
    TIFFSetField(tiff, TIFFTAG_PLANARCONFIG, std::uint16_t(PLANARCONFIG_CONTIG));
    TIFFSetField(tiff, TIFFTAG_COMPRESSION, form.coding);
    if (form.predictor != 1) TIFFSetField(tiff, TIFFTAG_PREDICTOR, std::uint16_t(form.predictor));
    TIFFSetField(tiff, TIFFTAG_XRESOLUTION, 2400.0f);
    TIFFSetField(tiff, TIFFTAG_YRESOLUTION, 1200.0f);
    TIFFSetField(tiff, TIFFTAG_RESOLUTIONUNIT, std::uint16_t(RESUNIT_INCH));
    if (form.samples == 2 || form.samples == 4) {
        const std::uint16_t extra = EXTRASAMPLE_UNASSALPHA;
        TIFFSetField(tiff, TIFFTAG_EXTRASAMPLES, std::uint16_t(1), &extra);
    }
    const int unit_width = form.tiled ? 2 * form.unit : width,
              unit_height = form.tiled ? 2 * form.unit : form.unit;
    if (form.tiled) {
        TIFFSetField(tiff, TIFFTAG_TILEWIDTH, std::uint32_t(unit_width));
        TIFFSetField(tiff, TIFFTAG_TILELENGTH, std::uint32_t(unit_height));
    } else {
        TIFFSetField(tiff, TIFFTAG_ROWSPERSTRIP, std::uint32_t(unit_height));
    }
    std::uint32_t unit = 0;
    for (int top = 0; top < height; top += unit_height)
        for (int left = 0; left < width; left += unit_width, ++unit) {
            const int lines = form.tiled ? unit_height : std::min(unit_height, height - top);
            std::vector<std::uint8_t> bytes;
            for (int y = top; y < top + lines; ++y)
                for (int x = left; x < left + unit_width; ++x)
                    for (int sample = 0; sample < form.samples; ++sample) {
                        unsigned value = law(std::min(x, width - 1), std::min(y, height - 1), sample);
                        if (form.white_low) value = ~value;
                        const auto wide = std::uint16_t(value);
                        const auto* first = reinterpret_cast<const std::uint8_t*>(&wide);
                        if (form.bits == 16)
                            bytes.insert(bytes.end(), first, first + 2);
                        else
                            bytes.push_back(std::uint8_t(value));
                    }
            const auto size = tmsize_t(bytes.size());
            const auto put = form.tiled ? TIFFWriteEncodedTile(tiff, unit, bytes.data(), size)
                                        : TIFFWriteEncodedStrip(tiff, unit, bytes.data(), size);
            if (put != size) throw std::runtime_error("libtiff cannot write");
        }
    TIFFClose(tiff);
}

LastStripAtEnd::LastStripAtEnd(const std::filesystem::path& path) {
    std::ifstream file(path, std::ios::binary);
    bytes_.assign(std::istreambuf_iterator<char>(file), {});
    big_endian_ = bytes_[0] == 'M';
    big_ = number(2, 2) == 43;
    const std::size_t directory = number(big_ ? 8 : 4, big_ ? 8 : 4), head = big_ ? 8 : 2,
                      each = big_ ? 20 : 12;
    for (std::size_t i = 0; i < number(directory, head); ++i) {
        const std::size_t entry = directory + head + i * each;
        const auto tag = number(entry, 2);
        if (tag == TIFFTAG_STRIPOFFSETS || tag == TIFFTAG_TILEOFFSETS) offsets_ = last_of(entry);
        if (tag == TIFFTAG_STRIPBYTECOUNTS || tag == TIFFTAG_TILEBYTECOUNTS) counts_ = last_of(entry);
    }
    const std::size_t from = number(offsets_.place, offsets_.width);
    length_ = number(counts_.place, counts_.width);
    const std::string strip = bytes_.substr(from, length_);
    const std::size_t to = bytes_.size() + bytes_.size() % 2;
    bytes_.resize(to);
    bytes_ += strip;
    for (std::size_t i = 0; i < offsets_.width; ++i)
        bytes_[offsets_.place + (big_endian_ ? offsets_.width - 1 - i : i)] = char(to >> (8 * i));
}

void LastStripAtEnd::save_short_of(std::size_t bytes, const std::filesystem::path& path) const {
    save(path, bytes_.substr(0, bytes_.size() - bytes));
}

void LastStripAtEnd::save_spoilt(const std::filesystem::path& path) const {
    std::string spoilt = bytes_;
    std::fill(spoilt.end() - std::ptrdiff_t(length_ / 2), spoilt.end(), char(0xff));
    save(path, spoilt);
}

std::uint64_t LastStripAtEnd::number(std::size_t place, std::size_t width) const {
    std::uint64_t value = 0;
    for (std::size_t i = 0; i < width; ++i)
        value = value << 8 | std::uint8_t(bytes_[place + (big_endian_ ? i : width - 1 - i)]);
    return value;
}

LastStripAtEnd::Place LastStripAtEnd::last_of(std::size_t entry) const {
    const auto type = number(entry + 2, 2);
    const std::size_t width = type == TIFF_SHORT ? 2 : type == TIFF_LONG8 ? 8 : 4, field = big_ ? 8 : 4;
    const std::size_t count = number(entry + 4, field), value = entry + 4 + field;
    const std::size_t first = count * width > field ? number(value, field) : value;
    return {first + (count - 1) * width, width};
}

void LastStripAtEnd::save(const std::filesystem::path& path, const std::string& bytes) {
    std::ofstream(path, std::ios::binary).write(bytes.data(), std::streamsize(bytes.size()));
}

}  // namespace fogproof::tests
