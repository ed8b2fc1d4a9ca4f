// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/turned_codes.hpp"

#include <sys/mman.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <filesystem>
#include <limits>
#include <numbers>
#include <utility>
#include <vector>

#include "fogproof/base/error.hpp"
#include "system/memory.hpp"
#include "system/progress.hpp"
#include "system/scratch_file.hpp"
#include "system/threads.hpp"

namespace fogproof::pixels {
namespace {

constexpr int kBandLines = 256;    // turned lines that a worker makes at a time
constexpr int kBlock = 512;        // columns made one below the other, whose pixels stay at hand
constexpr int kSubPixels = 1024;   // steps in which places between pixels are told apart
constexpr double kSteepest = 0.1;  // that memory is reckoned for: lines of the scan to a column

// Four numbers that the processor works on at once; GCC and Clang know them so.
using Weights = float __attribute__((vector_size(4 * sizeof(float))));
using PixelInts = int __attribute__((vector_size(4 * sizeof(int))));
template <class Code>
struct PixelCodes {
    typedef Code Type __attribute__((vector_size(4 * sizeof(Code))));
};

// Keys, "Cubic convolution interpolation for digital image processing", IEEE Trans. ASSP 29 (1981), eq. 15:
// of the pixels at -1, 0, 1 and 2 for a place s beyond pixel 0.
Weights cubic_weights(double s) {
    return Weights{float(((-0.5 * s + 1) * s - 0.5) * s), float((1.5 * s - 2.5) * s * s + 1),
                   float(((-1.5 * s + 2) * s + 0.5) * s), float((0.5 * s - 0.5) * s * s)};
}

const std::vector<Weights>& weights() {
    static const std::vector<Weights> made = [] {
        std::vector<Weights> each;
        for (int step = 0; step <= kSubPixels; ++step)
            each.push_back(cubic_weights(double(step) / kSubPixels));
        return each;
    }();
    return made;
}

// Without a call for every pixel; scans and what lies beyond them are far smaller than the shift.
int floor_of(double place) {
    constexpr int kShift = 1 << 28;
    return int(place + kShift) - kShift;
}

FileDescriptor room_for(std::uint64_t bytes, const std::string& name) {
    if (auto scratch = scratch_file(bytes)) return std::move(*scratch);
    require_memory(bytes, name);
    FileDescriptor memory(::memfd_create("fogproof", MFD_CLOEXEC));
    if (!memory.is_open())
        throw Error(Fault::unavailable, name, "cannot be turned: neither disk nor memory has room for it",
                    "room in the folder $TMPDIR or else /var/tmp");
    return memory;
}

// The lines of the scan that a band of turned ones is made of. They are asked for from top to bottom, each
// once as long as the bands follow each other.
template <class Code>
class LineWindow {
  public:
    explicit LineWindow(const CodeSource& source)
        : width_(std::size_t(source.width())), reader_(source.reader()) {}

    void hold(int first, int end) {
        if (first < first_ || first > end_) {
            lines_.clear();
            first_ = end_ = first;
        }
        lines_.erase(lines_.begin(), lines_.begin() + std::ptrdiff_t(std::size_t(first - first_) * width_));
        first_ = first;
        constexpr int kAtOnce = 64;
        while (end_ < end) {
            const int count = std::min(kAtOnce, end - end_);
            const CodeBand band = reader_->lines(end_, count);
            for (int i = 0; i < count; ++i)
                lines_.insert(lines_.end(), band.line<Code>(i), band.line<Code>(i) + width_);
            end_ += count;
        }
    }
    [[nodiscard]] const Code* line(int y) const { return lines_.data() + std::size_t(y - first_) * width_; }

  private:
    std::size_t width_;
    std::unique_ptr<CodeReader> reader_;
    int first_ = 0, end_ = 0;
    std::vector<Code> lines_;
};

template <class Code>
class TurningWorker : public BandWorker {
  public:
    TurningWorker(const CodeSource& source, const Turning& turning, const FileDescriptor& file,
                  WorkSteps& steps)
        : source_(source), turning_(turning), file_(file), steps_(steps), window_(source) {}

