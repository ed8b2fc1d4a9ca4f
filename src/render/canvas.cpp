// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "render/canvas.hpp"

#include <algorithm>
#include <filesystem>
#include <map>
#include <memory>
#include <tuple>
#include <vips/vips8>

#include "fogproof/base/error.hpp"
#include "fogproof/base/markup.hpp"

namespace fogproof {
namespace {

struct Face {
    const char* family;
    const char* file;
};
// Named by file as well, so that a machine without a font configuration sets the same words.
constexpr Face kPlain{"DejaVu Sans", "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"};
constexpr Face kBold{"DejaVu Sans Bold", "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf"};

// libvips 8.14 remembers which font files it has loaded by the name that the first words set in each brought
// along, and forgets to copy that name: so those first words are kept for as long as the program runs.
void load(const Face& face) {
    static std::map<const Face*, vips::VImage> first_words;
    if (first_words.contains(&face)) return;
    if (!std::filesystem::exists(face.file))
        throw Error(Fault::unavailable, face.file, "this typeface is not installed",
                    "package fonts-dejavu-core");
    first_words[&face] = vips::VImage::text(
        "fogproof", vips::VImage::option()->set("font", face.family)->set("fontfile", face.file));
}

// Coverage of the words.
struct Mask {
    int width = 0, height = 0;
    std::vector<std::uint8_t> cover;
};

Mask set(const std::string& words, int width, Type type) {
    const Face& face = type.bold ? kBold : kPlain;
    const std::string font = std::string(face.family) + " " + std::to_string(type.pixels);
    // At 72 dots per inch a point is a pixel.
    auto* options =
        vips::VImage::option()->set("font", font.c_str())->set("fontfile", face.file)->set("dpi", 72);
    options->set("spacing", type.pixels / 4);
    if (width > 0) options->set("width", width)->set("wrap", VIPS_TEXT_WRAP_WORD);
    const auto align = type.align == Type::Align::centre  ? VIPS_ALIGN_CENTRE
                       : type.align == Type::Align::right ? VIPS_ALIGN_HIGH
                                                          : VIPS_ALIGN_LOW;
    options->set("align", align);
    try {
        load(face);
        const vips::VImage text = vips::VImage::text(escaped_markup(words).c_str(), options);
        std::size_t size = 0;
        const std::unique_ptr<std::uint8_t, void (*)(void*)> cover(
            static_cast<std::uint8_t*>(text.write_to_memory(&size)), g_free);
        return {text.width(), text.height(), {cover.get(), cover.get() + size}};
    } catch (const vips::VError& failure) {
        throw Error(Fault::internal, "words", failure.what());
    }
}

// Words are measured before they are written, and setting them is the slow part. Width 0 sets one line.
const Mask& mask_of(const std::string& words, int width, Type type) {
    thread_local std::map<std::tuple<std::string, int, int, bool, Type::Align>, Mask> made;
    const auto [place, is_new] =
        made.try_emplace(std::tuple(words, width, type.pixels, type.bold, type.align));
    if (is_new) place->second = set(words, width, type);
    return place->second;
}

}  // namespace

Canvas::Canvas(int width, int height, int channels, std::span<const std::uint16_t> background)
    : width_(width), height_(height), channels_(channels) {
    std::vector<std::uint16_t> row;
    for (int x = 0; x < width; ++x) row.insert(row.end(), background.begin(), background.end());
    pixels_.reserve(row.size() * std::size_t(height));
    for (int y = 0; y < height; ++y) pixels_.insert(pixels_.end(), row.begin(), row.end());
}

void Canvas::fill(Box box, std::span<const std::uint16_t> colour) {
    const int left = std::max(box.left, 0), right = std::min(box.left + box.width, width_);
    if (left >= right) return;
    std::vector<std::uint16_t> row;
    for (int x = left; x < right; ++x) row.insert(row.end(), colour.begin(), colour.end());
    for (int y = std::max(box.top, 0); y < std::min(box.top + box.height, height_); ++y)
        std::ranges::copy(row, pixels_.begin() + (std::ptrdiff_t(y) * width_ + left) * channels_);
}

void Canvas::paste(Box box, std::span<const std::uint16_t> pixels) {
    const auto row = std::size_t(box.width) * std::size_t(channels_);
    for (int y = 0; y < box.height; ++y)
        std::ranges::copy(pixels.subspan(std::size_t(y) * row, row),
                          pixels_.begin() + (std::ptrdiff_t(box.top + y) * width_ + box.left) * channels_);
}

int Canvas::write(Box box, const std::string& words, Type type, std::span<const std::uint16_t> colour) {
    if (words.empty()) return 0;
    const Mask& mask = mask_of(words, box.width, type);
    // libvips trims the mask to the ink, so alignment within the box is put back here.
    const int slack = std::max(0, box.width - mask.width);
    const int indent = type.align == Type::Align::centre  ? slack / 2
                       : type.align == Type::Align::right ? slack
                                                          : 0;
    for (int y = 0; y < mask.height; ++y)
        for (int x = 0; x < mask.width; ++x) {
            const int at_x = box.left + indent + x, at_y = box.top + y;
            if (at_x < 0 || at_x >= width_ || at_y < 0 || at_y >= height_) continue;
            const int ink = mask.cover[std::size_t(y) * std::size_t(mask.width) + std::size_t(x)];
            auto* const pixel = pixels_.data() + (std::ptrdiff_t(at_y) * width_ + at_x) * channels_;
            for (int c = 0; c < channels_; ++c)
                pixel[c] = std::uint16_t((pixel[c] * (255 - ink) + colour[std::size_t(c)] * ink + 127) / 255);
        }
    return mask.height;
}

int Canvas::height_of(const std::string& words, int width, Type type) {
    return words.empty() ? 0 : mask_of(words, width, type).height;
}

int Canvas::width_of(const std::string& words, Type type) {
    return words.empty() ? 0 : mask_of(words, 0, type).width;
}

vips::VImage Canvas::picture(int bits) const {
    if (bits == 16) {
        auto* const pixels = const_cast<std::uint16_t*>(pixels_.data());  // libvips only reads them
        return vips::VImage::new_from_memory(pixels, 2 * pixels_.size(), width_, height_, channels_,
                                             VIPS_FORMAT_USHORT);
    }
    auto* const narrow = static_cast<std::uint8_t*>(g_malloc(pixels_.size()));
    // (v + 128) / 257 for every v, in a form that compilers spread over many pixels.
    std::ranges::transform(pixels_, narrow,
                           [](std::uint16_t v) { return std::uint8_t((v * 255u + 32895u) >> 16); });
    return vips::VImage::new_from_memory_steal(narrow, pixels_.size(), width_, height_, channels_,
                                               VIPS_FORMAT_UCHAR);
}

}  // namespace fogproof
