// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// All files that one run reads and all that it writes, held against each other before anything is written.
#pragma once

#include <sys/types.h>

#include <filesystem>
#include <map>
#include <string>
#include <tuple>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

/// Two names are of one file when device and inode are the same; of a file that is not there yet, when the
/// folder is the same and the name in it.
class RunFiles {
  public:
    /// A file that the run reads; an empty name is none. To be told before the outputs.
    void reads(const std::filesystem::path&);
    /// A file that the run writes, and what it is of, for which it is named in a message. Throws
    /// Error(Fault::usage) when the run reads that file or writes it twice, and for "-", which means standard
    /// output elsewhere.
    void writes(const std::filesystem::path&, const std::string& of);

  private:
    using Identity = std::tuple<dev_t, ino_t, std::string>;
    [[nodiscard]] static Identity identity_of(const std::filesystem::path&);

    struct Output {
        std::filesystem::path path;
        std::string of;
    };
    std::map<Identity, std::filesystem::path> inputs_;
    std::map<Identity, Output> outputs_;
};

}  // namespace fogproof::system
