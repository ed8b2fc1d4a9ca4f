// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/passes.hpp"

#include <algorithm>
#include <filesystem>
#include <memory>
#include <numeric>

#include "fogproof/base/error.hpp"
#include "pixels/bands.hpp"
#include "pixels/counter.hpp"
#include "system/progress.hpp"
#include "system/threads.hpp"

namespace fogproof::pixels {
namespace {

// A cell row and the weight with which a line falls into it.
struct Part {
    std::size_t row;
    double share;
};

std::vector<std::vector<Part>> parts_of_lines(std::span<const Cell> rows, int lines) {
    std::vector<std::vector<Part>> parts{std::size_t(lines)};
    for (std::size_t row = 0; row < rows.size(); ++row) {
        const Cell& cell = rows[row];
        if (cell.lead_share > 0) parts[std::size_t(cell.lead)].push_back({row, cell.lead_share});
        for (int line = cell.begin; line < cell.end; ++line) parts[std::size_t(line)].push_back({row, 1.0});
        if (cell.tail_share > 0) parts[std::size_t(cell.tail)].push_back({row, cell.tail_share});
    }
    return parts;
}

// What is summed over cells, and how the lines fall into their rows.
struct Summed {
    std::span<const double> values;
    std::span<const Cell> columns;
    std::vector<std::vector<Part>> parts;
};

// Sums over some rows of cells, from `first` on.
struct Rows {
    std::size_t first = 0;
    std::vector<double> sums;
};

// Four sums at a time, since each addition waits for the one before it.
template <class ValueAt>
double sum_of(const Cell& cell, const ValueAt& value_at) {
    double sum[4] = {0, 0, 0, 0};
    int x = cell.begin;
    for (; x + 4 <= cell.end; x += 4) {
        sum[0] += value_at(x);
        sum[1] += value_at(x + 1);
        sum[2] += value_at(x + 2);
        sum[3] += value_at(x + 3);
    }
    for (; x < cell.end; ++x) sum[0] += value_at(x);
    double all = (sum[0] + sum[1]) + (sum[2] + sum[3]);
    if (cell.lead_share > 0) all += cell.lead_share * value_at(cell.lead);
    if (cell.tail_share > 0) all += cell.tail_share * value_at(cell.tail);
    return all;
}

// All that the workers of a pass share.
struct Pass {
    const CodeSource& source;
    std::vector<int> edges;
    Counting counting;
    Histogram counts;
    std::vector<Summed> summed;
    InOrder<std::vector<Rows>> rows;  // of all that is summed
    WorkSteps steps;
};

template <class Code>
class PassWorker : public BandWorker {
  public:
    explicit PassWorker(Pass& pass)
        : pass_(pass), reader_(pass.source.reader()), counter_(pass.counts.size()) {}

    void work(std::size_t band) override try {
        const int top = pass_.edges[band], count = pass_.edges[band + 1] - top;
        const CodeBand codes = reader_->lines(top, count);
        for (int each = 0; each < count && pass_.counting == Counting::on; ++each)
            for_each_run(pass_.source, top + each, 0, pass_.source.width(),
                         [&](int begin, int end, std::size_t first_entry) {
                             counter_.count(codes.line<Code>(each) + begin, std::size_t(end - begin),
                                            first_entry);
                         });
        if (!pass_.summed.empty()) {
            std::vector<Rows> rows;
            for (const Summed& each : pass_.summed) rows.push_back(rows_of(each, codes, top, count));
            pass_.rows.hand_in(band, std::move(rows));
        }
        pass_.steps.done();
    } catch (...) {
        pass_.rows.abandon();
        throw;
    }
    void finish() override { counter_.add_to(pass_.counts); }

  private:
    [[nodiscard]] Rows rows_of(const Summed& summed, const CodeBand& codes, int top, int count) {
        Rows rows;
        line_.resize(summed.columns.size());
        const auto met = std::span(summed.parts).subspan(std::size_t(top), std::size_t(count));
        const auto first = std::ranges::find_if_not(met, &std::vector<Part>::empty);
        if (first == met.end()) return rows;
        const auto last = std::ranges::find_if_not(met.rbegin(), met.rend(), &std::vector<Part>::empty);
        rows.first = first->front().row;
        rows.sums.resize((last->back().row + 1 - rows.first) * line_.size());
        for (int each = 0; each < count; ++each) {
            const auto& parts = summed.parts[std::size_t(top + each)];
            if (parts.empty()) continue;
            sum_cells(summed, codes.line<Code>(each), top + each);
            for (const auto& [row, share] : parts) {
                const std::size_t start = (row - rows.first) * line_.size();
                for (std::size_t column = 0; column < line_.size(); ++column)
                    rows.sums[start + column] += share * line_[column];
            }
        }
        return rows;
    }

