// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/progress.hpp"

#include <mutex>

namespace fogproof::system {
namespace {

ProgressListener listener;
std::mutex telling;

}  // namespace

void listen_to_progress(ProgressListener who) {
    listener = std::move(who);
}

bool somebody_listens() {
    return bool(listener);
}

void tell_progress(const std::string& work, double share) {
    const std::lock_guard held(telling);
    if (listener) listener(work, share);
}

}  // namespace fogproof::system
