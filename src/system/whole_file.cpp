// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/whole_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <sys/statvfs.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <mutex>
#include <system_error>
#include <utility>

#include "fogproof/base/error.hpp"
#include "system/input_file.hpp"
#include "system/interruption.hpp"
#include "system/leftovers.hpp"
#include "system/unfinished.hpp"

namespace fogproof::system {
namespace fs = std::filesystem;

Error cannot_be_written(const fs::path& path, const std::string& why) {
    return Error(Fault::io, path.string(), "cannot be written: " + why,
                 "free space, and permission to write");
}

namespace {

constexpr std::uint64_t kMegabyte = 1'000'000;

std::string reason() {
    return std::strerror(errno);
}

// Symbolic links are followed so that the file they point to is replaced, not the link.
fs::path resolved(const fs::path& target) {
    std::error_code fault;
    const fs::path real = fs::canonical(target, fault);
    return fault ? target : real;
}

fs::path folder_of(const fs::path& target) {
    return target.has_parent_path() ? target.parent_path() : fs::path(".");
}

bool is_missing(const std::error_code& fault) {
    return fault == std::errc::no_such_file_or_directory || fault == std::errc::not_a_directory;
}

// The way to an open file that passes no name which others could change.
fs::path way_to(int descriptor) {
    return "/proc/self/fd/" + std::to_string(descriptor);
}

// No call tells the mask without setting it.
mode_t new_file_mode() {
    static std::mutex one_at_a_time;
    const std::lock_guard held(one_at_a_time);
    const mode_t mask = ::umask(0077);
    ::umask(mask);
    return 0666 & ~mask;
}

// A file without a name, and the rights that any new file there would have: the file system may derive them
// from its folder. It keeps them to itself until it is finished. Not open where there are no such files.
struct Nameless {
    FileDescriptor file;
    unsigned mode = 0;
};
Nameless nameless_in(const fs::path& folder) {
    FileDescriptor file(::open(folder.c_str(), O_TMPFILE | O_RDWR | O_CLOEXEC, 0666));
    struct stat made {};
    const bool can_be_named = file.is_open() && ::access(way_to(file.number()).c_str(), F_OK) == 0 &&
                              ::fstat(file.number(), &made) == 0 && ::fchmod(file.number(), 0600) == 0;
    if (!can_be_named) return {};
    return {std::move(file), made.st_mode & 0777};
}

// Gives an open file a name that is free; false, with errno, when it is not or cannot be.
bool linked(int descriptor, const fs::path& name) {
    return ::linkat(AT_FDCWD, way_to(descriptor).c_str(), AT_FDCWD, name.c_str(), AT_SYMLINK_FOLLOW) == 0;
}

// Renames to a name that is free; false, with errno, when it is not or cannot be. Where the file system
// knows neither way of asking for that, a file made there at the same moment is replaced.
bool renamed_to_free(const fs::path& from, const fs::path& to) {
    if (::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), RENAME_NOREPLACE) == 0) return true;
    if (errno != EINVAL && errno != ENOSYS) return false;
    if (::link(from.c_str(), to.c_str()) == 0) return ::unlink(from.c_str()) == 0;
    if (errno != EPERM && errno != EOPNOTSUPP) return false;
    return ::rename(from.c_str(), to.c_str()) == 0;
}

Error exists_already(const fs::path& target) {
    return Error(Fault::cannot_create, target.string(), "exists already", Advice{"--force replaces it"});
}

Error cannot_be_made(const fs::path& target, const std::string& why) {
    return Error(Fault::cannot_create, target.string(), "cannot be made: " + why,
                 "a folder that you may write to");
}

}  // namespace

