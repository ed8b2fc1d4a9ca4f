// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A picture read back the way any other program would: its pixels through its own embedded profile, by Little
// CMS, without a line of the product in between.
#pragma once

#include <lcms2.h>

#include <algorithm>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <stdexcept>
#include <vector>
#include <vips/vips8>

#include "fogproof/sheet/colour.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

class ReadBack {
  public:
    explicit ReadBack(const std::filesystem::path& file)
        : image_(vips::VImage::new_from_file(file.c_str())),
          width_(image_.width()),
          height_(image_.height()) {
        std::size_t size = 0;
        const void* icc = image_.get_blob(VIPS_META_ICC_NAME, &size);
        profile_.reset(cmsOpenProfileFromMem(icc, cmsUInt32Number(size)));
        const Handle lab(cmsCreateLab4Profile(nullptr));
        if (!profile_ || !lab) throw std::runtime_error("the embedded profile does not open");
        constexpr auto kExact = cmsFLAGS_NOOPTIMIZE | cmsFLAGS_NOCACHE;
        const auto form = image_.bands() == 1 ? TYPE_GRAY_DBL : TYPE_RGB_DBL;
        to_lab_.reset(cmsCreateTransform(profile_.get(), form, lab.get(), TYPE_Lab_DBL,
                                         INTENT_RELATIVE_COLORIMETRIC, kExact));
        to_device_.reset(cmsCreateTransform(lab.get(), TYPE_Lab_DBL, profile_.get(), form,
                                            INTENT_RELATIVE_COLORIMETRIC, kExact));
        if (!to_lab_ || !to_device_) throw std::runtime_error("the embedded profile does not transform");
        const vips::VImage memory = image_.cast(VIPS_FORMAT_DOUBLE).copy_memory();
        const auto* first = static_cast<const double*>(memory.data());
        codes_.assign(first, first + std::size_t(width_) * std::size_t(height_) * bands());
        std::vector<double> shares(codes_);
        for (double& share : shares) share /= top();
        colours_.resize(std::size_t(width_) * std::size_t(height_));
        cmsDoTransform(to_lab_.get(), shares.data(), colours_.data(), cmsUInt32Number(colours_.size()));
    }

    [[nodiscard]] const vips::VImage& image() const { return image_; }
    [[nodiscard]] int width() const { return width_; }
    [[nodiscard]] int height() const { return height_; }
    [[nodiscard]] std::size_t bands() const { return std::size_t(image_.bands()); }
    /// The code of full scale.
    [[nodiscard]] double top() const { return image_.format() == VIPS_FORMAT_USHORT ? 65535 : 255; }
    [[nodiscard]] Lab at(int x, int y) const {
        const cmsCIELab& colour = colours_[index(x, y)];
        return {colour.L, colour.a, colour.b};
    }
    [[nodiscard]] std::vector<double> codes_at(int x, int y) const {
        const auto first = codes_.begin() + std::ptrdiff_t(index(x, y) * bands());
        return {first, first + std::ptrdiff_t(bands())};
    }
    /// Whether the profile can hold a colour at all; a grey one holds neutrals.
    [[nodiscard]] bool holds(const Lab& colour) const {
        const cmsCIELab source{colour.l, colour.a, colour.b};
        double device[3]{};
        cmsDoTransform(to_device_.get(), &source, device, 1);
        return std::all_of(device, device + bands(), [](double share) { return share >= 0 && share <= 1; });
    }

  private:
    struct Close {
        void operator()(void* handle) const { cmsCloseProfile(handle); }
    };
    struct Delete {
        void operator()(void* handle) const { cmsDeleteTransform(handle); }
    };
    using Handle = std::unique_ptr<void, Close>;

    [[nodiscard]] std::size_t index(int x, int y) const {
        return std::size_t(y) * std::size_t(width_) + std::size_t(x);
    }

    vips::VImage image_;
    int width_, height_;
    Handle profile_;
    std::unique_ptr<void, Delete> to_lab_, to_device_;
    std::vector<double> codes_;
    std::vector<cmsCIELab> colours_;
};

/// CIEDE2000 as Little CMS has it.
[[nodiscard]] inline double difference(const Lab& a, const Lab& b) {
    const cmsCIELab x{a.l, a.a, a.b}, y{b.l, b.a, b.b};
    return cmsCIE2000DeltaE(&x, &y, 1, 1, 1);
}

}  // namespace fogproof::tests
