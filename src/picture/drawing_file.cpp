// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/drawing_file.hpp"

#include <vips/vips8>

#include "fogproof/base/error.hpp"
#include "scan/vips_session.hpp"

namespace fogproof::picture {
namespace {

// The SVG loader is blocked in the session; it is let in for one drawing of our own.
class SvgLoader {
  public:
    SvgLoader() { vips_operation_block_set("VipsForeignLoadSvg", FALSE); }
    ~SvgLoader() { vips_operation_block_set("VipsForeignLoadSvg", TRUE); }
    SvgLoader(const SvgLoader&) = delete;
    SvgLoader& operator=(const SvgLoader&) = delete;
};

}  // namespace

void refuse_undrawable(const std::filesystem::path& path) {
    if (path.extension() != ".svg" && path.extension() != ".png")
        throw Error(Fault::usage, path.string(), "is no drawing", ".svg or .png");
}

void save_drawing(const std::string& svg, const std::filesystem::path& target, WholeFile::Replace replace) {
    WholeFile file(target, replace);
    save_drawing(svg, file);
    file.publish();
}

void save_drawing(const std::string& svg, WholeFile& file) {
    const std::filesystem::path& target = file.target();
    refuse_undrawable(target);
    if (target.extension() == ".svg") return file.write(svg);
    vips_ready();
    try {
        const VipsWatch watch;
        const SvgLoader allowed;
        vips::VImage::svgload_buffer(vips_blob_copy(svg.data(), svg.size()),
                                     vips::VImage::option()->set("scale", 2))
            .flatten(vips::VImage::option()->set("background", 255))
            .pngsave_target(vips::VTarget::new_to_descriptor(file.descriptor()),
                            vips::VImage::option()->set("strip", true));
        watch.require_clean(target.string());
    } catch (const vips::VError& failure) {
        throw Error(Fault::unavailable, target.string(), std::string("cannot be drawn: ") + failure.what());
    }
}

}  // namespace fogproof::picture
