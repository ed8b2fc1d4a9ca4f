// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A flatbed scan drawn as a map, with what was read off it outlined and labelled; lines of words stand above.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>
#include <vips/vips8>

#include "fogproof/rooms.hpp"
#include "picture/canvas.hpp"
#include "picture/picture_file.hpp"
#include "reading/strip_reading.hpp"

namespace fogproof::picture {

class ScanDrawing {
  public:
    // Boxes: pieces, places read, patches of known density. Told apart by their words as well as by colour.
    static constexpr Lab kPiece{62, 20, -55}, kPlace{68, 45, 60}, kKnown{60, -45, 35}, kAside{55, 0, 0};
    static constexpr Lab kOnDark{98, 0, 0}, kOnLight{5, 0, 0};
    /// From this density on, white words are easier to read than black ones.
    static constexpr double kDarkPlace = 0.6;

    ScanDrawing(const ReflectionImage& image, std::vector<std::string> lines, const OutputProfile& profile)
        : profile_(profile),
          scale_(std::min(2.0, double(kLongSide) / std::max(image.width, image.height))),
          per_scan_pixel_(scale_ / image.scan_pixels),
          width_(int(image.width * scale_)),
          height_(int(image.height * scale_)),
          lines_(std::move(lines)),
          top_(kMargin + heading_height() + kMargin),
          canvas_(width_ + 2 * kMargin, top_ + height_ + kMargin, 3, 8, code(kSheet)) {
        int y = kMargin;
        for (std::size_t i = 0; i < lines_.size(); ++i)
            y += canvas_.write({kMargin, y, width_, 0}, lines_[i], type(i), code(kLabelInk)) + 6;
        canvas_.paste({kMargin, top_, width_, height_}, pixels_of(image));
    }

    void outline(const std::array<ScanPoint, 4>& corners, const Lab& colour, int thick) {
        const auto ink = code(colour);
        for (std::size_t i = 0; i < corners.size(); ++i) {
            const auto [x0, y0] = on_sheet(corners[i]);
            const auto [x1, y1] = on_sheet(corners[(i + 1) % corners.size()]);
            const int dots = 1 + int(2 * std::hypot(x1 - x0, y1 - y0));
            for (int dot = 0; dot <= dots; ++dot) {
                const double part = double(dot) / dots;
                canvas_.fill({int(x0 + part * (x1 - x0)), int(y0 + part * (y1 - y0)), thick, thick}, ink);
            }
        }
    }

    /// Words in the middle of an area, as large as its width allows.
    void label(const std::array<ScanPoint, 4>& corners, const std::string& words, const Lab& colour) {
        double left = 1e9, right = -1e9, x = 0, y = 0;
        for (const auto& corner : corners) {
            const auto [cx, cy] = on_sheet(corner);
            left = std::min(left, cx), right = std::max(right, cx);
            x += cx / 4, y += cy / 4;
        }
        const int pixels = std::clamp(int((right - left) * 1.9 / double(words.size())), 9, 15);
        const Type type{pixels, false};
        const int wide = Canvas::width_of(words, type);
        canvas_.write({int(x) - wide / 2, int(y) - pixels / 2, 0, 0}, words, type, code(colour));
    }

    /// A number on a plate of its own at the top left of an area, above it where there is room.
    void tag(const std::array<ScanPoint, 4>& corners, const std::string& number, const Lab& colour) {
        double left = 1e9, top = 1e9;
        for (const auto& corner : corners) {
            const auto [x, y] = on_sheet(corner);
            left = std::min(left, x), top = std::min(top, y);
        }
        const int wide = Canvas::width_of(number, kTag) + 12, high = kTag.pixels + 10;
        const int x = std::clamp(int(left), kMargin, std::max(kMargin, kMargin + width_ - wide)),
                  y = std::clamp(int(top) - high, top_, std::max(top_, top_ + height_ - high));
        canvas_.fill({x, y, wide, high}, code(colour));
        canvas_.write({x + 6, y + 4, 0, 0}, number, kTag, code(kOnDark));
    }

    [[nodiscard]] vips::VImage picture() const { return canvas_.picture(); }

  private:
    static constexpr int kLongSide = 1600, kMargin = 16, kHeading = 20, kWords = 16;
    static constexpr Type kTag{18, true};
    static constexpr Lab kSheet{97, 0, 0}, kLabelInk{10, 0, 0};

    [[nodiscard]] static Type type(std::size_t line) {
        return line == 0 ? Type{kHeading, true} : Type{kWords, false};
    }
    [[nodiscard]] int heading_height() const {
        int height = 0;
        for (std::size_t i = 0; i < lines_.size(); ++i)
            height += Canvas::height_of(lines_[i], width_, type(i)) + 6;
        return height;
    }
    [[nodiscard]] std::vector<std::uint16_t> code(const Lab& colour) const {
        return profile_.encode({&colour, 1}, Rendering::absolute, {100, 0, 0});
    }
    [[nodiscard]] std::pair<double, double> on_sheet(const ScanPoint& point) const {
        return {kMargin + point.first * per_scan_pixel_, top_ + point.second * per_scan_pixel_};
    }
    // Nearest pixels: the picture is a map, not a print.
    [[nodiscard]] std::vector<std::uint16_t> pixels_of(const ReflectionImage& image) const {
        constexpr int levels = 2048;
        std::vector<Lab> greys;
        for (int i = 0; i < levels; ++i) greys.push_back({100.0 * i / (levels - 1), 0, 0});
        const auto codes = profile_.encode(greys, Rendering::absolute, {100, 0, 0});
        std::vector<std::uint16_t> pixels;
        for (int y = 0; y < height_; ++y)
            for (int x = 0; x < width_; ++x) {
                const double light = image.light_at(std::min(image.width - 1, int((x + 0.5) / scale_)),
                                                    std::min(image.height - 1, int((y + 0.5) / scale_)));
                const double lightness = lab({0, std::clamp(light, 0.0, 1.0), 0}).l;
                const auto level = std::size_t(std::lround(lightness / 100 * (levels - 1)));
                pixels.insert(pixels.end(), codes.begin() + std::ptrdiff_t(3 * level),
                              codes.begin() + std::ptrdiff_t(3 * level + 3));
            }
        return pixels;
    }

    const OutputProfile& profile_;
    double scale_, per_scan_pixel_;
    int width_, height_;
    std::vector<std::string> lines_;
    int top_;
    Canvas canvas_;
};

}  // namespace fogproof::picture
