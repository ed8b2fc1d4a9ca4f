// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Files that belong together, such as a picture and the numbers beside it: all of them are written before
// the first has its name.
#pragma once

#include <deque>
#include <filesystem>
#include <string_view>

#include "fogproof/rooms.hpp"
#include "system/whole_file.hpp"

namespace fogproof::system {

/// Unless `place` is reached nothing of the set remains.
class OutputSet {
  public:
    /// A further file of the set, to be written by its maker; lives as long as the set.
    [[nodiscard]] WholeFile& file(const std::filesystem::path& target, WholeFile::Replace);
    /// A further file of the set, of text.
    void write(const std::filesystem::path& target, std::string_view text, WholeFile::Replace);
    /// Has all of them on the disk, asks once more whether each may have its name, then names one after the
    /// other in their order; signals that end the process wait meanwhile. Where a name still fails, the
    /// error tells which files of the set are there and which are missing.
    void place();

  private:
    void give_names();
    [[nodiscard]] Error incomplete(const Error& why, std::size_t written) const;

    std::deque<WholeFile> files_;
};

}  // namespace fogproof::system
