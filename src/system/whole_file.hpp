// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Outputs appear whole or not at all: written into a file that has no name yet, synced, then named. Where a
// file system has no such files, into one of a hidden name in the same folder. What a killed process could
// not remove any more, the next one to write into that folder removes.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

#include "fogproof/base/error.hpp"
#include "fogproof/rooms.hpp"
#include "system/file_descriptor.hpp"

namespace fogproof::system {

/// The fault of a file whose content could not be written, whoever was writing it.
[[nodiscard]] Error cannot_be_written(const std::filesystem::path&, const std::string& why);

/// A file being written. Unless `publish` is reached nothing of it remains. Its content goes through the one
/// descriptor from beginning to end: no name is opened twice, so nobody else's file can be met there.
class WholeFile {
  public:
    enum class Replace { never, allowed };

    WholeFile(std::filesystem::path target, Replace replace);
    ~WholeFile();
    WholeFile(const WholeFile&) = delete;
    WholeFile& operator=(const WholeFile&) = delete;

    /// Refuses (Fault::cannot_create) when the folder is missing or may not be written into, when the name is
    /// too long, when target is a link to nowhere or no regular file, or when it exists and replacing was not
    /// allowed. Asked by the constructor; asked earlier it saves work in vain.
    static void refuse_unwritable(const std::filesystem::path& target, Replace replace);

    /// The target as it was named.
    [[nodiscard]] const std::filesystem::path& target() const { return told_; }
    [[nodiscard]] Replace replace() const { return replace_; }
    /// Refuses (Fault::io) when the file system has no room for so many bytes; asked before they are made, it
    /// saves work in vain.
    void require_room(std::uint64_t bytes) const;
    /// For writing and reading the content; stays this file's own.
    [[nodiscard]] int descriptor() const { return file_.number(); }
    /// Writes at the end. Throws Fault::io.
    void write(std::string_view) const;
    /// A path that leads to the content while this lives, for whoever must open it to read it back.
    [[nodiscard]] std::filesystem::path content() const;
    /// Has the content written out, so that it can be read back from the disk.
    void sync() const;
    /// The three steps below.
    void publish();
    /// Everything but the name: the content is on the disk. What replaces a file takes over its rights and,
    /// where that may be done, its owner. Throws Fault::io.
    void finish() const;
    /// The name of the target. Throws Fault::io, or Fault::cannot_create when it is taken by now.
    void give_name();
    /// Has the name on the disk too. Throws Fault::io.
    void sync_folder() const;

  private:
    void take_over_rights() const;
    void move_to_target();
    void make_named();
    void forget_temporary();
    [[nodiscard]] bool is_here(const std::filesystem::path&) const;

    std::filesystem::path told_, target_;
    std::filesystem::path temporary_;  ///< empty while the file has no name
    Replace replace_;
    unsigned mode_ = 0600;  ///< of the finished file, if new
    FileDescriptor file_;   ///< keeps the file held while it is in work
};

/// Writes text as one whole file.
void write_whole(const std::filesystem::path& target, std::string_view text, WholeFile::Replace replace);
/// The whole content of a regular file of at most `limit` bytes; Fault::no_input otherwise.
[[nodiscard]] std::string read_whole(const std::filesystem::path& source, std::size_t limit = 64u << 20);

}  // namespace fogproof::system
