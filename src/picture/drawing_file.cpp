// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/drawing_file.hpp"

#include <vips/vips8>

#include "fogproof/base/error.hpp"
#include "scan/vips_call.hpp"
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
        const vips::VImage drawn = made_by_vips([&](VipsImage** made) {
            // libvips only reads through this pointer.
            return vips_svgload_buffer(const_cast<char*>(svg.data()), svg.size(), made, "scale", 2.0,
                                       nullptr);
        });
        const std::unique_ptr<VipsArrayDouble, void (*)(VipsArrayDouble*)> white(
            vips_array_double_newv(1, 255.0),
            [](VipsArrayDouble* held) { vips_area_unref(VIPS_AREA(held)); });
        const vips::VImage flat = made_by_vips([&](VipsImage** made) {
            return vips_flatten(drawn.get_image(), made, "background", white.get(), nullptr);
        });
        const vips::VTarget to = vips::VTarget::new_to_descriptor(file.descriptor());
        require_done(vips_pngsave_target(flat.get_image(), to.get_target(), "strip", TRUE, nullptr));
        watch.require_clean(target.string());
    } catch (const vips::VError& failure) {
        throw Error(Fault::unavailable, target.string(), std::string("cannot be drawn: ") + failure.what());
    }
}

}  // namespace fogproof::picture
