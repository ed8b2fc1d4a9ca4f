// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/turned_codes.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <filesystem>
#include <numbers>
#include <span>
#include <utility>
#include <vector>
#include <vips/vips8>

#include "fogproof/base/error.hpp"
#include "pixels/bands.hpp"
#include "scan/edge_line.hpp"
#include "scan/vips_call.hpp"
#include "scan/vips_session.hpp"
#include "system/progress.hpp"
#include "system/scratch_file.hpp"
#include "system/threads.hpp"

namespace fogproof::scan {
namespace {

// Side of the squares that a worker asks libvips for. What such a square is made of stays at hand, however
// far a whole line would climb.
constexpr int kTile = 256;

// Writes what a reader gives, from whatever it comes.
class KeepingWorker : public BandWorker {
  public:
    KeepingWorker(const KeptSheet& sheet, std::span<const int> edges, std::unique_ptr<CodeReader> reader,
                  WorkSteps& steps)
        : sheet_(sheet), edges_(edges), reader_(std::move(reader)), steps_(steps) {}

    void work(std::size_t band) override {
        const int top = edges_[band], count = edges_[band + 1] - top;
        sheet_.write(top, count, reader_->lines(top, count));
        steps_.done();
    }

  private:
    const KeptSheet& sheet_;
    std::span<const int> edges_;
    std::unique_ptr<CodeReader> reader_;
    WorkSteps& steps_;
};

vips::VImage image_over(void* codes, const KeptSheet& sheet) {
    return vips::VImage::new_from_memory(codes, sheet.bytes(), sheet.width(), sheet.height(), 1,
                                         sheet.code_bytes() == 1 ? VIPS_FORMAT_UCHAR : VIPS_FORMAT_USHORT);
}

// How far the turned sheet reaches over the scan, in pixels of the scan.
int reach_beyond(const Turning& turning, int width, int height) {
    double most = 0;
    for (const double x : {0, turning.width()})
        for (const double y : {0, turning.height()}) {
            const PixelPlace at = turning.place_lying({x, y});
            most = std::max({most, -at.x, -at.y, at.x - width, at.y - height});
        }
    return int(std::ceil(most));
}

// Nothing is computed before it is asked for. libvips counts places from the middle of the first pixel.
vips::VImage turned_image(const vips::VImage& lying, const Turning& turning) {
    constexpr int kLookedAt = 4;  // whom the interpolation looks at beside a place
    const int beyond = reach_beyond(turning, lying.width(), lying.height()) + kLookedAt;
    const PixelPlace first = turning.place_turned({0.5, 0.5}), right = turning.place_turned({1.5, 0.5}),
                     below = turning.place_turned({0.5, 1.5});
    const vips::VImage wider =
        made_by_vips([&](VipsImage** made) {
            return vips_embed(lying.get_image(), made, beyond, beyond, lying.width() + 2 * beyond,
                              lying.height() + 2 * beyond, "extend", VIPS_EXTEND_COPY, nullptr);
        }).cast(VIPS_FORMAT_FLOAT);
    const vips::VInterpolate bicubic = vips::VInterpolate::new_from_name("bicubic");
    const std::unique_ptr<VipsArrayInt, void (*)(VipsArrayInt*)> area(
        vips_array_int_newv(4, 0, 0, turning.width(), turning.height()),
        [](VipsArrayInt* held) { vips_area_unref(VIPS_AREA(held)); });
    return made_by_vips([&](VipsImage** made) {
               return vips_affine(wider.get_image(), made, right.x - first.x, below.x - first.x,
                                  right.y - first.y, below.y - first.y, "interpolate",
                                  bicubic.get_interpolate(), "oarea", area.get(), "idx", -double(beyond),
                                  "idy", -double(beyond), "odx", first.x - 0.5, "ody", first.y - 0.5,
                                  nullptr);
           })
        .rint()
        .cast(lying.format());
}

// Several may work at once, each in the thread that made it.
class TileReader : public CodeReader {
  public:
    explicit TileReader(const vips::VImage& image)
        : image_(image),
          region_(vips_region_new(image.get_image()), [](VipsRegion* held) { g_object_unref(held); }) {}

