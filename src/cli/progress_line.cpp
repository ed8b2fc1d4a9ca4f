// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/progress_line.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <iostream>
#include <string_view>

#include "base/markup.hpp"
#include "system/progress.hpp"

namespace fogproof::cli {
namespace {

using Clock = std::chrono::steady_clock;
using Length = std::chrono::duration<double>;

constexpr double kPatience = 1, kBetween = 0.2;  // seconds
constexpr std::size_t kUsualWidth = 80;

struct Line {
    std::string work;
    Clock::time_point begun, told;
    bool stands = false;
};
Line line;

std::size_t terminal_width() {
    struct winsize size {};
    return ::ioctl(STDERR_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 1 ? size.ws_col : kUsualWidth;
}

void tell(const std::string& work, double share) {
    // Also false in a worker process, whose standard error is a notebook of its parent's.
    if (::isatty(STDERR_FILENO) == 0) return;
    const auto now = Clock::now();
    if (work != line.work) {
        erase_progress();
        line = {work, now, {}, false};
    }
    const auto words = progress_words(work, share, Length(now - line.begun).count());
    if (!words) return erase_progress();
    if (line.stands && Length(now - line.told).count() < kBetween) return;
    line.told = now;
    line.stands = true;
    std::cerr << "\r\033[K" << beginning_within(*words, terminal_width() - 1) << std::flush;
}

}  // namespace

std::optional<std::string> progress_words(const std::string& work, double share, double elapsed_s) {
    if (elapsed_s < kPatience || !(share > 0 && share < 1)) return std::nullopt;
    const double left = elapsed_s / share * (1 - share);
    const std::string time = left < 99.5 ? std::to_string(std::max(1, int(left + 0.5))) + " s"
                                         : std::to_string(int(left / 60 + 0.5)) + " min";
    return "fogproof: " + plain_line(work) + ": " + std::to_string(int(100 * share)) + " %, " + time +
           " left";
}

void show_progress() {
    const char* const terminal = std::getenv("TERM");
    if (terminal == nullptr || std::string_view(terminal) == "dumb") return;
    if (::isatty(STDERR_FILENO) != 0) listen_to_progress(tell);
}

void erase_progress() {
    if (line.stands) std::cerr << "\r\033[K" << std::flush;
    line.stands = false;
}

}  // namespace fogproof::cli
