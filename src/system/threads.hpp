// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Work in numbered bands, handed out to threads in rising order, each to the next free one.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <utility>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

class BandWorker {
  public:
    virtual ~BandWorker() = default;
    virtual void work(std::size_t band) = 0;
    /// After this worker's last band; one worker at a time.
    virtual void finish() {}
};

/// Has every band worked on once. `threads` 0 is one for each processor. When bands fail, no further ones are
/// begun, and what the lowest of them threw is thrown again: whichever way the bands were spread, the same
/// fault is reported.
void work_in_bands(std::size_t bands, unsigned threads,
                   const std::function<std::unique_ptr<BandWorker>()>& hire);
/// The same for work that keeps nothing from one band to the next. Within work that is spread already it is
/// done by the thread that asks.
void in_parallel(std::size_t count, const std::function<void(std::size_t)>& work, unsigned threads = 0);
[[nodiscard]] unsigned workers_for(std::size_t bands, unsigned threads);

/// Takes what bands yield in any order and passes it on in theirs. Whoever is more than `ahead` bands in
/// front waits for the others.
template <class Yield>
class InOrder {
  public:
    InOrder(std::size_t ahead, std::function<void(Yield)> take) : ahead_(ahead), take_(std::move(take)) {}

    void hand_in(std::size_t band, Yield yield) {
        std::unique_lock held(lock_);
        moved_.wait(held, [&] { return abandoned_ || band <= next_ + ahead_; });
        if (abandoned_) return;
        waiting_.emplace(band, std::move(yield));
        for (auto first = waiting_.begin(); first != waiting_.end() && first->first == next_;
             first = waiting_.begin()) {
            take_(std::move(first->second));
            waiting_.erase(first);
            ++next_;
        }
        moved_.notify_all();
    }
    /// After a fault: nobody waits for a band that will not come.
    void abandon() {
        const std::lock_guard held(lock_);
        abandoned_ = true;
        moved_.notify_all();
    }

  private:
    std::size_t ahead_, next_ = 0;
    std::function<void(Yield)> take_;
    std::mutex lock_;
    std::condition_variable moved_;
    std::map<std::size_t, Yield> waiting_;
    bool abandoned_ = false;
};

}  // namespace fogproof::system
