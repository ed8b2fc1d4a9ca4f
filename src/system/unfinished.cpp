// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/unfinished.hpp"

#include <signal.h>
#include <unistd.h>

#include <array>
#include <atomic>

#include "system/interruption.hpp"

namespace fogproof::system {
namespace {

std::array<std::atomic<const char*>, 64> names{};
std::atomic<int> holds{0}, waiting{0};  // of EndingsHeld; the signal that came meanwhile
static_assert(std::atomic<const char*>::is_always_lock_free && std::atomic<int>::is_always_lock_free,
              "a signal handler reads them");

void exchange(const char* now, const char* then) {
    for (auto& name : names)
        if (const char* expected = now; name.compare_exchange_strong(expected, then)) return;
}

// Only what POSIX allows in a handler: unlink, sigaction, raise.
extern "C" void sweep_and_end(int signal) {
    if (holds.load() > 0) {
        waiting.store(signal);
        // The hold may have ended between the look and the note; then nobody else reads the note.
        if (holds.load() > 0 || waiting.exchange(0) == 0) return;
    }
    for (const auto& name : names)
        if (const char* const path = name.load()) ::unlink(path);
    struct sigaction usual {};
    usual.sa_handler = SIG_DFL;
    ::sigaction(signal, &usual, nullptr);
    ::raise(signal);
}

}  // namespace

void note_unfinished(const char* path) {
    exchange(nullptr, path);
}

void forget_unfinished(const char* path) {
    exchange(path, nullptr);
}

EndingsHeld::EndingsHeld() {
    ++holds;
}

EndingsHeld::~EndingsHeld() {
    if (--holds > 0) return;
    if (const int signal = waiting.exchange(0)) ::raise(signal);
}

void leave_nothing_when_interrupted() {
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
        struct sigaction before {};
        ::sigaction(signal, nullptr, &before);
        if (before.sa_handler == SIG_IGN) continue;
        struct sigaction sweep {};
        sweep.sa_handler = sweep_and_end;
        ::sigaction(signal, &sweep, nullptr);
    }
}

}  // namespace fogproof::system
