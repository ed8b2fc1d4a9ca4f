// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Room for what need not stay in memory.
#pragma once

#include <cstdint>
#include <optional>

#include "fogproof/rooms.hpp"
#include "system/file_descriptor.hpp"

namespace fogproof::system {

/// An empty file without a name, which goes with its descriptor, in the folder $TMPDIR or else /var/tmp.
/// Nothing where there can be none, or where so many bytes would leave little room for the files of others.
[[nodiscard]] std::optional<FileDescriptor> scratch_file(std::uint64_t bytes);

}  // namespace fogproof::system