void WholeFile::refuse_unwritable(const fs::path& target, Replace replace) {
    const auto refuse = [&](const std::string& found, const char* allowed) {
        throw Error(Fault::cannot_create, target.string(), found, allowed);
    };
    std::error_code fault;
    if (!target.has_filename()) refuse("is no name of a file", "a name in an existing folder");
    const fs::path folder = folder_of(target);
    if (!fs::is_directory(folder, fault))
        refuse(fault && !is_missing(fault) ? "its folder cannot be reached: " + fault.message()
                                           : "its folder does not exist",
               "a name in an existing folder");
    const auto status = fs::status(target, fault);
    if (!fs::exists(status)) {
        std::error_code unknown;
        if (fs::is_symlink(fs::symlink_status(target, unknown)))
            refuse("is a link that leads nowhere", "a file, new or replaced");
        if (fault && !is_missing(fault)) refuse("cannot be made: " + fault.message(), "another name");
    }
    if (fs::exists(status) && !fs::is_regular_file(status))
        refuse("is not a regular file", "a file, new or replaced");
    if (fs::exists(status) && replace == Replace::never) throw exists_already(target);
    const fs::path real = folder_of(resolved(target));
    if (::faccessat(AT_FDCWD, real.c_str(), W_OK | X_OK, AT_EACCESS) != 0)
        throw cannot_be_made(target, reason());
}

WholeFile::WholeFile(fs::path target, Replace replace)
    : told_(std::move(target)), target_(resolved(told_)), replace_(replace) {
    refuse_unwritable(told_, replace_);
    const fs::path folder = folder_of(target_);
    sweep_leftovers(folder);
    if (Nameless made = nameless_in(folder); made.file.is_open()) {
        file_ = std::move(made.file);
        mode_ = made.mode;
    } else {
        make_named();
    }
    hold_temporary(descriptor());
}

void WholeFile::make_named() {
    mode_ = new_file_mode();
    const fs::path folder = folder_of(target_);
    temporary_ = folder / first_name();
    note_unfinished(temporary_.c_str());
    file_ = FileDescriptor(::open(temporary_.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0600));
    if (!file_.is_open()) {
        const std::string why = reason();
        forget_temporary();
        throw cannot_be_made(told_, why);
    }
    struct stat made {};
    if (::fstat(descriptor(), &made) != 0) return;
    fs::path signature = folder / temporary_name(made.st_ino);
    if (!renamed_to_free(temporary_, signature)) return;
    forget_temporary();
    temporary_ = std::move(signature);
    note_unfinished(temporary_.c_str());
}

WholeFile::~WholeFile() {
    if (!temporary_.empty() && is_here(temporary_)) ::unlink(temporary_.c_str());
    forget_temporary();
}

void WholeFile::forget_temporary() {
    if (!temporary_.empty()) forget_unfinished(temporary_.c_str());
    temporary_.clear();
}

bool WholeFile::is_here(const fs::path& path) const {
    struct stat held {
    }, there{};
    return ::fstat(descriptor(), &held) == 0 && ::lstat(path.c_str(), &there) == 0 &&
           held.st_dev == there.st_dev && held.st_ino == there.st_ino;
}

void WholeFile::require_room(std::uint64_t bytes) const {
    struct statvfs room {};
    if (::statvfs(folder_of(target_).c_str(), &room) != 0) return;  // some file systems do not tell
    const auto unit = std::uint64_t(room.f_frsize);
    if (unit == 0 || room.f_blocks == 0 || std::uint64_t(room.f_bavail) >= bytes / unit + 1) return;
    throw Error(Fault::io, told_.string(), "needs " + std::to_string(bytes / kMegabyte + 1) + " MB",
                Advice{std::to_string(room.f_bavail * unit / kMegabyte) + " MB are free there"});
}

void WholeFile::write(std::string_view text) const {
    while (!text.empty()) {
        const ssize_t written = ::write(descriptor(), text.data(), text.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) throw cannot_be_written(told_, reason());
        text.remove_prefix(std::size_t(written));
    }
}

fs::path WholeFile::content() const {
    const fs::path way = way_to(descriptor());
    return temporary_.empty() || ::access(way.c_str(), F_OK) == 0 ? way : temporary_;
}

