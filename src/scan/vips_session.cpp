// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/vips_session.hpp"

#include <dlfcn.h>

#include <algorithm>
#include <cerrno>
#include <cstdint>
#include <cstring>
#include <mutex>
#include <vips/vips8>

#include "fogproof/base/error.hpp"
#include "pixels/tiff_handle.hpp"
#include "system/beside_program.hpp"
#include "system/memory.hpp"
#include "system/progress.hpp"

namespace fogproof::scan {
namespace {

// What small pictures take with fonts and all, rounded up. Without it libvips, Pango and GLib end the process
// wherever they happen to be.
constexpr std::uint64_t kWorkingMemory = 384u << 20;

std::mutex damage_lock;
std::string damage;
int watches = 0;

std::string on_one_line(std::string_view text) {
    std::string line;
    for (const char each : text) {
        const bool blank = each == '\n' || each == '\r' || each == '\t' || each == ' ';
        if (!blank)
            line += each;
        else if (!line.empty() && line.back() != ' ')
            line += ' ';
    }
    while (!line.empty() && line.back() == ' ') line.pop_back();
    return line;
}

// Decoders warn of harmless things, private tags above all, and would do so on stderr. Only the warning that
// stands for pixels left black is kept.
void keep_damage(const gchar*, GLogLevelFlags, const gchar* message, gpointer) {
    if (std::string_view(message).find("error in tile") == std::string_view::npos) return;
    const std::lock_guard held(damage_lock);
    damage = message;
}

// The program is not linked with libvips (CMakeLists.txt): its functions are found here when they are first
// called.
void open_vips() {
    if (dlopen(FOGPROOF_VIPS_LIBRARY, RTLD_LAZY | RTLD_GLOBAL) == nullptr)
        throw Error(Fault::unavailable, "libvips", dlerror(), "libvips 8.14 or later");
}

}  // namespace

void vips_ready() {
    static std::once_flag once;
    std::call_once(once, [] {
        require_memory(kWorkingMemory, "libvips");
        open_vips();
        // Its modules for HEIF, JPEG XL and hundreds of other formats are looked for in its home. No scan
        // needs them, and what is not loaded cannot be misled.
        g_setenv("VIPSHOME", "/nonexistent", FALSE);
        // An archive that brings its typefaces brings where they are.
        const auto fonts = beside_program("fonts/fonts.conf");
        std::error_code unknown;
        if (std::filesystem::exists(fonts, unknown)) g_setenv("FONTCONFIG_FILE", fonts.c_str(), FALSE);
        if (VIPS_INIT("fogproof") != 0)
            throw Error(Fault::unavailable, "libvips", on_one_line(vips_error_buffer()),
                        "libvips 8.14 or later");
        vips_concurrency_set(1);
        vips_cache_set_max(0);
        vips_block_untrusted_set(TRUE);
        g_log_set_handler("VIPS", G_LOG_LEVEL_WARNING, keep_damage, nullptr);
    });
}

std::string in_few_words(const std::string& complaint) {
    for (const int fault : {ENOSPC, EFBIG, EDQUOT, EIO, EROFS})
        if (complaint.find(std::strerror(fault)) != std::string::npos) return std::strerror(fault);
    return complaint;
}

void tell_progress_of(const vips::VImage& image, const std::string& work) {
    const auto tell = [](VipsImage*, VipsProgress* progress, gpointer told) {
        if (progress->tpels > 0)
            tell_progress(*static_cast<const std::string*>(told),
                          double(progress->npels) / double(progress->tpels));
    };
    const auto forget = [](gpointer told, GClosure*) { delete static_cast<const std::string*>(told); };
    vips_image_set_progress(image.get_image(), TRUE);
    g_signal_connect_data(image.get_image(), "eval",
                          G_CALLBACK(+static_cast<void (*)(VipsImage*, VipsProgress*, gpointer)>(tell)),
                          new std::string(work), forget, GConnectFlags(0));
}

VipsWatch::VipsWatch() {
    vips_ready();
    const std::lock_guard held(damage_lock);
    if (watches++ == 0) {
        vips_error_clear();
        damage.clear();
    }
    known_ = std::strlen(vips_error_buffer());
}

VipsWatch::~VipsWatch() {
    const std::lock_guard held(damage_lock);
    --watches;
}

namespace {

// Every handle that is opened on a file complains anew.
std::string without_repeats(std::string_view lines) {
    std::vector<std::string_view> kept;
    for (std::size_t from = 0; from < lines.size();) {
        const std::size_t end = std::min(lines.find('\n', from), lines.size());
        const std::string_view line = lines.substr(from, end - from);
        if (!spares_pixels(line) && std::ranges::find(kept, line) == kept.end()) kept.push_back(line);
        from = end + 1;
    }
    std::string text;
    for (const auto line : kept) text += std::string(line) + '\n';
    return text;
}

}  // namespace

std::string VipsWatch::complaint() const {
    const std::string_view all(vips_error_buffer());
    std::string text = on_one_line(without_repeats(all.substr(std::min(known_, all.size()))));
    const std::lock_guard held(damage_lock);
    return text.empty() ? on_one_line(damage) : text;
}

void VipsWatch::require_clean(std::string_view place) const {
    if (const std::string text = complaint(); !text.empty())
        throw Error(Fault::data, place, "cannot be read to its end (" + text + ")", "a complete file");
}

}  // namespace fogproof::scan
