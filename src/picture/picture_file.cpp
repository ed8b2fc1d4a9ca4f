// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/picture_file.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>

#include "fogproof/base/error.hpp"
#include "picture/xmp.hpp"
#include "pixels/tiff_directory.hpp"
#include "scan/vips_call.hpp"
#include "scan/vips_session.hpp"

namespace fogproof::picture {
namespace {

using vips::VImage;
using vips::VTarget;

constexpr int kLargestJpegSide = 65500;  // libjpeg
constexpr auto kColourPerPixel = VIPS_FOREIGN_SUBSAMPLE_OFF;
constexpr std::size_t kLargestXmp = 65502;  // XMP Specification Part 3, JPEG: one segment of it

bool is_deep(const VImage& image) {
    return image.format() == VIPS_FORMAT_USHORT;
}

int bits_of(const VImage& image) {
    return is_deep(image) ? 16 : 8;
}

double raw_bytes(const VImage& image) {
    const int bytes_of_sample = bits_of(image) / 8;
    return double(image.width()) * image.height() * image.bands() * bytes_of_sample;
}

// The pixels without anything that their sources said about themselves, and with what we say.
VImage labelled(const VImage& image, const OutputProfile& profile, const PictureOptions& options,
                PictureFormat format) {
    const bool grey = image.bands() == 1, deep = is_deep(image);
    const auto meaning = grey ? (deep ? VIPS_INTERPRETATION_GREY16 : VIPS_INTERPRETATION_B_W)
                              : (deep ? VIPS_INTERPRETATION_RGB16 : VIPS_INTERPRETATION_sRGB);
    VImage bare = made_by_vips([&](VipsImage** made) {
        return vips_copy(image.get_image(), made, "interpretation", meaning, "xres", options.pixels_per_mm,
                         "yres", options.pixels_per_mm, nullptr);
    });
    gchar** const fields = vips_image_get_fields(bare.get_image());
    for (gchar** field = fields; *field != nullptr; ++field) vips_image_remove(bare.get_image(), *field);
    g_strfreev(fields);
    const auto put = [&](const char* name, const void* data, std::size_t size) {
        vips_image_set_blob_copy(bare.get_image(), name, data, size);
    };
    put(VIPS_META_ICC_NAME, profile.icc().data(), profile.icc().size());
    if (const std::string packet = xmp_of(options, format); !packet.empty())
        put(VIPS_META_XMP_NAME, packet.data(), packet.size());
    return bare;
}

void save_tiff(const VImage& image, const VTarget& file, const PictureOptions& options) {
    const int bigtiff = raw_bytes(image) > kLargestClassicTiff;
    const auto compression =
        options.compress ? VIPS_FOREIGN_TIFF_COMPRESSION_DEFLATE : VIPS_FOREIGN_TIFF_COMPRESSION_NONE;
    require_done(vips_tiffsave_target(image.get_image(), file.get_target(), "bigtiff", bigtiff, "resunit",
                                      VIPS_FOREIGN_TIFF_RESUNIT_CM, "compression", compression, "predictor",
                                      VIPS_FOREIGN_TIFF_PREDICTOR_HORIZONTAL, nullptr));
}

// Measured on a 24 megapixel print: higher levels are slower, and at 16 bit no smaller.
void save_png(const VImage& image, const VTarget& file) {
    require_done(vips_pngsave_target(image.get_image(), file.get_target(), "filter",
                                     VIPS_FOREIGN_PNG_FILTER_SUB, "compression", is_deep(image) ? 3 : 1,
                                     nullptr));
}

void save_jpeg(const VImage& image, const VTarget& file, const PictureOptions& options) {
    require_done(vips_jpegsave_target(image.get_image(), file.get_target(), "Q", options.jpeg_quality,
                                      "subsample_mode", kColourPerPixel, nullptr));
}

// Reads the picture back to its end and holds it against its own making; what JPEG keeps is no longer that,
// so there it is decoded and measured.
void require_readable(const VImage& image, const std::filesystem::path& file, PictureFormat format,
                      const std::string& name) {
    const char* loader = format == PictureFormat::tiff  ? "tiffload"
                         : format == PictureFormat::png ? "pngload"
                                                        : "jpegload";
    const VipsWatch watch;
    bool same = false;
    try {
        const VImage back = made_by_vips([&](VipsImage** made) {
            return vips_call(loader, file.c_str(), made, "access", VIPS_ACCESS_SEQUENTIAL, "fail_on",
                             VIPS_FAIL_ON_WARNING, nullptr);
        });
        same = back.width() == image.width() && back.height() == image.height() &&
               back.bands() == image.bands() && back.format() == image.format();
        if (same) same = format == PictureFormat::jpeg ? back.avg() >= 0 : (back != image).max() == 0;
    } catch (const vips::VError&) {
        same = false;
    }
    const std::string complaint = watch.complaint();
    vips_error_clear();
    if (!same || !complaint.empty())
        throw Error(Fault::io, name,
                    "reads back differently from how it was written" +
                        (complaint.empty() ? "" : " (" + complaint + ")"));
}

}  // namespace

Description held_by(PictureFormat format, Description said) {
    if (format != PictureFormat::jpeg) return said;
    // The longest goes first, so that the fewest do; the first property says how the picture was made.
    while (said.size() > 1 && xmp_packet(said).size() > kLargestXmp)
        said.erase(std::ranges::max_element(said.begin() + 1, said.end(), {},
                                            [](const auto& property) { return property.second.size(); }));
    if (xmp_packet(said).size() > kLargestXmp) said.clear();
    return said;
}

std::string xmp_of(const PictureOptions& options, PictureFormat format) {
    const Description said = held_by(format, options.description);
    return said.empty() ? std::string() : xmp_packet(said);
}

PictureFormat picture_format(const std::filesystem::path& path) {
    std::string suffix = path.extension().string();
    for (char& c : suffix)
        if (c >= 'A' && c <= 'Z') c = char(c - 'A' + 'a');
    if (suffix == ".tif" || suffix == ".tiff") return PictureFormat::tiff;
    if (suffix == ".png") return PictureFormat::png;
    if (suffix == ".jpg" || suffix == ".jpeg") return PictureFormat::jpeg;
    throw Error(Fault::usage, path.empty() ? "output" : path.string(),
                suffix.empty() ? "has no suffix" : "has the unknown suffix " + suffix,
                Advice{"pictures are written as .tif, .tiff, .png, .jpg or .jpeg"});
}

void refuse_unsavable(const std::filesystem::path& path, int width, int height, int bits) {
    if (picture_format(path) != PictureFormat::jpeg) return;
    if (bits > 8)
        throw Error(Fault::usage, path.string(), "JPEG at " + std::to_string(bits) + " bits",
                    Advice{"JPEG holds 8 bits; use .tif or .png for 16"});
    if (std::max(width, height) > kLargestJpegSide)
        throw Error(
            Fault::usage, path.string(),
            "JPEG of " + std::to_string(width) + " x " + std::to_string(height) + " pixels",
            Advice{"JPEG holds at most " + std::to_string(kLargestJpegSide) + " a side; use .tif or .png"});
}

void save_picture(const VImage& image, const std::filesystem::path& path, const OutputProfile& profile,
                  const PictureOptions& options) {
    save_picture([&image] { return image; }, path, profile, options);
}

void save_picture(const std::function<VImage()>& drawn, const std::filesystem::path& path,
                  const OutputProfile& profile, const PictureOptions& options) {
    WholeFile file(path, options.replace);
    save_picture(drawn, file, profile, options);
    file.publish();
}

void save_picture(const std::function<VImage()>& drawn, WholeFile& file, const OutputProfile& profile,
                  const PictureOptions& options) {
    const std::filesystem::path& path = file.target();
    vips_ready();
    const VImage image = drawn();
    const bool savable =
        (image.format() == VIPS_FORMAT_UCHAR || is_deep(image)) && image.bands() == profile.channels();
    if (!savable) throw Error(Fault::internal, path.string(), "is no picture that the profile describes");
    refuse_unsavable(path, image.width(), image.height(), bits_of(image));
    const PictureFormat format = picture_format(path);
    if (format == PictureFormat::tiff && !options.compress)
        file.require_room(std::uint64_t(raw_bytes(image)));
    const VipsWatch watch;
    const auto refuse = [&](const std::string& why) {
        vips_error_clear();
        throw cannot_be_written(path, in_few_words(why));
    };
    try {
        const VTarget to = VTarget::new_to_descriptor(file.descriptor());
        const VImage picture = labelled(image, profile, options, format);
        switch (format) {
            case PictureFormat::tiff:
                save_tiff(picture, to, options);
                break;
            case PictureFormat::png:
                save_png(picture, to);
                break;
            case PictureFormat::jpeg:
                save_jpeg(picture, to, options);
                break;
        }
    } catch (const vips::VError& error) {
        const std::string complaint = watch.complaint();
        refuse(complaint.empty() ? error.what() : complaint);
    }
    // A call that returned normally may still have met damage in what it read.
    if (const std::string complaint = watch.complaint(); !complaint.empty()) refuse(complaint);
    if (options.verify) {
        file.sync();
        require_readable(drawn(), file.content(), format, path.string());
    }
}

std::string jpeg_bytes(const VImage& image, const OutputProfile& profile, const PictureOptions& options) {
    const VipsWatch watch;
    try {
        const VImage picture = labelled(image, profile, options, PictureFormat::jpeg);
        void* made = nullptr;
        std::size_t size = 0;
        require_done(vips_jpegsave_buffer(picture.get_image(), &made, &size, "Q", options.jpeg_quality,
                                          "subsample_mode", kColourPerPixel, nullptr));
        const std::unique_ptr<void, void (*)(void*)> bytes(made, g_free);
        std::string text(static_cast<const char*>(made), size);
        watch.require_clean("picture");
        return text;
    } catch (const vips::VError& error) {
        throw Error(Fault::internal, "picture", error.what());
    }
}

}  // namespace fogproof::picture
