// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <memory>

#include "base/markup.hpp"
#include "cli/darkroom_file.hpp"
#include "cli/verbs.hpp"
#include "fogproof/base/error.hpp"
#include "system/whole_file.hpp"

namespace fogproof::cli {
namespace {

namespace fs = std::filesystem;

fs::path path_or_refusal() {
    const fs::path path = DarkroomFile::usual_path();
    if (path.empty())
        throw Error(Fault::config, "darkroom", "neither XDG_CONFIG_HOME nor HOME names a folder",
                    "one of them set to an absolute path");
    return path;
}

void write_blank(const fs::path& path, const Console& console) {
    if (std::error_code unknown; fs::exists(path, unknown))
        throw Error(Fault::cannot_create, path.string(), "exists already",
                    Advice{"edit it, or move it away first"});
    std::error_code fault;
    fs::create_directories(path.parent_path(), fault);
    if (fault) throw Error(Fault::cannot_create, path.parent_path().string(), fault.message());
    write_whole(path, DarkroomFile::blank(), WholeFile::Replace::never);
    console.notes({"written, nothing set yet"}, path.string());
}

void show(const fs::path& path) {
    const DarkroomFile file(path);
    std::error_code unknown;
    const bool is_there = fs::exists(path, unknown);
    Console::answer(plain_line(path.string()) +
                    (is_there ? "\n" : ": not there; fogproof darkroom --new writes it\n"));
    for (const auto& setting : file.settings())
        Console::answer("  " + setting.section + ": " + setting.key + " " + plain_line(setting.value) + "\n");
    if (is_there && file.settings().empty()) Console::answer("  nothing set\n");
}

}  // namespace

void add_darkroom(CLI::App& program, const Console& console) {
    auto* verb = program.add_subcommand("darkroom", "show the settings that hold for every command here");
    const auto fresh = std::make_shared<bool>(false);
    verb->add_flag("--new", *fresh, "write the settings file, for you to fill in");
    verb->callback([fresh, &console] {
        const fs::path path = path_or_refusal();
        if (*fresh)
            write_blank(path, console);
        else
            show(path);
    });
}

}  // namespace fogproof::cli