    CodeBand lines(int top, int count) override {
        const auto width = std::size_t(image_.width()), code = VIPS_IMAGE_SIZEOF_ELEMENT(image_.get_image());
        codes_.resize(width * std::size_t(count) * code);
        for (int left = 0; left < image_.width(); left += kTile) {
            const VipsRect tile{left, top, std::min(kTile, image_.width() - left), count};
            if (vips_region_prepare(region_.get(), &tile) != 0) throw vips::VError();
            for (int y = 0; y < count; ++y)
                std::memcpy(codes_.data() + (std::size_t(y) * width + std::size_t(left)) * code,
                            VIPS_REGION_ADDR(region_.get(), left, top + y), std::size_t(tile.width) * code);
        }
        return {codes_.data(), width};
    }

  private:
    vips::VImage image_;
    std::unique_ptr<VipsRegion, void (*)(VipsRegion*)> region_;
    std::vector<std::byte> codes_;
};

std::vector<int> tile_edges(int height) {
    std::vector<int> edges;
    for (int edge = 0; edge < height; edge += kTile) edges.push_back(edge);
    edges.push_back(height);
    return edges;
}

KeptSheet turned_sheet(const CodeSource& lying, const Turning& turning, Pace pace) {
    const std::size_t code_bytes = lying.codes() == 256 ? 1 : 2;
    const std::vector<int> lying_edges = band_edges(lying, pace.band_bytes),
                           edges = tile_edges(turning.height());
    const std::size_t lying_bands = lying_edges.size() - 1, bands = edges.size() - 1;
    WorkSteps steps("turning " + std::filesystem::path(lying.name()).filename().string(),
                    lying_bands + bands);
    const KeptSheet kept(lying.name(), lying.width(), lying.height(), code_bytes);
    work_in_bands(lying_bands, lying.in_order() ? 1 : pace.threads,
                  [&] { return std::make_unique<KeepingWorker>(kept, lying_edges, lying.reader(), steps); });
    lying.require_unchanged();

    const VipsWatch watch;
    const auto refuse = [&] {
        throw Error(Fault::unavailable, lying.name(), "cannot be turned: " + watch.complaint(),
                    "memory for libvips");
    };
    KeptSheet turned(lying.name(), turning.width(), turning.height(), code_bytes);
    const std::shared_ptr<void> codes = kept.mapped();
    try {
        const vips::VImage image = turned_image(image_over(codes.get(), kept), turning);
        work_in_bands(bands, pace.threads, [&] {
            return std::make_unique<KeepingWorker>(turned, edges, std::make_unique<TileReader>(image), steps);
        });
    } catch (const vips::VError&) {
        refuse();
    }
    if (!watch.complaint().empty()) refuse();
    return turned;
}

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
    : turning_(turning), codes_(lying.codes()), sheet_(turned_sheet(lying, turning, pace)) {}

std::unique_ptr<CodeSource> TurnedCodes::part(std::shared_ptr<const TurnedCodes> turned, const Region& region,
                                              LineOrder order, std::function<void()> require_unchanged) {
    return std::make_unique<TurnedPart>(std::move(turned), region, order, std::move(require_unchanged));
}

std::uint64_t memory_to_turn(int width, int height, std::size_t code_bytes) {
    const Turning turning(std::atan(kSteepestEdge) * 180 / std::numbers::pi, width, height);
    const auto codes = [](int across, int down) { return std::uint64_t(across) * std::uint64_t(down); };
    const std::uint64_t sheets =
        (codes(width, height) + codes(turning.width(), turning.height())) * code_bytes;
    // Each worker holds the lines that it makes, and squares of floats on their way through libvips.
    constexpr std::uint64_t kSquares = 4u << 20;
    const std::uint64_t at_work =
        workers_for(std::size_t(height), 0) * (kSquares + codes(turning.width(), kTile) * code_bytes);
    return at_work + (scratch_file(sheets) ? 0 : sheets);
}

}  // namespace fogproof::scan
