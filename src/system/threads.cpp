// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/threads.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <limits>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

#include "system/processors.hpp"

namespace fogproof::system {
namespace {

// This thread works beside others.
thread_local bool is_one_of_many = false;

class Crew {
  public:
    Crew(std::size_t bands, const std::function<std::unique_ptr<BandWorker>()>& hire)
        : bands_(bands), hire_(hire) {}

    void one() noexcept {
        std::size_t band = 0;
        try {
            const auto worker = hire_();
            while (!failed_ && (band = next_++) < bands_) worker->work(band);
            const std::lock_guard held(lock_);
            if (!failed_) worker->finish();
        } catch (...) {
            const std::lock_guard held(lock_);
            failed_ = true;
            if (band < lowest_) {
                lowest_ = band;
                fault_ = std::current_exception();
            }
        }
    }
    void rethrow() const {
        if (fault_) std::rethrow_exception(fault_);
    }

  private:
    const std::size_t bands_;
    const std::function<std::unique_ptr<BandWorker>()>& hire_;
    std::atomic<std::size_t> next_{0};
    std::atomic<bool> failed_{false};
    std::mutex lock_;
    std::size_t lowest_ = std::numeric_limits<std::size_t>::max();
    std::exception_ptr fault_;
};

class PlainWorker : public BandWorker {
  public:
    explicit PlainWorker(const std::function<void(std::size_t)>& act) : act_(act) {}
    void work(std::size_t band) override { act_(band); }

  private:
    const std::function<void(std::size_t)>& act_;
};

}  // namespace

void in_parallel(std::size_t count, const std::function<void(std::size_t)>& work, unsigned threads) {
    if (is_one_of_many) threads = 1;
    work_in_bands(count, threads, [&] { return std::make_unique<PlainWorker>(work); });
}

unsigned workers_for(std::size_t bands, unsigned threads) {
    if (threads == 0) threads = processors();
    return unsigned(std::clamp<std::size_t>(bands, 1, threads));
}

void work_in_bands(std::size_t bands, unsigned threads,
                   const std::function<std::unique_ptr<BandWorker>()>& hire) {
    Crew crew(bands, hire);
    {
        std::vector<std::jthread> others;
        try {
            for (unsigned each = 1; each < workers_for(bands, threads); ++each)
                others.emplace_back([&crew] {
                    is_one_of_many = true;
                    crew.one();
                });
        } catch (const std::system_error&) {
            // Where no more threads may be had, those there are do the work.
        }
        const bool before = std::exchange(is_one_of_many, is_one_of_many || !others.empty());
        crew.one();
        is_one_of_many = before;
    }
    crew.rethrow();
}

}  // namespace fogproof::system