    void work(std::size_t band) override {
        const int top = int(band) * kBandLines, end = std::min(turning_.height(), top + kBandLines);
        hold_lines_for(top, end);
        const auto width = std::size_t(turning_.width());
        made_.resize(width * std::size_t(end - top));
        for (int left = 0; left < turning_.width(); left += kBlock)
            for (int y = top; y < end; ++y)
                make_line(y, left, std::min(left + kBlock, turning_.width()),
                          made_.data() + std::size_t(y - top) * width);
        if (const auto trouble =
                file_.write(reinterpret_cast<const std::byte*>(made_.data()), made_.size() * sizeof(Code),
                            std::uint64_t(top) * width * sizeof(Code)))
            throw Error(Fault::io, source_.name(), "cannot be turned: " + *trouble,
                        "room in the folder $TMPDIR or else /var/tmp");
        steps_.done();
    }

  private:
    [[nodiscard]] int inside(double line) const {
        return int(std::clamp(line, 0.0, double(source_.height() - 1)));
    }

    void hold_lines_for(int top, int end) {
        double least = std::numeric_limits<double>::max(), most = std::numeric_limits<double>::lowest();
        for (const int x : {0, turning_.width()})
            for (const int y : {top, end}) {
                const double line = turning_.place_lying({double(x), double(y)}).y;
                least = std::min(least, line);
                most = std::max(most, line);
            }
        window_.hold(inside(std::floor(least) - 3), inside(std::ceil(most) + 3) + 1);
    }

    void make_line(int y, int begin, int end, Code* to) const {
        const int width = source_.width(), height = source_.height();
        const PixelPlace first = turning_.place_lying({0.5, y + 0.5}),
                         second = turning_.place_lying({1.5, y + 0.5});
        const double step_x = second.x - first.x, step_y = second.y - first.y;
        const Weights* const table = weights().data();
        for (int x = begin; x < end; ++x) {
            // Pixels are known at their middles.
            const double at_x = first.x - 0.5 + x * step_x, at_y = first.y - 0.5 + x * step_y;
            const int whole_x = floor_of(at_x), whole_y = floor_of(at_y);
            const int left = whole_x - 1, up = whole_y - 1;
            const Weights& across = table[int((at_x - whole_x) * kSubPixels + 0.5)];
            const Weights& down = table[int((at_y - whole_y) * kSubPixels + 0.5)];
            if (left >= 0 && up >= 0 && left + 4 <= width && up + 4 <= height) {
                const Code* from = window_.line(up) + left;
                to[x] = mean(from, std::size_t(width), across, down);
            } else {
                Code clamped[16];
                for (int j = 0; j < 4; ++j) {
                    const Code* from = window_.line(std::clamp(up + j, 0, height - 1));
                    for (int i = 0; i < 4; ++i) clamped[4 * j + i] = from[std::clamp(left + i, 0, width - 1)];
                }
                to[x] = mean(clamped, 4, across, down);
            }
        }
    }

    static Code mean(const Code* from, std::size_t stride, const Weights& across, const Weights& down) {
        const auto line = [&](std::size_t j) {
            typename PixelCodes<Code>::Type codes;
            std::memcpy(&codes, from + j * stride, sizeof codes);
            return __builtin_convertvector(__builtin_convertvector(codes, PixelInts), Weights);
        };
        const Weights each =
            (line(0) * down[0] + line(1) * down[1] + line(2) * down[2] + line(3) * down[3]) * across;
        const float sum = (each[0] + each[1]) + (each[2] + each[3]);
        constexpr auto kMost = float(std::numeric_limits<Code>::max());
        return Code(std::clamp(sum, 0.0f, kMost) + 0.5f);
    }

    const CodeSource& source_;
    const Turning& turning_;
    const FileDescriptor& file_;
    WorkSteps& steps_;
    LineWindow<Code> window_;
    std::vector<Code> made_;
};

template <class Code>
class TurnedReader : public CodeReader {
  public:
    TurnedReader(std::shared_ptr<const TurnedCodes> turned, const Region& region, LineOrder order)
        : turned_(std::move(turned)), region_(region), order_(order) {}

