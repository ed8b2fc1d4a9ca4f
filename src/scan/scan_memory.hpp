// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What reading a scan takes of the machine's memory, told from its header.
#pragma once

#include <cstdint>
#include <filesystem>

#include "fogproof/rooms.hpp"

namespace fogproof::scan {

/// Bytes, rather too many than too few: lines pass through in strips, but scans that have to be turned and
/// interlaced ones are held whole, and coded ones once decoded. Any scan may have to be set upright: what
/// that takes is counted. Throws as Scan::open does for a file without a usable header.
[[nodiscard]] std::uint64_t memory_to_read(const std::filesystem::path&);

}  // namespace fogproof::scan
