// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "targets.hpp"

#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <stdexcept>
#include <string>
#include <vips/vips8>

#include "fogproof/base/error.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/pack/pack.hpp"
#include "fogproof/pack/readings.hpp"
#include "fogproof/print/recipe_file.hpp"
#include "picture/profile.hpp"
#include "picture/xmp_reading.hpp"
#include "print/amounts.hpp"
#include "print/axis.hpp"
#include "reading/blank_sheet.hpp"
#include "reading/cgats.hpp"
#include "reading/piece_labels.hpp"
#include "reading/print_reading.hpp"
#include "reading/strip_reading.hpp"
#include "scan/local_masks.hpp"
#include "scan/reflection_scan.hpp"
#include "scan/scan.hpp"

namespace fogproof::fuzz {
using namespace picture;
namespace {

void require(bool good, const char* what) {
    if (!good) throw std::logic_error(what);
}

// Runs a reader; a refusal has to be one line, or lines that each name their place.
template <class Read>
void refused_properly(Read read) {
    try {
        read();
    } catch (const Error& error) {
        const std::string_view text = error.what();
        require(!text.empty() && text.find(": ") != std::string_view::npos, "a message without a place");
        require(
            std::ranges::none_of(text, [](unsigned char c) { return (c < 0x20 && c != '\n') || c == 0x7f; }),
            "a message with control characters");
        require(error.fault() != Fault::internal, "a refusal that blames the program");
    }
}

void pack(std::string_view bytes) {
    refused_properly([&] {
        const Pack read = parse_pack(bytes, "pack");
        const std::string text = written(read);
        require(written(parse_pack(text, "written")) == text, "a pack that changes by being written");
        static_cast<void>(paper_model(read));
    });
}

void recipe(std::string_view bytes) {
    refused_properly([&] {
        const std::string text = written(parse_recipe(bytes, "recipe"));
        require(written(parse_recipe(text, "written")) == text, "a recipe that changes by being written");
    });
}

void readings(std::string_view bytes) {
    refused_properly([&] {
        const auto read = parse_readings(bytes, "readings");
        const auto again = parse_readings(readings_text(read, "again"), "written");
        require(again.size() == read.size(), "readings that change in number by being written");
        for (std::size_t i = 0; i < read.size(); ++i)
            require(again[i].density == read[i].density && again[i].bleach_s == read[i].bleach_s,
                    "a reading that changes by being written");
    });
}

void cgats(std::string_view bytes) {
    refused_properly([&] {
        if (!is_cgats(bytes)) return;
        for (const auto& row : cgats_readings(bytes, "instrument").rows)
            require(std::isfinite(row.density.value), "a density that is no number");
    });
}

// A file that lies in memory and has a path.
class MemoryFile {
  public:
    explicit MemoryFile(std::string_view bytes) : descriptor_(::memfd_create("fuzz", MFD_CLOEXEC)) {
        require(descriptor_ >= 0, "no memory file");
        require(::write(descriptor_, bytes.data(), bytes.size()) == ssize_t(bytes.size()), "a short write");
    }
    ~MemoryFile() { ::close(descriptor_); }
    MemoryFile(const MemoryFile&) = delete;
    [[nodiscard]] std::string path() const { return "/proc/self/fd/" + std::to_string(descriptor_); }

