// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <iostream>
#include <memory>
#include <optional>

#include "cli/choice.hpp"
#include "cli/verbs.hpp"
#include "fogproof/base/whole_file.hpp"
#include "fogproof/pack/file.hpp"
#include "fogproof/pack/from_slips.hpp"

namespace fogproof::cli {
namespace {

struct NewOptions {
    Slips slips;
    std::string output, surface = "gloss", tint;
    std::optional<double> graded;
    bool force = false;
};

std::variant<Tint, TintReading> tint_in(const std::string& text) {
    const auto parts = split(text, ',');
    if (parts.size() == 2) {
        const auto a = number_in(parts[0]), b = number_in(parts[1]);
        if (a && b) return TintReading{*a, *b};
    }
    return choice<Tint>({{"neutral", Tint::neutral}, {"cold", Tint::cold}, {"warm", Tint::warm}}, text,
                        "--tint");
}

void make(NewOptions options) {
    Slips& slips = options.slips;
    slips.surface = choice<Surface>(
        {{"gloss", Surface::gloss}, {"semi-matt", Surface::semi_matt}, {"matt", Surface::matt}},
        options.surface, "--surface");
    if (!options.tint.empty()) slips.tint = tint_in(options.tint);
    if (options.graded) slips.grade = options.graded;
    if (slips.grade || slips.iso_range) slips.contrast = Contrast::graded;
    write_whole(options.output, written(pack_from_slips(slips)),
                options.force ? WholeFile::Replace::allowed : WholeFile::Replace::never);
}

void add_new(CLI::App& pack) {
    auto* verb = pack.add_subcommand("new", "a pack from two slips: one only fixed, one developed unexposed");
    const auto options = std::make_shared<NewOptions>();
    verb->add_option("--white", options->slips.white_density, "density of the fixed-only slip")->required();
    verb->add_option("--blank", options->slips.blank_density, "density of the slip developed unexposed")
        ->required();
    verb->add_option("--black-density", options->slips.black_density,
                     "density of a fully exposed slip, if you have one");
    verb->add_option("--surface", options->surface, "gloss, semi-matt or matt [gloss]");
    verb->add_option("--graded", options->graded,
                     "graded paper: its grade; without it the paper is variable contrast");
    verb->add_option("--iso-range", options->slips.iso_range,
                     "graded paper: its ISO range instead of a grade");
    verb->add_option("--tint", options->tint,
                     "base as the eye names it: neutral, cold, warm; or A,B in CIELAB");
    verb->add_option("--name", options->slips.name, "what you call the pack");
    verb->add_option("-o,--output", options->output, "file of the pack")->required();
    verb->add_flag("--force", options->force, "replace an existing file");
    verb->callback([options] { make(*options); });
}

}  // namespace

void add_pack(CLI::App& program, const Console& console) {
    auto* verb = program.add_subcommand("pack", "describe a pack of paper: new, check, show");
    verb->require_subcommand(1);
    add_new(*verb);
    static_cast<void>(console);
}

}  // namespace fogproof::cli
