// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/canvas.hpp"

#include <algorithm>
#include <filesystem>
#include <map>
#include <memory>
#include <mutex>
#include <tuple>
#include <type_traits>
#include <vips/vips8>

#include "base/markup.hpp"
#include "fogproof/base/error.hpp"
#include "scan/vips_call.hpp"
#include "scan/vips_session.hpp"
#include "system/beside_program.hpp"

namespace fogproof::picture {
namespace {

// Named by file as well, so that a machine without a font configuration sets the same words. A file that came
// with the program goes before that of the system.
struct Face {
    std::string family, file;

    Face(std::string called, const std::string& name) : family(std::move(called)) {
        const std::filesystem::path own = beside_program("fonts/" + name);
        std::error_code unknown;
        file =
            std::filesystem::exists(own, unknown) ? own.string() : "/usr/share/fonts/truetype/dejavu/" + name;
    }
};

const Face& face_of(const Type& type) {
    static const Face plain{"DejaVu Sans", "DejaVuSans.ttf"}, bold{"DejaVu Sans Bold", "DejaVuSans-Bold.ttf"};
    return type.bold ? bold : plain;
}

// libvips 8.14 remembers which font files it has loaded by the name that the first words set in each brought
// along, and forgets to copy that name: so those first words are kept for as long as the program runs.
void load(const Face& face) {
    vips_ready();
    static std::map<const Face*, vips::VImage> first_words;
    if (first_words.contains(&face)) return;
    if (!std::filesystem::exists(face.file))
        throw Error(Fault::unavailable, face.file, "this typeface is not installed",
                    "package fonts-dejavu-core");
    first_words[&face] = made_by_vips([&](VipsImage** made) {
        return vips_text(made, "fogproof", "font", face.family.c_str(), "fontfile", face.file.c_str(),
                         nullptr);
    });
}

// Coverage of the words.
struct Mask {
    int width = 0, height = 0;
    std::vector<std::uint8_t> cover;
};

Mask set(const std::string& words, int width, Type type) {
    const Face& face = face_of(type);
    load(face);
    const std::string font = face.family + " " + std::to_string(type.pixels);
    const std::string marked = escaped_markup(words);
    try {
        const vips::VImage text = made_by_vips([&](VipsImage** made) {
            // At 72 dots per inch a point is a pixel. A word wider than all is broken, since there is no
            // picture as wide as any word. Width 0 is libvips' own for a single line.
            return vips_text(made, marked.c_str(), "font", font.c_str(), "fontfile", face.file.c_str(), "dpi",
                             72, "spacing", type.pixels / 4, "width", width, "wrap", VIPS_TEXT_WRAP_WORD_CHAR,
                             nullptr);
        });
        std::size_t size = 0;
        const std::unique_ptr<std::uint8_t, void (*)(void*)> cover(
            static_cast<std::uint8_t*>(text.write_to_memory(&size)), g_free);
        return {text.width(), text.height(), {cover.get(), cover.get() + size}};
    } catch (const vips::VError& failure) {
        // Blanks of any kind leave no ink.
        if (std::string_view(failure.what()).find("no text to render") != std::string_view::npos) {
            vips_error_clear();
            return {};
        }
        throw Error(Fault::internal, "words", failure.what());
    }
}

// Words are measured before they are written, by any thread, and setting them is the slow part: libvips sets
// only one line at a time anyway. Width 0 sets one line.
const Mask& mask_of(const std::string& words, int width, Type type) {
    static std::mutex one_at_a_time;
    static std::map<std::tuple<std::string, int, int, bool>, Mask> made;
    const std::lock_guard held(one_at_a_time);
    const auto [place, is_new] = made.try_emplace(std::tuple(words, width, type.pixels, type.bold));
    if (is_new) place->second = set(words, width, type);
    return place->second;
}

// What a canvas of such pixels keeps of a 16-bit code: in 8 bit (code + 128) / 257, in a form that compilers
// spread over many pixels.
template <class Pixels>
auto kept(std::uint16_t code) {
    using Code = typename std::remove_cvref_t<Pixels>::value_type;
    if constexpr (sizeof(Code) == 2) return code;
    return Code((code * 255u + 32895u) >> 16);
}

template <class Pixels>
Pixels line_of(const Pixels&, std::span<const std::uint16_t> colour, int width) {
    Pixels line;
    line.reserve(colour.size() * std::size_t(width));
    for (int x = 0; x < width; ++x)
        for (const std::uint16_t code : colour) line.push_back(kept<Pixels>(code));
    return line;
}

}  // namespace

Canvas::Canvas(int width, int height, int channels, int bits, std::span<const std::uint16_t> background)
    : width_(width), height_(height), channels_(channels) {
    if (bits == 16) pixels_ = Pixels<std::uint16_t>();
    std::visit(
        [&](auto& pixels) {
            const auto row = line_of(pixels, background, width);
            pixels.reserve(row.size() * std::size_t(height));
            for (int y = 0; y < height; ++y) pixels.insert(pixels.end(), row.begin(), row.end());
        },
        pixels_);
}

void Canvas::fill(Box box, std::span<const std::uint16_t> colour) {
    const int left = std::max(box.left, 0), right = std::min(box.left + box.width, width_);
    if (left >= right) return;
    std::visit(
        [&](auto& pixels) {
            const auto row = line_of(pixels, colour, right - left);
            for (int y = std::max(box.top, 0); y < std::min(box.top + box.height, height_); ++y)
                std::ranges::copy(row, pixels.begin() + (std::ptrdiff_t(y) * width_ + left) * channels_);
        },
        pixels_);
}

void Canvas::paste(Box box, std::span<const std::uint16_t> codes) {
    const auto row = std::size_t(box.width) * std::size_t(channels_);
    std::visit(
        [&](auto& pixels) {
            for (int y = 0; y < box.height; ++y)
                std::ranges::transform(
                    codes.subspan(std::size_t(y) * row, row),
                    pixels.begin() + (std::ptrdiff_t(box.top + y) * width_ + box.left) * channels_,
                    [&](std::uint16_t code) { return kept<decltype(pixels)>(code); });
        },
        pixels_);
}

int Canvas::write(Box box, const std::string& words, Type type, std::span<const std::uint16_t> colour) {
    if (words.empty()) return 0;
    const Mask& mask = mask_of(words, box.width, type);
    std::visit(
        [&](auto& pixels) {
            const auto ink = line_of(pixels, colour, 1);
            using Code = typename std::remove_cvref_t<decltype(pixels)>::value_type;
            for (int y = 0; y < mask.height; ++y)
                for (int x = 0; x < mask.width; ++x) {
                    const int at_x = box.left + x, at_y = box.top + y;
                    if (at_x < 0 || at_x >= width_ || at_y < 0 || at_y >= height_) continue;
                    const int cover = mask.cover[std::size_t(y) * std::size_t(mask.width) + std::size_t(x)];
                    auto* const pixel = pixels.data() + (std::ptrdiff_t(at_y) * width_ + at_x) * channels_;
                    for (int c = 0; c < channels_; ++c)
                        pixel[c] = Code((pixel[c] * (255 - cover) + ink[std::size_t(c)] * cover + 127) / 255);
                }
        },
        pixels_);
    return mask.height;
}

int Canvas::height_of(const std::string& words, int width, Type type) {
    return words.empty() ? 0 : mask_of(words, width, type).height;
}

int Canvas::width_of(const std::string& words, Type type) {
    return words.empty() ? 0 : mask_of(words, 0, type).width;
}

vips::VImage Canvas::picture() const {
    vips_ready();
    return std::visit(
        [&](const auto& pixels) {
            using Code = typename std::remove_cvref_t<decltype(pixels)>::value_type;
            auto* const shown = const_cast<Code*>(pixels.data());  // libvips only reads them
            return vips::VImage::new_from_memory(shown, sizeof(Code) * pixels.size(), width_, height_,
                                                 channels_,
                                                 sizeof(Code) == 2 ? VIPS_FORMAT_USHORT : VIPS_FORMAT_UCHAR);
        },
        pixels_);
}

}  // namespace fogproof::picture
