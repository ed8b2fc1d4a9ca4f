// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// `read PRINT --negative NEG --handwork MAP`: the files that hold what a hand did to a print.
#pragma once

#include <filesystem>
#include <string>

#include "fogproof/rooms.hpp"
#include "reading/handwork_map.hpp"
#include "system/output_set.hpp"
#include "system/run_files.hpp"

namespace fogproof::cli {

struct HandworkFiles {
    std::filesystem::path burnt;    ///< a mask, as told
    std::filesystem::path dodged;   ///< NAME-dodged
    std::filesystem::path recipe;   ///< NAME.toml: both as local work
    std::filesystem::path picture;  ///< NAME-seen.png

    /// Throws Error(Fault::usage) for a suffix that holds no 16-bit mask.
    explicit HandworkFiles(const std::filesystem::path& told);
    /// Refuses what may not be written.
    void declare(RunFiles&, WholeFile::Replace) const;
    /// The picture always; masks and recipe of what was done. Says in words what was written.
    [[nodiscard]] std::string save(const PrintReading&, const ReflectionImage&, const std::string& title,
                                   OutputSet&, WholeFile::Replace) const;
};

}  // namespace fogproof::cli
