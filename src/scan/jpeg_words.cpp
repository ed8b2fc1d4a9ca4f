// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The segments of a JPEG (ITU-T T.81, annex B; JFIF is T.871).
#include <algorithm>
#include <array>

#include "fogproof/base/error.hpp"
#include "scan/file_words.hpp"

namespace fogproof::scan {
namespace {

enum Marker : unsigned {
    kFirstFrame = 0xc0,
    kHuffmanTable = 0xc4,
    kReserved = 0xc8,
    kArithmetic = 0xcc,
    kLastFrame = 0xcf,
    kFirstRestart = 0xd0,
    kEnd = 0xd9,
    kScan = 0xda,
    kApp0 = 0xe0,   // JFIF: resolution
    kApp1 = 0xe1,   // EXIF, XMP
    kApp2 = 0xe2,   // ICC
    kApp14 = 0xee,  // how three channels make RGB
    kApp15 = 0xef,
    kComment = 0xfe,
};

// Ten are common, the most careful packers make some thirty; each is decoded over the whole picture.
constexpr int kMostPasses = 100;
constexpr std::uint64_t kTogether = 1 << 16;

bool begins_frame(unsigned marker) {
    return marker >= kFirstFrame && marker <= kLastFrame && marker != kHuffmanTable && marker != kReserved &&
           marker != kArithmetic;
}

class JpegWalk {
  public:
    explicit JpegWalk(const std::filesystem::path& path) : path_(path), bytes_(bytes_of(path)) {
        std::error_code unknown;
        end_ = std::filesystem::file_size(path_, unknown);
    }

    FileWords words() {
        keep(0, 2);
        std::uint64_t at = 2;
        unsigned marker = 0;
        while ((marker = next_marker(at)) != kScan) {
            const std::uint64_t size = segment(at);
            if (begins_frame(marker)) components_ = byte(at + 7);
            if (marker == kApp1) take_exif(at, size);
            const bool is_aside =
                (marker >= kApp1 && marker <= kApp15 && marker != kApp2 && marker != kApp14) ||
                marker == kComment;
            if (!is_aside) keep(at - 2, size + 2);
            at += size;
        }
        // One pass that holds every component is the whole picture.
        if (byte(at + 2) < components_ || is_progressive_) require_few_passes(at);
        keep(at - 2, end_ - (at - 2));
        return std::move(words_);
    }

  private:
    [[noreturn]] void refuse(const std::string& why) const {
        throw Error(Fault::data, path_.string(), "is damaged (" + why + ")", kPictureAllowed);
    }
    [[nodiscard]] unsigned byte(std::uint64_t at) const {
        std::byte read{};
        if (!bytes_(at, std::span(&read, 1))) refuse("it ends before its pixels begin");
        return unsigned(read);
    }
    // Length of the segment whose length stands there.
    [[nodiscard]] std::uint64_t segment(std::uint64_t at) const {
        const std::uint64_t size = byte(at) << 8 | byte(at + 1);
        if (size < 2) refuse("a segment is shorter than its own length");
        if (size > end_ - at) refuse("it ends before its pixels begin");
        return size;
    }
    // The marker from there on; `at` then stands behind it.
    [[nodiscard]] unsigned next_marker(std::uint64_t& at) {
        if (byte(at++) != 0xff) refuse("there is no segment where one should begin");
        unsigned marker = 0xff;
        while (marker == 0xff) marker = byte(at++);
        if (marker == kEnd) refuse("it holds no pixels");
        if (marker == 0xc2 || marker == 0xc6 || marker == 0xca || marker == 0xce) is_progressive_ = true;
        return marker;
    }
    void keep(std::uint64_t from, std::uint64_t size) {
        if (!words_.parts.empty() && words_.parts.back().from + words_.parts.back().size == from)
            words_.parts.back().size += size;
        else
            words_.parts.push_back({from, size});
    }
    void take_exif(std::uint64_t at, std::uint64_t size) {
        constexpr std::string_view kName("Exif\0", 6);
        std::array<std::byte, 6> name{};
        if (size < 8 || has_exif_ || !bytes_(at + 2, name) ||
            !std::ranges::equal(name, kName, [](std::byte a, char b) { return a == std::byte(b); }))
            return;
        has_exif_ = true;
        if (const auto exif = TiffEntries::first(bytes_of_part(bytes_, at + 8, size - 8)))
            add_exif(*exif, words_);
    }
    // Coded pixels hold no marker but restarts, so every other one stands between passes.
    void require_few_passes(std::uint64_t at) const {
        std::vector<std::byte> some;
        int passes = 1;
        for (bool is_marker = false; at < end_;) {
            some.resize(std::size_t(std::min(kTogether, end_ - at)));
            if (!bytes_(at, some)) return;
            std::size_t i = 0;
            for (; i < some.size(); ++i) {
                const auto code = unsigned(some[i]);
                if (!is_marker) {
                    is_marker = code == 0xff;
                    continue;
                }
                is_marker = code == 0xff;
                if (code == kEnd) return;
                if (code == kScan && ++passes > kMostPasses)
                    throw Error(Fault::data, path_.string(), "is coded in more than 100 passes",
                                "at most 100; save it again, as TIFF or as plain JPEG");
                // Tables between passes may hold any bytes.
                if (code > kEnd && code < 0xff) {
                    std::array<std::byte, 2> size{};
                    if (!bytes_(at + i + 1, size)) return;
                    i += std::size_t(size[0]) << 8 | std::size_t(size[1]);
                }
            }
            at += i;
        }
    }

    const std::filesystem::path& path_;
    BytesAt bytes_;
    std::uint64_t end_ = 0;
    FileWords words_;
    unsigned components_ = 0;
    bool has_exif_ = false, is_progressive_ = false;
};

}  // namespace

FileWords words_of_jpeg(const std::filesystem::path& path) {
    return JpegWalk(path).words();
}

}  // namespace fogproof::scan
