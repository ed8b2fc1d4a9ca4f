// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "demo/rows.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace fogproof::demo {

void for_each_row(int rows, int threads, const std::function<void(int)>& work) {
    std::atomic<int> next{0};
    std::mutex guard;
    std::exception_ptr failure;
    const auto worker = [&] {
        try {
            for (int row = next++; row < rows; row = next++) work(row);
        } catch (...) {
            const std::lock_guard lock(guard);
            if (!failure) failure = std::current_exception();
            next = rows;
        }
    };
    std::vector<std::jthread> others;
    for (int i = 1; i < std::min(threads, rows); ++i) others.emplace_back(worker);
    worker();
    others.clear();
    if (failure) std::rethrow_exception(failure);
}

}  // namespace fogproof::demo
