// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/picture_kind.hpp"

#include <unistd.h>

#include "system/input_file.hpp"

namespace fogproof::system {

using namespace std::string_view_literals;

namespace {

struct Start {
    std::string_view bytes;
    PictureKind kind;
};
// TIFF 6.0 section 2, and BigTIFF; PNG clause 5.2; ITU-T T.81 B.1.1.3: start of image, then another marker.
constexpr Start kStarts[] = {
    {"II*\0"sv, PictureKind::tiff},
    {"MM\0*"sv, PictureKind::tiff},
    {"II+\0"sv, PictureKind::tiff},
    {"MM\0+"sv, PictureKind::tiff},
    {"\x89PNG\r\n\x1a\n"sv, PictureKind::png},
    {"\xff\xd8\xff"sv, PictureKind::jpeg},
};
constexpr std::size_t kTellingBytes = 8;

}  // namespace

std::string name_of(PictureKind kind) {
    switch (kind) {
        case PictureKind::tiff:
            return "TIFF";
        case PictureKind::png:
            return "PNG";
        case PictureKind::jpeg:
            break;
    }
    return "JPEG";
}

std::optional<PictureKind> picture_kind_of(std::string_view beginning) {
    for (const Start& start : kStarts)
        if (beginning.starts_with(start.bytes)) return start.kind;
    return std::nullopt;
}

std::optional<PictureKind> picture_kind(const std::filesystem::path& source) {
    return picture_kind_of(beginning_of(source, kTellingBytes));
}

// What cannot be read has no beginning; reading the whole of it says why.
std::string beginning_of(const std::filesystem::path& source, std::size_t most) {
    const FileDescriptor file = opened_input(source);
    std::string bytes(most, '\0');
    const ssize_t count = ::pread(file.number(), bytes.data(), bytes.size(), 0);
    bytes.resize(count < 0 ? 0 : std::size_t(count));
    return bytes;
}

}  // namespace fogproof::system
