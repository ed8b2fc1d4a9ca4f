// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The chunks of a PNG (Portable Network Graphics, third edition, W3C 2025).
#include <algorithm>
#include <array>
#include <cctype>

#include "fogproof/base/error.hpp"
#include "scan/file_words.hpp"

namespace fogproof::scan {
namespace {

constexpr std::size_t kSignature = 8, kAround = 12;  // bytes: of the file, of length, name and checksum
constexpr std::uint32_t kLargestChunk = 0x7fffffff;
constexpr std::size_t kMostColour = 32;  // bytes of the largest chunk that tells colour
// Beside the critical ones. Texts, which may unpack to gigabytes, and EXIF are kept from the decoder.
constexpr std::array<std::string_view, 3> kKept{"tRNS", "iCCP", "pHYs"};

using Colour = std::vector<std::uint32_t>;  // bytes, or numbers of four

std::uint32_t number_at(std::span<const std::byte> bytes, std::size_t place) {
    std::uint32_t number = 0;
    for (std::size_t i = 0; i < 4; ++i) number = number << 8 | std::uint32_t(bytes[place + i]);
    return number;
}

// Clause 5.5.
std::uint32_t checksum(std::span<const std::byte> bytes) {
    std::uint32_t sum = 0xffffffff;
    for (const std::byte each : bytes) {
        sum ^= std::uint32_t(each);
        for (int bit = 0; bit < 8; ++bit) sum = sum >> 1 ^ ((sum & 1) != 0 ? 0xedb88320u : 0u);
    }
    return ~sum;
}

class PngWalk {
  public:
    explicit PngWalk(const std::filesystem::path& path) : path_(path), bytes_(bytes_of(path)) {}

    FileWords words() {
        std::error_code unknown;
        const std::uint64_t end = std::filesystem::file_size(path_, unknown);
        keep(0, kSignature);
        for (std::uint64_t at = kSignature; at < end;) {
            std::array<std::byte, 8> head{};
            if (!bytes_(at, head)) break;
            const std::uint32_t size = number_at(head, 0);
            std::string name;
            for (std::size_t i = 4; i < 8; ++i) name += char(head[i]);
            if (!std::ranges::all_of(name, [](unsigned char each) { return std::isalpha(each) != 0; }))
                refuse("a chunk has no name");
            const bool is_picture = (name[0] & 0x20) == 0;
            const std::uint64_t whole = kAround + std::uint64_t(size);
            if (!is_picture && (size > kLargestChunk || whole > end - at))
                refuse("its chunk " + name + " does not end within the file");
            if (is_picture || std::ranges::find(kKept, name) != kKept.end())
                keep(at, std::min(whole, end - at));
            if (name == "IDAT") pixels_began_ = true;
            if (!pixels_began_) take(name, at, size);
            if (name == "IEND" || whole > end - at) break;
            at += whole;
        }
        if (!pixels_began_) refuse("it holds no pixels");
        settle();
        return std::move(words_);
    }

  private:
    [[noreturn]] void refuse(const std::string& why) const {
        throw Error(Fault::data, path_.string(), "is damaged (" + why + ")", kPictureAllowed);
    }

    void keep(std::uint64_t from, std::uint64_t size) {
        if (!words_.parts.empty() && words_.parts.back().from + words_.parts.back().size == from)
            words_.parts.back().size += size;
        else
            words_.parts.push_back({from, size});
    }

