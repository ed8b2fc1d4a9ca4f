// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/handwork_files.hpp"

#include "fogproof/base/error.hpp"
#include "fogproof/print/recipe_file.hpp"
#include "picture/handwork_picture.hpp"
#include "picture/picture_options.hpp"

namespace fogproof::cli {
namespace {

std::filesystem::path beside(std::filesystem::path path, const std::string& added,
                             const std::string& suffix) {
    path.replace_filename(path.stem().string() + added + suffix);
    return path;
}

}  // namespace

HandworkFiles::HandworkFiles(const std::filesystem::path& told)
    : burnt(told),
      dodged(beside(told, "-dodged", told.extension().string())),
      recipe(beside(told, "", ".toml")),
      picture(beside(told, "-seen", ".png")) {
    if (picture_format(told) == PictureFormat::jpeg)
        throw Error(Fault::usage, told.string(), "is a JPEG, which holds no mask of 16 bits",
                    "a name that ends in .png or .tif");
}

void HandworkFiles::declare(RunFiles& files, WholeFile::Replace replace) const {
    for (const auto& path : {burnt, dodged, recipe, picture}) {
        files.writes(path, "--handwork");
        WholeFile::refuse_unwritable(path, replace);
    }
}

std::string HandworkFiles::save(const PrintReading& read, const ReflectionImage& image,
                                const std::string& title, OutputSet& files,
                                WholeFile::Replace replace) const {
    const HandworkMap map = handwork_map(read);
    save_handwork_picture(map, read, image, title, files.file(picture, replace));
    Recipe local;
    const auto add = [&](const std::filesystem::path& path, MaskOf what, LocalWork::Kind kind, double most) {
        if (most <= 0) return;
        save_handwork_mask(map, what, files.file(path, replace));
        LocalWork work;
        work.kind = kind;
        work.where = MaskPicture{path.filename().string()};
        work.amount = Stops{most};
        local.local.push_back(work);
    };
    add(burnt, MaskOf::added_light, LocalWork::Kind::burn, map.most_added());
    add(dodged, MaskOf::held_back_light, LocalWork::Kind::dodge, map.most_held_back());
    if (local.local.empty()) {
        constexpr double kMuch = 0.1;
        const bool departs =
            std::ranges::any_of(read.pieces, [](const PrintPiece& piece) { return left_out(piece) > kMuch; });
        return (departs ? "how much of what departs from the tone curve is handwork cannot be told; only "
                        : "no handwork is seen; only ") +
               picture.string() + " is written";
    }
    files.write(recipe, written(local), replace);
    constexpr double kTold = 0.03;
    return "the handwork is local work in " + recipe.string() +
           (map.unseen < kTold
                ? ""
                : "; " + decimal(100 * map.unseen, 0) +
                      " % of the frame is not on the print, and there the masks go on as beside it");
}

}  // namespace fogproof::cli
