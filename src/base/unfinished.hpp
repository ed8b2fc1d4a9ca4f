// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Names of the files being written just now, kept where a signal handler can find them.
#pragma once

namespace fogproof {

/// Keeps a name, whose text must stay where it is until it is forgotten. Where more files are written at once
/// than there is room for, the others are not swept up after an interruption.
void note_unfinished(const char* path);
void forget_unfinished(const char* path);

}  // namespace fogproof
