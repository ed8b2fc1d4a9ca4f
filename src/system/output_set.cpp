// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/output_set.hpp"

#include <sys/resource.h>

#include <string>

#include "system/unfinished.hpp"

namespace fogproof::system {
namespace fs = std::filesystem;

namespace {

constexpr std::size_t kFewFiles = 16;

// Each file of a set stays open until the last is whole. The usual limit is there for programs that use
// select(), and a process may raise it up to the hard one (POSIX.1-2017, setrlimit).
void allow_many_open_files() {
    struct rlimit limit {};
    if (::getrlimit(RLIMIT_NOFILE, &limit) != 0 || limit.rlim_cur == limit.rlim_max) return;
    limit.rlim_cur = limit.rlim_max;
    ::setrlimit(RLIMIT_NOFILE, &limit);
}

}  // namespace

WholeFile& OutputSet::file(const fs::path& target, WholeFile::Replace replace) {
    if (files_.size() == kFewFiles) allow_many_open_files();
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
    return Error(why.fault(), "", why.what(),
                 Advice{"incomplete: written " + there + "; missing " + missing});
}

}  // namespace fogproof::system
