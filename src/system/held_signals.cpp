// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/held_signals.hpp"

#include <sys/signalfd.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "fogproof/base/error.hpp"

namespace fogproof::system {

HeldSignals::HeldSignals() {
    sigset_t held;
    sigemptyset(&held);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
        struct sigaction now {};
        ::sigaction(signal, nullptr, &now);
        if (now.sa_handler != SIG_IGN) sigaddset(&held, signal);
    }
    file_ = FileDescriptor(::signalfd(-1, &held, SFD_CLOEXEC | SFD_NONBLOCK));
    if (!file_.is_open()) throw Error(Fault::unavailable, "signals", std::strerror(errno));
    ::pthread_sigmask(SIG_BLOCK, &held, &before_);
}

HeldSignals::~HeldSignals() {
    release();
}

void HeldSignals::release() const {
    ::pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

}  // namespace fogproof::system