  private:
    int descriptor_;
};

void scan(std::string_view bytes) {
    const MemoryFile file(bytes);
    refused_properly([&] {
        Notes notes;
        ScanOptions options;
        options.max_pixels = 1e5;
        options.whole = bytes.size() % 2 == 0;
        const Scan read = Scan::open(file.path(), options, notes);
        std::uint64_t total = 0;
        for (const auto count : read.histogram()) total += count;
        require(total == std::uint64_t(read.frame().width) * std::uint64_t(read.frame().height),
                "a histogram that counts other pixels than the frame has");
        for (const auto density : read.scale())
            require(std::isfinite(density.value), "a density without end");
    });
}

void strip_scan(std::string_view bytes) {
    const MemoryFile file(bytes);
    refused_properly([&] {
        Notes notes;
        const ReflectionImage image = reflection_scan(file.path(), {}, 1e5, notes);
        for (const float light : image.light) require(std::isfinite(light), "light without end");
        // As a blank sheet, of any pack.
        StripRequest request;
        request.place = "scan";
        const BlankSheet sheet = blank_sheet(calibrated(image, request), Pack{}, "scan");
        require(sheet.map.level.size() == std::size_t(sheet.map.width) * std::size_t(sheet.map.height),
                "a map with levels missing");
        require(std::isfinite(sheet.edge_density) && sheet.edge_density >= 0, "fog without end");
        static_cast<void>(written(with_edge_map(Pack{}, sheet, "map.png")));
    });
}

// Bytes as a drawing: what is asked, the size, and rows of light each repeated as often as the next byte
// says.
void strips(std::string_view bytes) {
    if (bytes.size() < 16) return;
    const auto at = [&](std::size_t i) { return static_cast<unsigned char>(bytes[i % bytes.size()]); };
    StripRequest request;
    request.place = "drawing";
    if (at(0) % 4 != 0) request.steps = 1 + at(1) % 40;
    request.halves = at(0) & 4;
    request.leave_out = at(0) & 8;
    ReflectionImage image;
    image.width = 24 + at(2) % 72;
    image.height = 24 + at(3) % 72;
    if (at(0) & 16) request.frame = Region{at(4), at(5), 1 + at(6), 1 + at(7)};
    if (at(0) & 32)
        request.known.push_back({{at(8), at(9), 1 + at(10) % 64, 1 + at(11) % 64}, at(12) / 80.0});
    std::size_t next = 16;
    while (image.light.size() < image.index(0, image.height)) {
        // A line: pieces of one tone each.
        std::vector<float> line;
        while (line.size() < std::size_t(image.width)) {
            const float light = float(std::pow(10.0, -at(next) / 100.0));
            line.insert(line.end(), 1 + at(next + 1) % 32, light);
            next += 2;
        }
        line.resize(std::size_t(image.width));
        for (int again = 1 + at(next++) % 24; again > 0; --again)
            image.light.insert(image.light.end(), line.begin(), line.end());
    }
    image.light.resize(image.index(0, image.height));
    image.clipped.assign(image.light.size(), at(0) & 64 ? 0.5f : 0.0f);
    refused_properly([&] {
        for (const auto& strip : strips_read(image, request).strips)
            for (const auto& step : strip.steps)
                require(std::isfinite(step.density.value), "a density that is no number");
    });
}

// Bytes as a negative and the scan of its print: how the print lies, how it was made and what spoils it, then
// the negative's tones, each of a box whose sides the next bytes say.
void prints(std::string_view bytes) {
    if (bytes.size() < 16) return;
    const auto at = [&](std::size_t i) { return static_cast<unsigned char>(bytes[i % bytes.size()]); };
    const int times = at(0) % 16 == 8 ? 3 : 1;  // small ones are quick and hardly ever placed
    SmallNegative negative{times * (60 + at(1) % 100), times * (60 + at(2) % 100), {}};
    const int w = negative.width, h = negative.height;
    negative.density.assign(std::size_t(w) * std::size_t(h), {at(3) / 200.0});
    for (std::size_t i = 16; i + 4 < bytes.size(); i += 5)
        for (int y = at(i) * times % h; y < std::min(h, at(i) * times % h + at(i + 1) % 40); ++y)
            for (int x = at(i + 2) * times % w; x < std::min(w, at(i + 2) * times % w + at(i + 3) % 40); ++x)
                negative.density[std::size_t(y * w + x)] = {at(i + 4) / 100.0};
    ReflectionImage image;
    image.width = times * (64 + at(4) % 140);
    image.height = times * (64 + at(5) % 140);
    const double growth = 0.5 + at(6) / 200.0, turn = at(7) / 40.7, curve = at(8) / 60.0;
    for (int y = 0; y < image.height; ++y)
        for (int x = 0; x < image.width; ++x) {
            const double a = (x - image.width / 2.0) / growth, b = (y - image.height / 2.0) / growth;
            const int u = int(std::floor(w / 2.0 + a * std::cos(turn) + b * std::sin(turn))),
                      v = int(std::floor(h / 2.0 + b * std::cos(turn) - a * std::sin(turn)));
            const bool is_on_it = u >= 0 && v >= 0 && u < w && v < h;
            const double over = is_on_it ? negative.density[std::size_t(v * w + u)].value : at(9) / 60.0;
            image.light.push_back(float(std::pow(10.0, -2 / (1 + std::pow(10.0, curve * (over - 0.8))))));
        }
    image.clipped.assign(image.light.size(), at(0) & 1 ? 0.5f : 0.0f);
    StripRequest request;
    request.place = "drawing";
    request.halves = at(0) & 2;
    if (at(0) & 4)
        request.known.push_back({{at(10), at(11), 1 + at(12) % 64, 1 + at(13) % 64}, at(14) / 80.0});
    const NegativeView view{[&](int) { return negative; }, {}};
    refused_properly([&] {
        const PrintReading read = print_read(image, request, view, {1.0, at(15) / 1000.0, 0.2});
        for (const Reading& row : labelled(read, {}))
            require(std::isfinite(row.density), "a density that is no number");
    });
}

void profile(std::string_view bytes) {
    const MemoryFile file(bytes);
    refused_properly([&] {
        const auto read = OutputProfile::named(file.path());
        const Lab grey{50, 0, 0};
        require(
            read.encode({&grey, 1}, Rendering::absolute, {95, 0, 0}).size() == std::size_t(read.channels()),
            "a colour of other channels");
    });
}

// A mask over a frame of 3 to 2.
void mask(std::string_view bytes) {
    const MemoryFile file(bytes);
    refused_properly([&] {
        const LevelGrid grid = picture_levels(file.path(), 48, 32, 1e5);
        require(grid.width > 0 && grid.height > 0 && std::max(grid.width, grid.height) <= kMostLevels,
                "a mask of another size");
        require(grid.level.size() == std::size_t(grid.width) * std::size_t(grid.height),
                "a mask with levels missing");
        require(touched(grid).some > 0, "a mask that touches nothing");
        require(sharpest_rim(grid) > 0, "a rim without a width");
    });
}

// A print that may be its own recipe.
void own_print(std::string_view bytes) {
    const MemoryFile file(bytes);
    refused_properly([&] {
        if (const auto told = property_of_picture(file.path(), "recipe"))
            static_cast<void>(parse_recipe(*told, "recipe"));
    });
}

// What is read must come back from what is written of it.
void labels(std::string_view bytes) {
    refused_properly([&] {
        const auto all = parse_labels(bytes, "labels");
        const auto again = parse_labels(labels_text(all, {}), "written labels");
        require(again.size() == all.size(), "labels lost in writing");
        for (std::size_t i = 0; i < all.size(); ++i) {
            require(again[i].piece == all[i].piece && again[i].kind == all[i].kind, "another piece");
            require(again[i].strip.exposures == all[i].strip.exposures, "other exposures");
        }
        StripRequest request;
        ask_for_pieces(request, all, "labels");
    });
}

void words(std::string_view bytes) {
    refused_properly([&] { static_cast<void>(axis_in(bytes, "axis")); });
    refused_properly([&] { static_cast<void>(exposure_amount(bytes, "exposure")); });
    refused_properly([&] { static_cast<void>(bleach_amount(bytes, "bleach")); });
}

constexpr Target kTargets[] = {{"pack", pack},     {"recipe", recipe},       {"readings", readings},
                               {"cgats", cgats},   {"scan", scan},           {"strip_scan", strip_scan},
                               {"strips", strips}, {"prints", prints},       {"profile", profile},
                               {"words", words},   {"own_print", own_print}, {"labels", labels},
                               {"mask", mask}};

}  // namespace

std::span<const Target> targets() {
    return kTargets;
}

}  // namespace fogproof::fuzz
