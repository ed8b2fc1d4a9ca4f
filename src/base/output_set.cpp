// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/base/output_set.hpp"

#include <string>
#include <vector>

#include "base/unfinished.hpp"
#include "fogproof/base/words.hpp"

namespace fogproof {
namespace fs = std::filesystem;

WholeFile& OutputSet::file(const fs::path& target, WholeFile::Replace replace) {
    return files_.emplace_back(target, replace);
}

void OutputSet::write(const fs::path& target, std::string_view text, WholeFile::Replace replace) {
    file(target, replace).write(text);
}

void OutputSet::place() {
    for (const auto& file : files_) file.finish();
    for (const auto& file : files_) WholeFile::refuse_unwritable(file.target(), file.replace());
    {
        const EndingsHeld held;
        give_names();
    }
    for (const auto& file : files_) file.sync_folder();
    files_.clear();
}

void OutputSet::give_names() {
    for (std::size_t i = 0; i < files_.size(); ++i) try {
            files_[i].give_name();
        } catch (const Error& why) {
            if (i == 0) throw;
            throw incomplete(why, i);
        }
}

Error OutputSet::incomplete(const Error& why, std::size_t written) const {
    std::string there, missing;
    for (std::size_t i = 0; i < files_.size(); ++i) {
        std::string& names = i < written ? there : missing;
        names += (names.empty() ? "" : ", ") + files_[i].target().string();
    }
    return Error(why.fault(), "", why.what(), "incomplete: written " + there + "; missing " + missing);
}

}  // namespace fogproof
