// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Names of the files being written just now, kept where a signal handler can find them; and what the handler
// waits for.
#pragma once

#include "fogproof/rooms.hpp"

namespace fogproof::system {

/// Keeps a name, whose text must stay where it is until it is forgotten. Where more files are written at once
/// than there is room for, the others are not swept up after an interruption.
void note_unfinished(const char* path);
void forget_unfinished(const char* path);

/// Signals that would end the process wait while one of these lives, whichever thread they come to: some of
/// the files that belong together have their names by then, the others have not. After the last one the
/// process ends by the signal that came.
class EndingsHeld {
  public:
    EndingsHeld();
    ~EndingsHeld();
    EndingsHeld(const EndingsHeld&) = delete;
    EndingsHeld& operator=(const EndingsHeld&) = delete;
};

}  // namespace fogproof::system
