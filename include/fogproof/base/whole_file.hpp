// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Outputs appear whole or not at all: written under a temporary name in the same folder, synced, then
// renamed. What a killed process could not remove any more, the next one to write into that folder removes.
#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>

#include "fogproof/base/error.hpp"

namespace fogproof {

/// The fault of a file whose content could not be written, whoever was writing it.
[[nodiscard]] Error cannot_be_written(const std::filesystem::path&, const std::string& why);

/// A file being written beside its final place. Unless `publish` is reached nothing of it remains.
class WholeFile {
  public:
    enum class Replace { never, allowed };

    WholeFile(std::filesystem::path target, Replace replace);
    ~WholeFile();
    WholeFile(const WholeFile&) = delete;
    WholeFile& operator=(const WholeFile&) = delete;

    /// Refuses (Fault::cannot_create) when the folder is missing, when target is not a regular file, or when
    /// it exists and replacing was not allowed. Asked by the constructor; asked earlier it saves work in
    /// vain.
    static void refuse_unwritable(const std::filesystem::path& target, Replace replace);

    /// Refuses (Fault::io) when the file system has no room for so many bytes; asked before they are made, it
    /// saves work in vain.
    void require_room(std::uint64_t bytes) const;
    /// Where the content goes; an empty file exists there already.
    [[nodiscard]] const std::filesystem::path& temporary() const { return temporary_; }
    /// Has the content written out, so that it can be read back from the disk.
    void sync() const;
    /// fsync, rename to the target, fsync of the folder. Throws Fault::io when any of them fails.
    void publish();

  private:
    std::string told_;  ///< the target as it was named
    std::filesystem::path target_, temporary_;
    Replace replace_;
    int descriptor_ = -1;  ///< keeps the temporary file held while it is in work
};

/// Writes text as one whole file.
void write_whole(const std::filesystem::path& target, std::string_view text, WholeFile::Replace replace);
/// The whole content of a regular file of at most `limit` bytes; Fault::no_input otherwise.
[[nodiscard]] std::string read_whole(const std::filesystem::path& source, std::size_t limit = 64u << 20);
/// True when both paths lead to the same existing file.
[[nodiscard]] bool same_file(const std::filesystem::path& a, const std::filesystem::path& b);

}  // namespace fogproof
