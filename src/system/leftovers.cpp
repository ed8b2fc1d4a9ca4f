// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/leftovers.hpp"

#include <fcntl.h>
#include <signal.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <charconv>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/words.hpp"
#include "system/file_descriptor.hpp"
#include "system/interruption.hpp"

namespace fogproof::system {
namespace fs = std::filesystem;
namespace {

constexpr std::string_view kBeginning = ".fogproof-", kEnding = ".tmp";

std::string name_of(const std::string& rest) {
    static std::atomic<int> serial{0};
    return std::string(kBeginning) + std::to_string(::getpid()) + "-" + std::to_string(serial++) + rest +
           std::string(kEnding);
}

std::optional<unsigned long long> whole_number(std::string_view text) {
    unsigned long long number = 0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (fault != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return number;
}

struct Signature {
    pid_t writer;
    ino_t inode;
};

// What ".fogproof-PROCESS-SERIAL-INODE.tmp" says; nothing for any other name.
std::optional<Signature> signature_in(std::string_view name) {
    if (!name.starts_with(kBeginning) || !name.ends_with(kEnding) ||
        name.size() < kBeginning.size() + kEnding.size())
        return std::nullopt;
    name.remove_prefix(kBeginning.size());
    name.remove_suffix(kEnding.size());
    const auto parts = split(name, '-');
    if (parts.size() != 3 || !whole_number(parts[1])) return std::nullopt;
    const auto writer = whole_number(parts[0]), inode = whole_number(parts[2]);
    if (!writer || *writer == 0 || *writer > unsigned(INT32_MAX) || !inode) return std::nullopt;
    return Signature{pid_t(*writer), ino_t(*inode)};
}

bool has_ended(pid_t process) {
    return ::kill(process, 0) != 0 && errno == ESRCH;
}

// The file is of this user, is the one that its name speaks of, and nobody holds it: another machine or
// container counts its processes anew, and there the lock alone tells that a file is in work.
bool is_left(const fs::path& path, ino_t inode) {
    const FileDescriptor file(::open(path.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC));
    struct stat found {};
    return file.is_open() && ::fstat(file.number(), &found) == 0 && S_ISREG(found.st_mode) &&
           found.st_ino == inode && found.st_uid == ::geteuid() &&
           ::flock(file.number(), LOCK_EX | LOCK_NB) == 0;
}

}  // namespace

fs::path temporary_name(ino_t inode) {
    return name_of(std::string("-").append(std::to_string(inode)));
}

fs::path first_name() {
    return name_of("");
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
        const auto signature = signature_in(entry->path().filename().string());
        if (signature && has_ended(signature->writer) && is_left(entry->path(), signature->inode))
            leftovers.push_back(entry->path());
    }
    for (const auto& path : leftovers) ::unlink(path.c_str());
}

}  // namespace fogproof::system
