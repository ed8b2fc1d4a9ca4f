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
    std::mutex lock{};
    std::exception_ptr fault{};

    State(std::unique_ptr<CodeSource> codes, PackedTable colours, std::shared_ptr<const LocalPainter> painter)
        : source(std::move(codes)), table(std::move(colours)), local(std::move(painter)) {}
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
        return new Worker{state.source->reader(), std::vector<std::byte>(std::size_t(state.source->width()) *
                                                                             state.table.pixel_bytes() +
                                                                         PackedTable::kSlack)};
    } catch (...) {
        state.failed();
    }
    vips_error("scan", "%s", "cannot be read");
    return nullptr;
}

template <class State>
void draw_local(const State& state, const CodeBand& codes, int each, const VipsRect& area, std::byte* to) {
    const int line = area.top + each, end = area.left + area.width;
    if (state.source->codes() == 256)
        state.local->draw(codes.line<std::uint8_t>(each) + area.left, line, area.left, end, to);
    else
        state.local->draw(codes.line<std::uint16_t>(each) + area.left, line, area.left, end, to);
}

template <class State>
int generate(VipsRegion* out, void* own, void* held, void*, gboolean*) noexcept {
    State& state = **static_cast<std::shared_ptr<State>*>(held);
    auto& worker = *static_cast<Worker*>(own);
    try {
        const VipsRect area = out->valid;
        const CodeBand codes = worker.reader->lines(area.top, area.height);
        const std::size_t bytes = state.table.pixel_bytes();
        for (int each = 0; each < area.height; ++each) {
            if (state.local)
                draw_local(state, codes, each, area, worker.line.data());
            else
                for_each_run(
                    *state.source, area.top + each, area.left, area.left + area.width,
                    [&](int begin, int end, std::size_t first_entry) {
                        const auto pixels = std::size_t(end - begin);
                        std::byte* const to = worker.line.data() + std::size_t(begin - area.left) * bytes;
                        if (state.source->codes() == 256)
                            state.table.map(codes.line<std::uint8_t>(each) + begin, pixels, first_entry, to);
                        else
                            state.table.map(codes.line<std::uint16_t>(each) + begin, pixels, first_entry, to);
                    });
            std::memcpy(VIPS_REGION_ADDR(out, area.left, area.top + each), worker.line.data(),
                        std::size_t(area.width) * bytes);
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
                       std::shared_ptr<const LocalPainter> local)
    : state_(std::make_shared<State>(std::move(source), std::move(table), std::move(local))) {}

vips::VImage DrawnImage::image() const {
    vips_ready();
    const vips::VImage made(vips_image_new());
    VipsImage* output = made.get_image();
    const PackedTable& table = state_->table;
    vips_image_init_fields(output, state_->source->width(), state_->source->height(), table.channels(),
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