    void sum_cells(const Summed& summed, const Code* codes, int line) {
        const std::vector<PlaceRun> runs = pass_.source.runs(line);
        if (runs.size() == 1) {
            const double* const values = summed.values.data() + runs.front().place * pass_.source.codes();
            for (std::size_t column = 0; column < line_.size(); ++column)
                line_[column] = sum_of(summed.columns[column], [&](int x) { return values[codes[x]]; });
            return;
        }
        // Cells go over the borders between places, so the values of the line are laid out first.
        pixels_.resize(std::size_t(pass_.source.width()));
        for_each_run(pass_.source, line, 0, pass_.source.width(),
                     [&](int begin, int end, std::size_t first_entry) {
                         for (int x = begin; x < end; ++x)
                             pixels_[std::size_t(x)] = summed.values[first_entry + codes[x]];
                     });
        for (std::size_t column = 0; column < line_.size(); ++column)
            line_[column] = sum_of(summed.columns[column], [&](int x) { return pixels_[std::size_t(x)]; });
    }

    Pass& pass_;
    std::unique_ptr<CodeReader> reader_;
    Counter<Code> counter_;
    std::vector<double> line_;    // a sum for each column
    std::vector<double> pixels_;  // a value for each pixel of a line, where it has several places
};

// Sums are small beside the bands they were made from, so that nobody need wait long.
constexpr std::size_t kAhead = 64;

// One pass; returns the counts, if they are asked for, and adds to the sums of each.
Histogram pass_over(const CodeSource& source, std::span<const CellValues> wanted,
                    std::span<std::vector<double>> sums, Counting counting, Pace pace) {
    std::vector<Summed> summed;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        const auto& [values, columns, rows] = wanted[i];
        if (values.size() != source.entries())
            throw Error(Fault::internal, source.name(), "is to be averaged by values of other codes");
        summed.push_back({values, columns, parts_of_lines(rows, source.height())});
        sums[i].resize(columns.size() * rows.size());
    }
    const auto add = [sums, wanted](const std::vector<Rows>& parts) {
        for (std::size_t i = 0; i < parts.size(); ++i) {
            double* to = sums[i].data() + parts[i].first * wanted[i].columns.size();
            for (const double sum : parts[i].sums) *to++ += sum;
        }
    };
    std::vector<int> edges = band_edges(source, pace.band_bytes);
    const std::size_t bands = edges.size() - 1;
    Pass pass{source,
              std::move(edges),
              counting,
              Histogram(source.entries()),
              std::move(summed),
              InOrder<std::vector<Rows>>(kAhead, add),
              WorkSteps("reading " + std::filesystem::path(source.name()).filename().string(), bands)};
    work_in_bands(bands, source.in_order() ? 1 : pace.threads, [&]() -> std::unique_ptr<BandWorker> {
        if (source.codes() == 256) return std::make_unique<PassWorker<std::uint8_t>>(pass);
        return std::make_unique<PassWorker<std::uint16_t>>(pass);
    });
    source.require_unchanged();
    if (counting == Counting::off) return {};
    require_all(std::accumulate(pass.counts.begin(), pass.counts.end(), std::uint64_t{0}), source);
    return std::move(pass.counts);
}

}  // namespace

CellSums cell_sums(const CodeSource& source, std::span<const double> values, std::span<const Cell> columns,
                   std::span<const Cell> rows, Counting counting, Pace pace) {
    const CellValues wanted[] = {{values, columns, rows}};
    std::vector<double> sums[1];
    Histogram counts = pass_over(source, wanted, sums, counting, pace);
    return {std::move(*sums), std::move(counts)};
}

std::vector<std::vector<double>> cell_sums(const CodeSource& source, std::span<const CellValues> wanted,
                                           Pace pace) {
    std::vector<std::vector<double>> sums(wanted.size());
    pass_over(source, wanted, sums, Counting::off, pace);
    return sums;
}

Histogram counted(const CodeSource& source, Pace pace) {
    return pass_over(source, {}, {}, Counting::on, pace);
}

void require_all(std::uint64_t pixels, const CodeSource& source) {
    const auto area = std::uint64_t(source.width()) * std::uint64_t(source.height());
    if (pixels != area)
        throw Error(Fault::data, source.name(), "only " + std::to_string(pixels) + " pixels could be read",
                    std::to_string(area) + " as the file's header says");
}

}  // namespace fogproof::pixels
