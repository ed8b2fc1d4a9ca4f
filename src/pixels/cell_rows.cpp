// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/cell_rows.hpp"

#include <algorithm>
#include <memory>

#include "fogproof/base/error.hpp"
#include "system/threads.hpp"

namespace fogproof::pixels {
namespace {

constexpr std::size_t kRowsAtOnce = 16;

int top_of(const Cell& row) {
    return row.lead_share > 0 ? row.lead : row.begin;
}

int bottom_of(const Cell& row) {
    return row.tail_share > 0 ? row.tail + 1 : row.end;
}

// Lines as values. A line that two rows share is read once.
class KeptValues {
  public:
    KeptValues(const CodeSource& source, std::span<const std::uint16_t> values)
        : source_(source), values_(values), reader_(source.reader()), width_(std::size_t(source.width())) {}

    // From `top` to `bottom`, which never go up.
    void reach(int top, int bottom) {
        const int keep = std::max(bottom_ - top, 0);
        kept_.erase(kept_.begin(), kept_.end() - std::ptrdiff_t(std::size_t(keep) * width_));
        kept_.resize(std::size_t(bottom - top) * width_);
        top_ = top;
        for (int y = top + keep; y < bottom; ++y) {
            std::uint16_t* const to = kept_.data() + std::size_t(y - top) * width_;
            const CodeBand codes = reader_->lines(y, 1);
            if (source_.codes() == 256)
                lay_out(codes.line<std::uint8_t>(0), y, to);
            else
                lay_out(codes.line<std::uint16_t>(0), y, to);
        }
        bottom_ = bottom;
    }
    [[nodiscard]] CellRow row(const Cell& cell) const {
        CellRow row;
        const auto add = [&](int line, double share) {
            row.lines.push_back(kept_.data() + std::size_t(line - top_) * width_);
            row.shares.push_back(share);
        };
        if (cell.lead_share > 0) add(cell.lead, cell.lead_share);
        for (int line = cell.begin; line < cell.end; ++line) add(line, 1);
        if (cell.tail_share > 0) add(cell.tail, cell.tail_share);
        return row;
    }

  private:
    template <class Code>
    void lay_out(const Code* codes, int y, std::uint16_t* to) const {
        for_each_run(source_, y, 0, source_.width(), [&](int begin, int end, std::size_t first_entry) {
            for (int x = begin; x < end; ++x) to[x] = values_[first_entry + codes[x]];
        });
    }

    const CodeSource& source_;
    std::span<const std::uint16_t> values_;
    std::unique_ptr<CodeReader> reader_;
    std::size_t width_;
    std::vector<std::uint16_t> kept_;
    int top_ = 0, bottom_ = 0;
};

}  // namespace

void for_each_cell_row(const CodeSource& source, std::span<const std::uint16_t> values,
                       std::span<const Cell> rows,
                       const std::function<void(std::size_t, const CellRow&)>& act) {
    if (values.size() != source.entries())
        throw Error(Fault::internal, source.name(), "is to be read by values of other codes");
    // Parts hold whole strips, so that none is read twice.
    const auto lines = std::size_t(std::max(1, source.height() / int(rows.size())));
    const std::size_t at_once = std::max(kRowsAtOnce, std::size_t(source.lines_together()) / lines);
    const std::size_t parts = (rows.size() + at_once - 1) / at_once;
    const auto reach = [&](KeptValues& kept, std::size_t part) {
        const auto mine = rows.subspan(part * at_once, std::min(at_once, rows.size() - part * at_once));
        kept.reach(top_of(mine.front()), bottom_of(mine.back()));
        return mine;
    };
    if (source.in_order()) {
        KeptValues kept(source, values);
        for (std::size_t part = 0; part < parts; ++part) {
            const auto mine = reach(kept, part);
            in_parallel(mine.size(), [&](std::size_t i) { act(part * at_once + i, kept.row(mine[i])); });
        }
    } else {
        in_parallel(parts, [&](std::size_t part) {
            KeptValues kept(source, values);
            const auto mine = reach(kept, part);
            for (std::size_t i = 0; i < mine.size(); ++i) act(part * at_once + i, kept.row(mine[i]));
        });
    }
    source.require_unchanged();
}

}  // namespace fogproof::pixels
