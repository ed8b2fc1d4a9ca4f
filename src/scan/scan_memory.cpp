// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/scan_memory.hpp"

#include <algorithm>

#include "scan/scan.hpp"
#include "scan/scan_file.hpp"
#include "scan/turned_codes.hpp"

namespace fogproof::scan {
namespace {

// Printing and planning scans of 0.1 to 100 megapixels, strips and tiles, grey and RGB, peaked at 60 MB and
// up to 7.3 kB more for each sample of a line, for the lines on their way from reader to writer (a row of
// tiles, in and out). Rounded up.
constexpr std::uint64_t kAlways = 100u << 20, kLines = 1024, kSampleAtWork = 8;

}  // namespace

std::uint64_t memory_to_read(const std::filesystem::path& path) {
    const ScanFile file(path, ScanOptions{}.max_pixels);
    const auto samples = std::uint64_t(file.width()) * std::uint64_t(file.bands());
    const auto height = std::uint64_t(file.height());
    const auto whole = samples * height * std::uint64_t(file.bytes_of_sample());
    const std::size_t code_bytes =
        samples == std::uint64_t(file.width()) && file.format() == VIPS_FORMAT_UCHAR ? 1 : 2;
    return kAlways + samples * kSampleAtWork * std::min(height, kLines) + (file.is_held_whole() ? whole : 0) +
           memory_to_turn(file.width(), file.height(), code_bytes);
}

}  // namespace fogproof::scan
