// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/render/scan_memory.hpp"

#include <algorithm>

#include "fogproof/render/scan.hpp"
#include "render/scan_file.hpp"

namespace fogproof {
namespace {

// Measured on scans of 0.3 to 100 megapixels and rounded up: libraries, tables and small pictures, and the
// lines that are on their way between reader and writer (a row of tiles, in and out).
constexpr std::uint64_t kAlways = 100u << 20, kLines = 1024;
constexpr std::uint64_t kDeepest = 8;  // bytes of a sample at work

}  // namespace

std::uint64_t memory_to_read(const std::filesystem::path& path) {
    const ScanFile file(path, ScanOptions{}.max_pixels);
    const vips::VImage& header = file.header();
    const auto line = std::uint64_t(header.width()) * std::uint64_t(header.bands()) * kDeepest;
    const auto sample = std::uint64_t(vips_format_sizeof(header.format()));
    const auto whole = std::uint64_t(header.width()) * std::uint64_t(header.height()) *
                       std::uint64_t(header.bands()) * sample;
    return kAlways + (file.is_held_whole() ? whole : std::min(whole, line * kLines));
}

}  // namespace fogproof
