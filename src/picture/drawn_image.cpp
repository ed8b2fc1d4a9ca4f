// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/drawn_image.hpp"

#include <algorithm>
#include <cstring>
#include <mutex>
#include <utility>
#include <vector>

#include "scan/vips_session.hpp"

namespace fogproof::picture {

struct DrawnImage::State {
    std::unique_ptr<CodeSource> source;
    PackedTable table;
    std::shared_ptr<const LocalPainter> local;
    PrintBorder border;
    std::mutex lock{};
    std::exception_ptr fault{};

    State(std::unique_ptr<CodeSource> codes, PackedTable colours, std::shared_ptr<const LocalPainter> painter,
          PrintBorder around)
        : source(std::move(codes)),
          table(std::move(colours)),
          local(std::move(painter)),
          border(std::move(around)) {}
    [[nodiscard]] int width() const { return source->width() + border.widths().across(); }
    [[nodiscard]] int height() const { return source->height() + border.widths().down(); }
    // Keeps the first.
    void failed() {
        const std::lock_guard held(lock);
        if (!fault) fault = std::current_exception();
    }
};

namespace {

// What one worker of libvips has of its own.
struct Worker {
    std::unique_ptr<CodeReader> reader;
    std::vector<std::byte> line;
};

// These run inside libvips, which is C: no exception may leave them.
template <class State>
void* begin(VipsImage*, void* held, void*) noexcept {
    State& state = **static_cast<std::shared_ptr<State>*>(held);
    try {
        return new Worker{state.source->reader(),
                          std::vector<std::byte>(std::size_t(state.width()) * state.table.pixel_bytes() +
                                                 PackedTable::kSlack)};
    } catch (...) {
        state.failed();
    }
    vips_error("scan", "%s", "cannot be read");
    return nullptr;
}

// Pixels [begin, end) of a line of the scan.
template <class State, class Code>
void draw(const State& state, const Code* codes, int line, int begin, int end, std::byte* to) {
    if (state.local) {
        state.local->draw(codes + begin, line, begin, end, to);
        return;
    }
    const std::size_t bytes = state.table.pixel_bytes();
    for_each_run(*state.source, line, begin, end, [&](int from, int until, std::size_t first_entry) {
        state.table.map(codes + from, std::size_t(until - from), first_entry,
                        to + std::size_t(from - begin) * bytes);
    });
}

template <class State>
int generate(VipsRegion* out, void* own, void* held, void*, gboolean*) noexcept {
    State& state = **static_cast<std::shared_ptr<State>*>(held);
    auto& worker = *static_cast<Worker*>(own);
    try {
        const VipsRect area = out->valid;
        const BorderWidths& border = state.border.widths();
        const std::size_t bytes = state.table.pixel_bytes();
        const int end = area.left + area.width, right = border.left + state.source->width();
        const int first = std::max(area.top - border.top, 0),
                  behind = std::min(area.top + area.height - border.top, state.source->height());
        CodeBand codes{};
        if (first < behind) codes = worker.reader->lines(first, behind - first);
        std::byte* const pixels = worker.line.data();
        const auto draw_border = [&](int line, int from, int until) {
            state.border.draw(line, from, until, state.width(), state.height(),
                              pixels + std::size_t(from - area.left) * bytes);
        };
        for (int y = area.top; y < area.top + area.height; ++y) {
            const int line = y - border.top;
            if (line < first || line >= behind) {
                draw_border(y, area.left, end);
            } else {
                const int from = std::clamp(border.left, area.left, end),
                          until = std::clamp(right, from, end);
                std::byte* const to = pixels + std::size_t(from - area.left) * bytes;
                const int begin = from - border.left, last = until - border.left;
                if (state.source->codes() == 256)
                    draw(state, codes.line<std::uint8_t>(line - first), line, begin, last, to);
                else
                    draw(state, codes.line<std::uint16_t>(line - first), line, begin, last, to);
                draw_border(y, area.left, from);
                draw_border(y, until, end);
            }
            std::memcpy(VIPS_REGION_ADDR(out, area.left, y), pixels, std::size_t(area.width) * bytes);
        }
        return 0;
    } catch (...) {
        state.failed();
    }
    vips_error("scan", "%s", "cannot be read");
    return -1;
}

int end(void* own, void*, void*) noexcept {
    delete static_cast<Worker*>(own);
    return 0;
}

template <class State>
void forget(VipsImage*, void* held) {
    delete static_cast<std::shared_ptr<State>*>(held);
}

}  // namespace

DrawnImage::DrawnImage(std::unique_ptr<CodeSource> source, PackedTable table,
                       std::shared_ptr<const LocalPainter> local, PrintBorder border)
    : state_(std::make_shared<State>(std::move(source), std::move(table), std::move(local),
                                     std::move(border))) {}

vips::VImage DrawnImage::image() const {
    vips_ready();
    const vips::VImage made(vips_image_new());
    VipsImage* output = made.get_image();
    const PackedTable& table = state_->table;
    vips_image_init_fields(output, state_->width(), state_->height(), table.channels(),
                           table.bits() == 16 ? VIPS_FORMAT_USHORT : VIPS_FORMAT_UCHAR, VIPS_CODING_NONE,
                           VIPS_INTERPRETATION_MULTIBAND, 1, 1);
    if (vips_image_pipelinev(output, VIPS_DEMAND_STYLE_THINSTRIP, nullptr) != 0) throw vips::VError();
    auto* held = new std::shared_ptr<State>(state_);
    g_signal_connect(output, "postclose", G_CALLBACK(forget<State>), held);
    if (vips_image_generate(output, begin<State>, generate<State>, end, held, nullptr) != 0)
        throw vips::VError();
    return made;
}

void DrawnImage::rethrow() const {
    if (state_->fault) std::rethrow_exception(state_->fault);
}

}  // namespace fogproof::picture
