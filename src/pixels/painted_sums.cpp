// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/painted_sums.hpp"

#include <algorithm>

#include "system/threads.hpp"

namespace fogproof::pixels {
namespace {

constexpr std::size_t kLightSamples = 3;
constexpr std::size_t kRowsTogether = 8;

// How much of a line falls into a row of cells.
double share_of(const Cell& row, int line) {
    double share = line >= row.begin && line < row.end ? 1 : 0;
    if (row.lead_share > 0 && line == row.lead) share += row.lead_share;
    if (row.tail_share > 0 && line == row.tail) share += row.tail_share;
    return share;
}

int first_line(const Cell& row) {
    return row.lead_share > 0 ? row.lead : row.begin;
}

int end_line(const Cell& row) {
    return row.tail_share > 0 ? row.tail + 1 : row.end;
}

// Sums of one line over all columns.
void add_line(const std::uint16_t* samples, std::span<const Cell> columns, double* to) {
    for (const Cell& cell : columns)
        for (std::size_t c = 0; c < kLightSamples; ++c) {
            double sum = 0;
            for (int x = cell.begin; x < cell.end; ++x) sum += samples[std::size_t(x) * kLightSamples + c];
            if (cell.lead_share > 0)
                sum += cell.lead_share * samples[std::size_t(cell.lead) * kLightSamples + c];
            if (cell.tail_share > 0)
                sum += cell.tail_share * samples[std::size_t(cell.tail) * kLightSamples + c];
            *to++ = sum;
        }
}

}  // namespace

std::vector<double> painted_sums(const CodeSource& source, const LocalPainter& painter,
                                 std::span<const Cell> columns, std::span<const Cell> rows) {
    const std::size_t across = columns.size() * kLightSamples;
    std::vector<double> sums(across * rows.size());
    // A source that is read in order is read once, by one worker.
    const std::size_t together = source.in_order() ? rows.size() : kRowsTogether;
    const std::size_t parts = (rows.size() + together - 1) / together;
    in_parallel(parts, [&](std::size_t part) {
        const auto reader = source.reader();
        const std::span<const Cell> mine =
            rows.subspan(part * together, std::min(together, rows.size() - part * together));
        std::vector<std::uint16_t> line(std::size_t(source.width()) * kLightSamples + PackedTable::kSlack);
        std::vector<double> of_line(across);
        for (int y = first_line(mine.front()); y < end_line(mine.back()); ++y) {
            const CodeBand codes = reader->lines(y, 1);
            auto* const to = reinterpret_cast<std::byte*>(line.data());
            if (source.codes() == 256)
                painter.draw(codes.line<std::uint8_t>(0), y, 0, source.width(), to);
            else
                painter.draw(codes.line<std::uint16_t>(0), y, 0, source.width(), to);
            add_line(line.data(), columns, of_line.data());
            for (std::size_t row = 0; row < mine.size(); ++row)
                if (const double share = share_of(mine[row], y); share > 0)
                    for (std::size_t i = 0; i < across; ++i)
                        sums[(part * together + row) * across + i] += share * of_line[i];
        }
    });
    source.require_unchanged();
    return sums;
}

}  // namespace fogproof::pixels
