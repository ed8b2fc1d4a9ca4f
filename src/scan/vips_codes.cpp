// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/vips_codes.hpp"

#include <utility>

#include "scan/guarded_reading.hpp"

namespace fogproof::scan {
namespace {

// libvips may report success for a band that it could not read, so each is asked about.
class VipsCodeReader : public CodeReader {
  public:
    VipsCodeReader(std::filesystem::path path, const std::function<vips::VImage()>& opened)
        : path_(std::move(path)),
          codes_(reading(path_, opened)),
          region_(vips_region_new(codes_.get_image()), [](VipsRegion* held) { g_object_unref(held); }) {}

    CodeBand lines(int top, int count) override {
        return reading(path_, [&] {
            const VipsRect band{0, top, codes_.width(), count};
            if (vips_region_prepare(region_.get(), &band) != 0) throw vips::VError();
            const std::size_t code = codes_.format() == VIPS_FORMAT_USHORT ? 2 : 1;
            return CodeBand{VIPS_REGION_ADDR(region_.get(), 0, top),
                            std::size_t(VIPS_REGION_LSKIP(region_.get())) / code};
        });
    }

  private:
    std::filesystem::path path_;
    vips::VImage codes_;
    std::unique_ptr<VipsRegion, void (*)(VipsRegion*)> region_;
};

}  // namespace

VipsCodes::VipsCodes(std::filesystem::path path, std::function<vips::VImage()> opened, std::size_t codes,
                     Region region, LineOrder order)
    : path_(std::move(path)), codes_(codes), region_(region) {
    opened_ = [opened = std::move(opened), region, order] {
        vips::VImage part = opened();
        if (region.width != part.width() || region.height != part.height())
            part = part.extract_area(region.left, region.top, region.width, region.height);
        return order == LineOrder::reversed ? part.fliphor() : part;
    };
}

std::size_t VipsCodes::line_bytes() const {
    return std::size_t(region_.width) * (codes_ == 256 ? 1 : 2);
}

std::unique_ptr<CodeReader> VipsCodes::reader() const {
    return std::make_unique<VipsCodeReader>(path_, opened_);
}

}  // namespace fogproof::scan
