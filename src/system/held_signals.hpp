// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Signals that ask a process to end, kept waiting while it has workers to see off first.
#pragma once

#include <signal.h>

#include "fogproof/rooms.hpp"
#include "system/file_descriptor.hpp"

namespace fogproof::system {

/// SIGINT, SIGTERM and SIGHUP are held from construction on, but for those that this process ignores.
class HeldSignals {
  public:
    HeldSignals();
    ~HeldSignals();
    HeldSignals(const HeldSignals&) = delete;
    HeldSignals& operator=(const HeldSignals&) = delete;

    /// Becomes readable once one of them has come; not to be read.
    [[nodiscard]] int descriptor() const { return file_.number(); }
    /// Signals come through again as before, those that have come meanwhile at once.
    void release() const;

  private:
    sigset_t before_{};
    FileDescriptor file_;
};

}  // namespace fogproof::system
