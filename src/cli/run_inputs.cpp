// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/run_inputs.hpp"

#include "cli/darkroom_file.hpp"

namespace fogproof::cli {

RunFiles run_that_reads(const std::vector<std::string>& inputs) {
    RunFiles files;
    for (const auto& input : inputs) files.reads(input);
    files.reads(DarkroomFile::usual_path());
    return files;
}

}  // namespace fogproof::cli
