// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/ending.hpp"

#include <exception>
#include <new>
#include <string>

#include "base/markup.hpp"
#include "cli/console.hpp"
#include "fogproof/base/error.hpp"

namespace fogproof::cli {

int ending_of(const std::function<int()>& work) noexcept {
    try {
        return work();
    } catch (const Error& error) {
        Console::fault(error.what());
        return int(error.fault());
    } catch (const std::bad_alloc&) {
        Console::fault("out of memory");
        return int(Fault::unavailable);
    } catch (const std::exception& defect) {
        Console::fault("internal defect: " + plain_line(defect.what()));
        return int(Fault::internal);
    }
}

}  // namespace fogproof::cli
