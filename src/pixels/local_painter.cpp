// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/local_painter.hpp"

#include <algorithm>
#include <array>
#include <cstring>
#include <map>

#include "pixels/dither.hpp"

namespace fogproof::pixels {
namespace {

constexpr int kAtOnce = 256;      // pixels of a walk
constexpr int kTogether = 32;     // pixels that are looked up or walked together
constexpr int kNode = 4;          // samples of a node as it is held
constexpr int kSamples = 192;     // across a frame, to find its common places
constexpr double kCommon = 0.01;  // share of the frame

using Reach = LevelLine::Reach;

// Four numbers that a processor takes at once; GCC and Clang know them.
using Four = float __attribute__((vector_size(16)));
using FourCodes = std::int32_t __attribute__((vector_size(16)));

Four four(const float* from) {
    Four loaded;
    std::memcpy(&loaded, from, sizeof loaded);
    return loaded;
}

}  // namespace

std::vector<double> levels_of(FullMasks full, std::size_t masks) {
    std::vector<double> levels;
    for (std::size_t i = 0; i < masks; ++i) levels.push_back((full >> i & 1) != 0 ? 1 : 0);
    return levels;
}

std::vector<FullMasks> common_places(const Masks& masks, std::size_t most) {
    std::map<FullMasks, int> found;
    for (int y = 0; y < kSamples; ++y) {
        std::vector<LevelLine> lines;
        for (const LevelGrid& mask : masks) lines.emplace_back(mask, y, kSamples);
        for (int x = 0; x < kSamples; ++x) {
            FullMasks full = 0;
            bool is_place = true;
            for (std::size_t i = 0; i < lines.size() && is_place; ++i) {
                const Reach reach = lines[i].reach(x, x + 1, kSamples);
                is_place = reach != Reach::between;
                if (reach == Reach::full) full |= 1u << i;
            }
            if (is_place && full != 0) ++found[full];
        }
    }
    std::vector<std::pair<int, FullMasks>> by_count;
    for (const auto& [full, count] : found)
        if (count >= kCommon * kSamples * kSamples) by_count.emplace_back(-count, full);
    std::ranges::sort(by_count);
    std::vector<FullMasks> places;
    for (const auto& [count, full] : by_count)
        if (places.size() < most) places.push_back(full);
    return places;
}

LocalPainter::LocalPainter(std::shared_ptr<const LocalTable> table, std::shared_ptr<const Masks> masks,
                           FrameInPrint frame, Colours colours, std::vector<float> transmitted)
    : table_(std::move(table)),
      masks_(std::move(masks)),
      frame_(frame),
      places_(std::move(colours.places)),
      place_of_(std::size_t{1} << masks_->size(), -1),
      transmitted_(std::move(transmitted)) {
    place_of_[0] = 0;
    for (std::size_t i = 0; i < colours.full.size(); ++i) place_of_[colours.full[i]] = int(i) + 1;
    const auto channels = std::size_t(places_.channels());
    const float scale = places_.bits() == 16 ? 1.0f : 1.0f / 257;
    for (std::size_t i = 0; i < colours.nodes.size(); i += channels)
        for (std::size_t c = 0; c < std::size_t(kNode); ++c)
            nodes_.push_back(c < channels ? float(colours.nodes[i + c]) * scale : 0);
}

EntrySums LocalPainter::draw(const std::uint16_t* codes, int line, int begin, int end, std::byte* to) const {
    return drawn(codes, line, begin, end, to);
}

EntrySums LocalPainter::draw(const std::uint8_t* codes, int line, int begin, int end, std::byte* to) const {
    return drawn(codes, line, begin, end, to);
}

template <class Code>
EntrySums LocalPainter::drawn(const Code* codes, int line, int begin, int end, std::byte* to) const {
    const int row = std::clamp(line - frame_.top, 0, frame_.height - 1);
    std::vector<LevelLine> lines;
    for (const LevelGrid& mask : *masks_) lines.emplace_back(mask, row, frame_.height);
    // Places of parts that begin at the same pixels whoever asks for which part of the line.
    constexpr int kWalk = -1;
    const auto place_of = [&](int first, int last) {
        const auto column = [&](int x) { return std::clamp(x - frame_.left, 0, frame_.width - 1); };
        FullMasks full = 0;
        for (std::size_t i = 0; i < lines.size(); ++i) {
            const Reach reach = lines[i].reach(column(first), column(last - 1) + 1, frame_.width);
            if (reach == Reach::between) return kWalk;
            if (reach == Reach::full) full |= 1u << i;
        }
        return place_of_[full];
    };
    const std::size_t bytes = places_.pixel_bytes();
    const std::size_t table_codes = transmitted_.size();
    EntrySums sums;
    const auto draw_run = [&](int from, int until, int place) {
        std::byte* const at = to + std::size_t(from - begin) * bytes;
        if (place == kWalk) {
            sums += walked(codes + (from - begin), lines, line, from, until, at);
            return;
        }
        const std::size_t first_entry = std::size_t(place) * table_codes;
        sums += places_.map(codes + (from - begin), std::size_t(until - from), first_entry, at)
                    .moved_by(std::uint64_t{0} - first_entry);
    };
    int run = begin, place = kWalk;
    const auto go_on = [&](int from, int here) {
        if (from > run && here != place) {
            draw_run(run, from, place);
            run = from;
        }
        place = here;
    };
    for (int part = begin / kTogether * kTogether; part < end; part += kTogether) {
        const int here = place_of(part, part + kTogether), last = part + kTogether - 1;
        // Where a rim begins or ends it is told to the pixel.
        if (here == kWalk && (place_of(part, part + 1) != kWalk || place_of(last, last + 1) != kWalk))
            for (int x = std::max(part, begin); x < std::min(last + 1, end); ++x)
                go_on(x, place_of(x, x + 1));
        else
            go_on(std::max(part, begin), here);
    }
    if (run < end) draw_run(run, end, place);
    return sums;
}

// Between the nodes around each pixel, four samples at a time whether they count or not.
template <class Sample, int channels>
std::byte* LocalPainter::coloured(const Spot& spot, std::byte* to) const {
    const int shares = int(table_->shares());
    // Most of a picture is not bleached.
    const int doses = std::all_of(spot.dose, spot.dose + spot.count, [](float dose) { return dose == 0; })
                          ? 1
                          : int(table_->doses());
    for (int x = 0; x < spot.count; ++x, to += channels * sizeof(Sample)) {
        const int share = int(spot.share[x]), i = share < shares - 2 ? share : shares - 2;
        const float t = spot.share[x] - float(i);
        const float* near = nodes_.data() + std::ptrdiff_t(i) * kNode;
        Four colour;
        if (doses == 1) {
            colour = four(near) + t * (four(near + kNode) - four(near));
        } else {
            const int dose = int(spot.dose[x]), j = dose < doses - 2 ? dose : doses - 2;
            const float u = spot.dose[x] - float(j);
            near += std::ptrdiff_t(j) * shares * kNode;
            const float* const far = near + std::ptrdiff_t(shares) * kNode;
            const Four first = four(near) + t * (four(near + kNode) - four(near));
            const Four second = four(far) + t * (four(far + kNode) - four(far));
            colour = first + u * (second - first);
        }
        // May reach over the next pixel, which is stored after it.
        float up = 0.5f;
        if constexpr (sizeof(Sample) == 1) up = dither(spot.column + x, spot.line);
        const FourCodes code = __builtin_convertvector(colour + up, FourCodes);
        if constexpr (channels == 1) {
            const auto sample = Sample(code[0]);
            std::memcpy(to, &sample, sizeof sample);
        } else {
            constexpr int kBits = 8 * sizeof(Sample);
            const std::uint64_t packed = std::uint64_t(code[0]) | std::uint64_t(code[1]) << kBits |
                                         std::uint64_t(code[2]) << 2 * kBits;
            std::memcpy(to, &packed, 4 * sizeof(Sample));
        }
    }
    return to;
}

template <class Code>
EntrySums LocalPainter::walked(const Code* codes, const std::vector<LevelLine>& lines, int line, int begin,
                               int end, std::byte* to) const {
    EntrySums sums{std::uint64_t(end - begin), 0, 0};
    const auto channels = std::size_t(places_.channels());
    const std::size_t masks = lines.size();
    std::vector<float> levels(masks * kAtOnce);
    std::array<float, kAtOnce> through, share, dose;
    std::vector<const float*> rows(masks);
    for (int from = begin; from < end; from += kAtOnce) {
        const auto count = std::size_t(std::min(kAtOnce, end - from));
        const int left = from - frame_.left, right = left + int(count);
        for (std::size_t i = 0; i < masks; ++i) {
            float* const row = levels.data() + i * kAtOnce;
            const auto column = [&](int x) { return std::clamp(x, 0, frame_.width - 1); };
            const bool is_none =
                lines[i].reach(column(left), column(right - 1) + 1, frame_.width) == Reach::none;
            rows[i] = is_none ? nullptr : row;
            if (is_none) continue;
            const int inner = std::clamp(left, 0, frame_.width),
                      outer = std::clamp(right, inner, frame_.width);
            lines[i].levels(inner, outer, frame_.width, row + (inner - left));
            // Beside the frame as at its rim.
            float rim = 0;
            if (left < inner) {
                lines[i].levels(0, 1, frame_.width, &rim);
                std::fill(row, row + std::min(inner - left, int(count)), rim);
            }
            if (right > outer) {
                lines[i].levels(frame_.width - 1, frame_.width, frame_.width, &rim);
                std::fill(row + std::max(outer - left, 0), row + count, rim);
            }
        }
        for (std::size_t x = 0; x < count; ++x) {
            const std::uint64_t code = codes[x];
            through[x] = transmitted_[code];
            sums.entries += code;
            sums.squares += code * code;
        }
        codes += count;
        table_->find({through.data(), count}, rows, {{share.data(), count}, {dose.data(), count}});
        const Spot spot{share.data(), dose.data(), int(count), from, line};
        if (places_.bits() == 16)
            to = channels == 3 ? coloured<std::uint16_t, 3>(spot, to) : coloured<std::uint16_t, 1>(spot, to);
        else
            to = channels == 3 ? coloured<std::uint8_t, 3>(spot, to) : coloured<std::uint8_t, 1>(spot, to);
    }
    return sums;
}

}  // namespace fogproof::pixels
