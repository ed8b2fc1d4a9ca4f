// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/line_reader.hpp"

#include <algorithm>
#include <bit>
#include <cstring>

#include "fogproof/base/error.hpp"
#include "pixels/tiff_layout.hpp"
#include "system/input_file.hpp"

namespace fogproof::pixels {

LineReader::LineReader(TiffScan scan) : scan_(std::move(scan)), layout_(scan_.layout()) {
    if (layout_.is_plain) {
        plain_ = opened_input(layout_.path);
        // Also where only the padding of a tile is missing: the file is not what it was.
        if (plain_.size() < layout_.end) refuse("the file ends too early");
    } else if (!coded_.emplace(layout_.path)) {
        refuse(coded_->complaint());
    } else if (Inflater::takes(*coded_, layout_)) {
        inflater_.emplace(*coded_, layout_);
    }
}

void LineReader::refuse(const std::string& why) const {
    throw Error(Fault::data, layout_.path.string(), "cannot be read to its end (" + why + ")",
                "a complete file");
}

const std::byte* LineReader::lines(int top, int count) {
    if (top < first_ || top + count > end_) {
        end_ = first_;  // nothing, should reading fail
        if (layout_.is_plain)
            read_plain(top, count);
        else
            decode(top, count);
    }
    return buffer_.data() + std::size_t(top - first_) * layout_.line_bytes();
}

void LineReader::read_plain(int top, int count) {
    buffer_.resize(std::size_t(count) * layout_.line_bytes());
    const std::size_t unit_line = std::size_t(layout_.unit_width) * layout_.pixel_bytes();
    for (int line = top; line < top + count;) {
        const int row = line / layout_.unit_height, inside = line % layout_.unit_height;
        const int lines = std::min(layout_.unit_height - inside, top + count - line);
        std::byte* const to = buffer_.data() + std::size_t(line - top) * layout_.line_bytes();
        for (int column = 0; column < layout_.units_across(); ++column) {
            const std::uint64_t place =
                layout_
                    .offsets[std::size_t(row) * std::size_t(layout_.units_across()) + std::size_t(column)] +
                std::uint64_t(inside) * unit_line;
            const std::size_t bytes = std::size_t(lines) * unit_line;
            if (!layout_.is_tiled) {
                if (const auto trouble = plain_.read(to, bytes, place)) refuse(*trouble);
                continue;
            }
            tile_.resize(bytes);
            if (const auto trouble = plain_.read(tile_.data(), bytes, place)) refuse(*trouble);
            const std::size_t left = std::size_t(column) * unit_line;
            const std::size_t kept = std::min(unit_line, layout_.line_bytes() - left);
            for (std::size_t each = 0; each < std::size_t(lines); ++each)
                std::memcpy(to + each * layout_.line_bytes() + left, tile_.data() + each * unit_line, kept);
        }
        line += lines;
    }
    first_ = top;
    end_ = top + count;
    settle(buffer_.data(), buffer_.size());
}

void LineReader::decode(int top, int count) {
    const int first_row = top / layout_.unit_height, last_row = (top + count - 1) / layout_.unit_height;
    const int first = first_row * layout_.unit_height;
    const int end = std::min((last_row + 1) * layout_.unit_height, layout_.facts.height);
    buffer_.resize(std::size_t(end - first) * layout_.line_bytes());
    const std::size_t row_bytes = std::size_t(layout_.unit_height) * layout_.line_bytes();
    for (std::size_t place = 0; place < buffer_.size(); place += row_bytes)
        take_row(first_row + int(place / row_bytes), buffer_.data() + place,
                 std::min(row_bytes, buffer_.size() - place));
    first_ = first;
    end_ = end;
}

void LineReader::take_row(int row, std::byte* to, std::size_t bytes) {
    const auto number = std::size_t(row);
    if (layout_.kept && layout_.kept->read(number, to, bytes)) return;
    decode_row(row, to, bytes);
    if (layout_.kept) layout_.kept->keep(number, to, bytes);
}

void LineReader::decode_row(int row, std::byte* to, std::size_t bytes) {
    const std::size_t unit_line = std::size_t(layout_.unit_width) * layout_.pixel_bytes();
    if (!layout_.is_tiled) {
        decode_unit(std::uint32_t(row), to, bytes, unit_line);
        return settle(to, bytes);
    }
    tile_.resize(std::size_t(layout_.unit_height) * unit_line);
    for (int column = 0; column < layout_.units_across(); ++column) {
        decode_unit(std::uint32_t(row * layout_.units_across() + column), tile_.data(), tile_.size(),
                    unit_line);
        const std::size_t left = std::size_t(column) * unit_line;
        const std::size_t kept = std::min(unit_line, layout_.line_bytes() - left);
        for (std::size_t each = 0; each * layout_.line_bytes() < bytes; ++each)
            std::memcpy(to + each * layout_.line_bytes() + left, tile_.data() + each * unit_line, kept);
    }
    settle(to, bytes);
}

void LineReader::decode_unit(std::uint32_t unit, std::byte* to, std::size_t bytes, std::size_t line_bytes) {
    if (inflater_ && inflater_->unit(*coded_, unit, to, bytes, line_bytes)) return;
    const auto size = tmsize_t(bytes);
    if ((layout_.is_tiled ? TIFFReadEncodedTile(coded_->get(), unit, to, size)
                          : TIFFReadEncodedStrip(coded_->get(), unit, to, size)) != size)
        refuse(coded_->complaint());
}

void LineReader::settle(std::byte* first, std::size_t bytes) const {
    const bool swap = layout_.is_plain && layout_.is_swapped;
    if (!swap && !layout_.is_white_low) return;
    if (layout_.facts.bits == 8) {
        for (std::size_t i = 0; i < bytes; ++i) first[i] = ~first[i];
        return;
    }
    auto* const samples = reinterpret_cast<std::uint16_t*>(first);
    const auto count = bytes / 2;
    const std::uint16_t flip = layout_.is_white_low ? 0xffff : 0;
    if (swap)
        for (std::size_t i = 0; i < count; ++i)
            samples[i] = std::uint16_t(((samples[i] << 8) | (samples[i] >> 8)) ^ flip);
    else
        for (std::size_t i = 0; i < count; ++i) samples[i] = std::uint16_t(samples[i] ^ flip);
}

}  // namespace fogproof::pixels