void WholeFile::sync() const {
    if (::fsync(descriptor()) != 0) throw cannot_be_written(told_, reason());
}

void WholeFile::take_over_rights() const {
    struct stat old {
    }, held{};
    const bool replaces = ::stat(target_.c_str(), &old) == 0;
    // Only a superuser can give a file away; the group may be kept by its members.
    if (replaces && ::fstat(descriptor(), &held) == 0 &&
        (old.st_uid != held.st_uid || old.st_gid != held.st_gid) &&
        ::fchown(descriptor(), old.st_uid, old.st_gid) != 0)
        static_cast<void>(::fchown(descriptor(), uid_t(-1), old.st_gid) != 0);
    // Where a file system has no rights, there are none to take over.
    static_cast<void>(::fchmod(descriptor(), replaces ? old.st_mode & 0777 : mode_));
}

void WholeFile::give_name() {
    if (temporary_.empty()) {
        if (linked(descriptor(), target_)) return;
        if (errno == EEXIST && replace_ == Replace::never) throw exists_already(told_);
        if (errno != EEXIST) throw Error(Fault::io, told_.string(), "cannot be given its name: " + reason());
        // No call replaces a file by one without a name.
        struct stat held {};
        if (::fstat(descriptor(), &held) != 0) throw cannot_be_written(told_, reason());
        temporary_ = folder_of(target_) / temporary_name(held.st_ino);
        note_unfinished(temporary_.c_str());
        if (!linked(descriptor(), temporary_)) {
            const std::string why = reason();
            forget_temporary();
            throw Error(Fault::io, told_.string(), "cannot be given its name: " + why);
        }
    }
    move_to_target();
}

void WholeFile::move_to_target() {
    if (!is_here(temporary_))
        throw Error(Fault::io, told_.string(), "another process has put something in its place",
                    "a folder that nobody else changes");
    const bool moved = replace_ == Replace::never ? renamed_to_free(temporary_, target_)
                                                  : ::rename(temporary_.c_str(), target_.c_str()) == 0;
    if (!moved && errno == EEXIST) throw exists_already(told_);
    if (!moved) throw Error(Fault::io, told_.string(), "cannot be given its name: " + reason());
    forget_temporary();
    if (is_here(target_)) return;
    // Swapped between the look and the move: a link that was moved here would lead the next run astray.
    if (std::error_code unknown; fs::is_symlink(fs::symlink_status(target_, unknown)))
        ::unlink(target_.c_str());
    throw Error(Fault::io, told_.string(), "another process has put something in its place",
                "a folder that nobody else changes");
}

void WholeFile::publish() {
    finish();
    give_name();
    sync_folder();
}

void WholeFile::finish() const {
    take_over_rights();
    sync();
}

void WholeFile::sync_folder() const {
    const FileDescriptor folder(::open(folder_of(target_).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    // A folder that may be written into but not read is synced with all else on its disk.
    if ((folder.is_open() ? ::fsync(folder.number()) : ::syncfs(descriptor())) != 0)
        throw cannot_be_written(told_, reason());
}

void write_whole(const fs::path& target, std::string_view text, WholeFile::Replace replace) {
    WholeFile file(target, replace);
    file.write(text);
    file.publish();
}

std::string read_whole(const fs::path& source, std::size_t limit) {
    const FileDescriptor file = opened_input(source);
    std::string text;
    char buffer[65536];
    while (text.size() <= limit) {
        const ssize_t count = ::read(file.number(), buffer, sizeof buffer);
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) throw Error(Fault::io, source.string(), "cannot be read: " + reason());
        if (count == 0) break;
        text.append(buffer, std::size_t(count));
    }
    if (text.size() > limit)
        throw Error(Fault::data, source.string(), "is larger than " + std::to_string(limit) + " bytes",
                    Advice{"a file of this kind is far smaller"});
    return text;
}

}  // namespace fogproof::system
