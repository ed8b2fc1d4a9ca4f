// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What is left of whole files when the process that writes them is ended: nothing.
#pragma once

#include <filesystem>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

/// From now on SIGINT, SIGTERM and SIGHUP, unless they are ignored, remove the temporary files of every
/// WholeFile before they end the process as usual. For programs; the library itself handles no signals.
void leave_nothing_when_interrupted();

/// Removes the temporary files in a folder whose process has ended in another way and that no process holds
/// any more. Every WholeFile does so before it begins.
void sweep_leftovers(const std::filesystem::path& folder);

}  // namespace fogproof::system
