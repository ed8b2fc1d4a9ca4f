// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <filesystem>
#include <iostream>
#include <memory>

#include "cli/run_inputs.hpp"
#include "cli/verbs.hpp"
#include "demo/demo.hpp"

namespace fogproof::cli {
namespace {

struct DemoOptions {
    std::string folder;
    double megapixels = 6;
    bool force = false;
};

}  // namespace

void add_demo(CLI::App& program, const Console& console) {
    auto* verb =
        program.add_subcommand("demo", "write an invented scenario: a negative, a print, a pack, readings");
    const auto options = std::make_shared<DemoOptions>();
    verb->add_option("DIR", options->folder, "folder to write into; made if it does not exist")->required();
    verb->add_option("--megapixels", options->megapixels, "size of the scan, 0.3 to 400 [6]");
    verb->add_flag("--force", options->force, "replace existing files");
    verb->callback([options, &console] {
        RunFiles files = run_that_reads({});
        for (const char* name : kDemoFiles)
            files.writes(std::filesystem::path(options->folder) / name, "the demo");
        write_demo(options->folder, options->megapixels,
                   options->force ? WholeFile::Replace::allowed : WholeFile::Replace::never);
        console.notes(
            {"negative.tif, print.jpg, print-labels.csv, pack.toml, readings.csv and README.txt written"},
            options->folder);
    });
}

}  // namespace fogproof::cli
