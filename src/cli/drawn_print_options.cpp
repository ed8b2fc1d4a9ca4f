// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/drawn_print_options.hpp"

#include <utility>

#include "cli/run_inputs.hpp"
#include "scan/local_masks.hpp"

namespace fogproof::cli {

void DrawnPrintOptions::add_to(CLI::App& verb) {
    pack.add_to(verb);
    recipe.add_to(verb);
    sheet.add_to(verb, kSheetGroup);
    negative.add_to(verb);
    picture.add_to(verb);
}

DrawnPrintOptions::Taken DrawnPrintOptions::taken(const std::vector<std::string>& negatives,
                                                  const Console& console) const {
    std::vector<std::string> inputs = negatives;
    inputs.insert(inputs.end(), {pack.path, recipe.file, picture.profile});
    RunFiles files = run_that_reads(inputs);
    Recipe asked = recipe.recipe();
    for (const auto& mask : mask_files(asked)) files.reads(mask);
    PackOptions::Taken read = pack.taken();
    console.remarks(read.remarks, {});
    files.reads(read.pack.edge_fog.map);
    return {std::move(asked), std::move(read.pack), std::move(files), std::move(read.remarks.warnings)};
}

}  // namespace fogproof::cli
