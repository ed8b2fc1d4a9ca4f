// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// What is left of whole files when the process that writes them is ended: nothing.
#pragma once

#include <sys/types.h>

#include <filesystem>

namespace fogproof {

/// From now on SIGINT, SIGTERM and SIGHUP, unless they are ignored, remove the temporary files of every
/// WholeFile before they end the process as usual. For programs; the library itself handles no signals.
void leave_nothing_when_interrupted();

/// Removes the temporary files that a process, ended in another way, has left in a folder.
void sweep_up_after(pid_t ended, const std::filesystem::path& folder);

}  // namespace fogproof
