// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/picture_options.hpp"

#include <algorithm>
#include <tuple>

#include "cli/choice.hpp"
#include "cli/typed_values.hpp"
#include "picture/builtin_profile.hpp"

namespace fogproof::cli {

void PictureChoices::add_to(CLI::App& app) {
    line = CommandLine(app);
    const std::string group = "Picture";
    app.add_option("--profile", profile, listed(builtin_profile_names()) + ", or an ICC file [srgb]")
        ->group(group);
    app.add_option("--rendering", rendering,
                   "absolute keeps paper tint and fog, relative makes paper white [absolute]")
        ->group(group);
    app.add_option("--view", view, "dry, or bath to see the print under the yellow bleach [dry]")
        ->group(group);
    app.add_option("--bath-depth", bath_depth_mm, "with --view bath: millimetres of bath over the print [5]")
        ->type_name(kMillimetres)
        ->group(group);
    app.add_option("--bits", bits, "8 or 16")->group(group);
    app.add_flag("--compress", compress, "compress a TIFF (deflate)")->group(group);
    app.add_option("--quality", quality, "JPEG: 1 to 100 [95]")->group(group);
    app.add_flag("--verify", verify, "read the picture back and compare it before the file gets its name")
        ->group(group);
    app.add_flag("--force", force, "replace existing files")->group(group);
}

Rendering PictureChoices::chosen_rendering() const {
    return choice<Rendering>({{"absolute", Rendering::absolute}, {"relative", Rendering::relative}},
                             rendering, "--rendering");
}

bool PictureChoices::is_under_bath() const {
    return choice<bool>({{"dry", false}, {"bath", true}}, view, "--view");
}

std::optional<BathLayer> PictureChoices::bath(double ferricyanide_g_l) const {
    if (!is_under_bath()) return std::nullopt;
    return BathLayer{ferricyanide_g_l, within(bath_depth_mm, 0, 100, "--bath-depth")};
}

PictureOptions PictureChoices::options(const std::string& target, int usual_bits) const {
    PictureOptions options;
    const bool jpeg = picture_format(target) == PictureFormat::jpeg;
    if (bits != 0 && bits != 8 && bits != 16)
        throw Error(Fault::usage, "--bits", std::to_string(bits), "8 or 16");
    options.bits = bits != 0 ? bits : jpeg ? 8 : usual_bits;
    refuse_unsavable(target, 1, 1, options.bits);
    options.compress = compress;
    options.verify = verify;
    options.jpeg_quality = int(within(quality, 1, 100, "--quality"));
    options.replace = force ? WholeFile::Replace::allowed : WholeFile::Replace::never;
    return options;
}

std::vector<std::string> PictureChoices::idle_notes(const std::filesystem::path& target) const {
    const PictureFormat format = picture_format(target);
    std::vector<std::string> notes;
    for (const auto& [option, is_idle, purpose] : {std::tuple{"--bath-depth", view != "bath", "--view bath"},
                                                   {"--compress", format != PictureFormat::tiff, "TIFF"},
                                                   {"--quality", format != PictureFormat::jpeg, "JPEG"}})
        if (is_idle && line.gives(option))
            notes.push_back(std::string(option) + " goes with " + purpose + ", so it changes nothing here");
    return notes;
}

std::vector<std::string> PictureChoices::undrawn_notes(const std::string& drawn_by) const {
    const auto given = line.all_of({"--profile", "--rendering", "--view", "--bath-depth", "--bits",
                                    "--compress", "--quality", "--verify"});
    if (given.empty()) return {};
    return {"no picture is drawn without " + drawn_by + ", so " + change_nothing(given)};
}

Description described(const std::vector<Description>& parts, const std::filesystem::path& target,
                      const Console& console) {
    Description all;
    for (const auto& part : parts) all.insert(all.end(), part.begin(), part.end());
    Description held = held_by(picture_format(target), all);
    for (const auto& [name, value] : all)
        if (std::ranges::find(held, name, &Description::value_type::first) == held.end())
            console.notes({"left out of what the picture says about itself: " + name +
                           ", too long for a JPEG; TIFF and PNG hold it"},
                          target.string());
    return held;
}

}  // namespace fogproof::cli
