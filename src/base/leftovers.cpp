// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "base/leftovers.hpp"

#include <fcntl.h>
#include <signal.h>
#include <sys/file.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <charconv>
#include <optional>
#include <vector>

#include "fogproof/base/interruption.hpp"

namespace fogproof {
namespace fs = std::filesystem;
namespace {

constexpr std::string_view kEnding = ".tmp";

template <class Number>
std::optional<Number> whole_number(std::string_view text) {
    Number number{};
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (fault != std::errc{} || end != text.data() + text.size() || number < 0) return std::nullopt;
    return number;
}

// The process that wrote ".NAME.PROCESS.SERIAL.tmp"; nothing for any other name.
std::optional<pid_t> writer_of(std::string_view name) {
    if (!name.starts_with('.') || !name.ends_with(kEnding)) return std::nullopt;
    name.remove_suffix(kEnding.size());
    const auto serial = name.rfind('.');
    if (serial == 0 || serial == std::string_view::npos) return std::nullopt;
    const auto process = name.rfind('.', serial - 1);
    if (process == 0 || process == std::string_view::npos) return std::nullopt;
    if (!whole_number<int>(name.substr(serial + 1))) return std::nullopt;
    const auto writer = whole_number<pid_t>(name.substr(process + 1, serial - process - 1));
    return writer && *writer > 0 ? writer : std::nullopt;
}

bool has_ended(pid_t process) {
    return ::kill(process, 0) != 0 && errno == ESRCH;
}

// Another machine or container counts its processes anew; there the lock alone tells that a file is in work.
bool is_held(const fs::path& path) {
    const int descriptor = ::open(path.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
    if (descriptor < 0) return true;
    const bool held = ::flock(descriptor, LOCK_EX | LOCK_NB) != 0;
    ::close(descriptor);
    return held;
}

}  // namespace

std::string temporary_name(const fs::path& target) {
    static std::atomic<int> serial{0};
    return "." + target.filename().string() + "." + std::to_string(::getpid()) + "." +
           std::to_string(serial++) + std::string(kEnding);
}

void hold_temporary(int descriptor) {
    // Where a file system has no locks, the number of the process has to do.
    static_cast<void>(::flock(descriptor, LOCK_EX | LOCK_NB));
}

void sweep_leftovers(const fs::path& folder) {
    std::error_code fault;
    std::vector<fs::path> leftovers;
    for (auto entry = fs::directory_iterator(folder, fault); !fault && entry != fs::directory_iterator();
         entry.increment(fault)) {
        const auto writer = writer_of(entry->path().filename().string());
        std::error_code unknown;
        if (writer && has_ended(*writer) && fs::is_regular_file(entry->symlink_status(unknown)))
            leftovers.push_back(entry->path());
    }
    for (const auto& path : leftovers)
        if (!is_held(path)) ::unlink(path.c_str());
}

}  // namespace fogproof
