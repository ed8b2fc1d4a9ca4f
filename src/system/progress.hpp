// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// How far long work has come, for a listener.
#pragma once

#include <atomic>
#include <cstddef>
#include <functional>
#include <string>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

/// Told what is being done and the share of it that is done, 0 to 1; from any thread, one at a time.
using ProgressListener = std::function<void(const std::string& work, double share)>;
/// From now on this one is told, or nobody. To be called while there is one thread.
void listen_to_progress(ProgressListener);
[[nodiscard]] bool somebody_listens();
void tell_progress(const std::string& work, double share);

/// Work in steps of about the same length, done by any number of threads.
class WorkSteps {
  public:
    WorkSteps(std::string work, std::size_t count) : work_(std::move(work)), count_(count) {}
    void done(std::size_t steps = 1) {
        const std::size_t done = done_ += steps;
        if (somebody_listens()) tell_progress(work_, double(done) / double(count_));
    }

  private:
    std::string work_;
    std::size_t count_;
    std::atomic<std::size_t> done_{0};
};

}  // namespace fogproof::system