    CodeBand lines(int top, int count) override {
        const auto width = std::size_t(region_.width);
        codes_.resize(width * std::size_t(count));
        for (int i = 0; i < count; ++i) {
            Code* const line = codes_.data() + std::size_t(i) * width;
            turned_->read(region_.top + top + i, region_.left, region_.width,
                          reinterpret_cast<std::byte*>(line));
            if (order_ == LineOrder::reversed) std::reverse(line, line + width);
        }
        return {codes_.data(), width};
    }

  private:
    std::shared_ptr<const TurnedCodes> turned_;
    Region region_;
    LineOrder order_;
    std::vector<Code> codes_;
};

class TurnedPart : public CodeSource {
  public:
    TurnedPart(std::shared_ptr<const TurnedCodes> turned, const Region& region, LineOrder order,
               std::function<void()> require_unchanged)
        : turned_(std::move(turned)),
          region_(region),
          order_(order),
          require_unchanged_(std::move(require_unchanged)) {}

    [[nodiscard]] std::string name() const override { return turned_->name(); }
    [[nodiscard]] int width() const override { return region_.width; }
    [[nodiscard]] int height() const override { return region_.height; }
    [[nodiscard]] std::size_t codes() const override { return turned_->codes(); }
    [[nodiscard]] std::size_t line_bytes() const override {
        return std::size_t(region_.width) * turned_->code_bytes();
    }
    [[nodiscard]] bool in_order() const override { return false; }
    [[nodiscard]] std::unique_ptr<CodeReader> reader() const override {
        if (codes() == 256) return std::make_unique<TurnedReader<std::uint8_t>>(turned_, region_, order_);
        return std::make_unique<TurnedReader<std::uint16_t>>(turned_, region_, order_);
    }
    void require_unchanged() const override {
        if (require_unchanged_) require_unchanged_();
    }

  private:
    std::shared_ptr<const TurnedCodes> turned_;
    Region region_;
    LineOrder order_;
    std::function<void()> require_unchanged_;
};

}  // namespace

TurnedCodes::TurnedCodes(const CodeSource& lying, const Turning& turning, Pace pace)
    : name_(lying.name()), codes_(lying.codes()), turning_(turning) {
    const auto height = std::size_t(turning_.height());
    file_ = room_for(std::uint64_t(turning_.width()) * height * code_bytes(), name_);
    const std::size_t bands = (height + kBandLines - 1) / kBandLines;
    WorkSteps steps("turning " + std::filesystem::path(name_).filename().string(), bands);
    work_in_bands(bands, lying.in_order() ? 1 : pace.threads, [&]() -> std::unique_ptr<BandWorker> {
        if (codes_ == 256)
            return std::make_unique<TurningWorker<std::uint8_t>>(lying, turning_, file_, steps);
        return std::make_unique<TurningWorker<std::uint16_t>>(lying, turning_, file_, steps);
    });
    lying.require_unchanged();
}

std::unique_ptr<CodeSource> TurnedCodes::part(std::shared_ptr<const TurnedCodes> turned, const Region& region,
                                              LineOrder order, std::function<void()> require_unchanged) {
    return std::make_unique<TurnedPart>(std::move(turned), region, order, std::move(require_unchanged));
}

void TurnedCodes::read(int line, int left, int count, std::byte* to) const {
    const std::uint64_t place = std::uint64_t(line) * std::uint64_t(turning_.width()) + std::uint64_t(left);
    if (const auto trouble =
            file_.read(to, std::size_t(count) * code_bytes(), place * std::uint64_t(code_bytes())))
        throw Error(Fault::io, name_, "cannot be read back after it was turned: " + *trouble);
}

std::uint64_t memory_to_turn(int width, int height, std::size_t code_bytes) {
    const auto lines = std::min(std::uint64_t(height), kBandLines + std::uint64_t(kSteepest * width) + 8);
    const Turning farthest(std::atan(kSteepest) * 180 / std::numbers::pi, width, height);
    const std::uint64_t whole =
        std::uint64_t(farthest.width()) * std::uint64_t(farthest.height()) * code_bytes;
    // Each worker holds its lines, twice while they move up, and the band it makes.
    const std::uint64_t at_work =
        workers_for(std::size_t(height), 0) * (2 * lines + kBandLines) * std::uint64_t(width) * code_bytes;
    return at_work + (scratch_file(whole) ? 0 : whole);
}

}  // namespace fogproof::pixels