    void take(const std::string& name, std::uint64_t at, std::uint32_t size) {
        if (name == "IHDR") return require_size(at, size);
        if (name == "eXIf") {
            if (const auto exif = TiffEntries::first(bytes_of_part(bytes_, at + 8, size)))
                add_exif(*exif, words_);
            return;
        }
        constexpr std::pair<std::string_view, std::uint32_t> told[] = {
            {"cICP", 4}, {"sRGB", 1}, {"gAMA", 4}, {"cHRM", kMostColour}};
        const auto known = std::ranges::find(told, name, [](const auto& each) { return each.first; });
        if (known == std::end(told)) return;
        std::array<std::byte, 4 + kMostColour + 4> chunk{};
        const std::span all(chunk.data(), std::min<std::size_t>(size, kMostColour) + 8);
        if (size != known->second || !bytes_(at + 4, all) ||
            number_at(all, 4 + size) != checksum(all.first(4 + size))) {
            words_.notes.push_back("the " + name + " chunk of the file is damaged and is not used");
            return;
        }
        Colour colour;
        if (name == "gAMA" || name == "cHRM")
            for (std::size_t i = 0; i < size; i += 4) colour.push_back(number_at(all, 4 + i));
        else
            for (std::size_t i = 0; i < size; ++i) colour.push_back(std::uint32_t(all[4 + i]));
        colours_.emplace(name, std::move(colour));
    }

    void require_size(std::uint64_t at, std::uint32_t size) const {
        std::array<std::byte, 8> sides{};
        if (size != 13 || !bytes_(at + 8, sides)) refuse("its header is cut short");
        const std::uint32_t width = number_at(sides, 0), height = number_at(sides, 4);
        const std::string found = std::to_string(width) + " x " + std::to_string(height) + " pixels";
        if (width == 0 || height == 0) refuse("its header promises " + found);
        if (std::max(width, height) > std::uint32_t(kLongestSide))
            throw Error(Fault::data, path_.string(), found,
                        "at most " + std::to_string(kLongestSide) + " a side");
    }

    // Clause 4.3: of what is told more than once, cICP counts first, then iCCP, sRGB, gAMA with cHRM.
    void settle() {
        std::vector<ToldCoding> exif;
        std::swap(exif, words_.codings);
        if (colours_.contains("cICP")) settle_video(colours_["cICP"]);
        if (colours_.contains("sRGB")) words_.codings.push_back({"sRGB chunk", coding_of(Encoding::srgb)});
        if (colours_.contains("gAMA")) settle_gamma(colours_["gAMA"][0]);
        words_.codings.insert(words_.codings.end(), exif.begin(), exif.end());
    }

    void settle_video(const Colour& told) {
        const auto coding = h273_coding(int(told[0]), int(told[1]));
        if (coding && told[2] == 0 && told[3] == 1)
            words_.codings.push_back({"cICP chunk", *coding, true});
        else
            words_.notes.push_back("the cICP chunk of the file (primaries " + std::to_string(told[0]) +
                                   ", transfer " + std::to_string(told[1]) + ", matrix " +
                                   std::to_string(told[2]) + ", range " + std::to_string(told[3]) +
                                   ") stands for no coding of a scan and is not used");
    }

    // In steps of 1/100000, and of what made the samples; light is the power the other way round.
    void settle_gamma(std::uint32_t gamma) {
        constexpr double kUnit = 100000, kLeast = 0.1, kMost = 10;
        if (gamma < kLeast * kUnit || gamma > kMost * kUnit) {
            words_.notes.push_back("the gAMA chunk of the file is outside 0.1 to 10 and is not used");
            return;
        }
        Coding coding = power_coding(kUnit / gamma);
        if (colours_.contains("cHRM")) {
            const Colour& all = colours_["cHRM"];
            const auto point = [&](std::size_t i) {
                return Chromaticity{double(all[2 * i]) / kUnit, double(all[2 * i + 1]) / kUnit};
            };
            const auto luminance = luminance_of(point(0), std::array{point(1), point(2), point(3)});
            if (luminance)
                coding.luminance = *luminance;
            else
                words_.notes.push_back("the cHRM chunk of the file makes no colours and is not used");
        }
        words_.codings.push_back({"gAMA chunk", coding});
    }

    const std::filesystem::path& path_;
    BytesAt bytes_;
    FileWords words_;
    std::map<std::string, Colour> colours_;
    bool pixels_began_ = false;
};

}  // namespace

FileWords words_of_png(const std::filesystem::path& path) {
    return PngWalk(path).words();
}

}  // namespace fogproof::scan
