// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "scan/scan_channel.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <stdexcept>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "scan/guarded_reading.hpp"
#include "scan/scan_profile.hpp"
#include "scan/vips_call.hpp"

namespace fogproof::scan {
namespace {

/// The samples that count, or a refusal.
int counting_bands(const ScanFile& file, Notes& notes) {
    const int bands = file.bands();
    const auto refuse = [&](const std::string& found, const char* allowed) {
        throw Error(Fault::data, file.path().string(), found, allowed);
    };
    const auto format = file.format();
    if (format != VIPS_FORMAT_UCHAR && format != VIPS_FORMAT_USHORT && format != VIPS_FORMAT_FLOAT)
        refuse(std::string("samples of type ") + vips_enum_nick(VIPS_TYPE_BAND_FORMAT, format),
               "unsigned 8 or 16 bit or 32-bit float");
    switch (file.interpretation()) {
        case VIPS_INTERPRETATION_B_W:
        case VIPS_INTERPRETATION_GREY16:
            if (bands > 2) refuse(std::to_string(bands) + " channels", "a greyscale or RGB scan");
            if (bands == 2) notes.push_back("the second channel (alpha) of the scan is left aside");
            return 1;
        case VIPS_INTERPRETATION_sRGB:
        case VIPS_INTERPRETATION_RGB:
        case VIPS_INTERPRETATION_RGB16:
        case VIPS_INTERPRETATION_scRGB:
            if (bands < 3 || bands > 4)
                refuse(std::to_string(bands) + " channels", "a greyscale or RGB scan");
            if (bands == 4) notes.push_back("the fourth channel (alpha) of the scan is left aside");
            return 3;
        default:
            refuse(std::string("is not a greyscale or RGB scan but ") +
                       vips_enum_nick(VIPS_TYPE_INTERPRETATION, file.interpretation()),
                   "grey or RGB");
    }
    return 1;
}

/// True when every pixel carries the same code in all three channels; stops reading at the first that does
/// not.
bool is_neutral(const ScanFile& file) {
    return reading(file.path(), [&] {
        const vips::VImage pixels = file.as_stored();
        const vips::VImage differs = (pixels[0] != pixels[1]) | (pixels[0] != pixels[2]);
        return differs.max() == 0;
    });
}

template <class Sample>
LineLight sum_of_tables(std::array<std::vector<double>, 3> tables) {
    return [tables = std::move(tables)](const void* samples, std::span<float> light) {
        const auto* rgb = static_cast<const Sample*>(samples);
        for (float& each : light) {
            each = float(tables[0][rgb[0]] + tables[1][rgb[1]] + tables[2][rgb[2]]);
            rgb += 3;
        }
    };
}

/// For profiles with tables of their own: every pixel through Little CMS.
template <class Sample>
LineLight by_profile(const ScanProfile& profile, float full_scale) {
    return [profile, full_scale](const void* samples, std::span<float> light) {
        thread_local std::vector<float> scaled;
        scaled.resize(light.size() * std::size_t(profile.channels()));
        const auto* from = static_cast<const Sample*>(samples);
        for (float& each : scaled) each = float(*from++) / full_scale;
        profile.light(scaled, light);
    };
}

LineLight by_coding(Coding coding, int bands) {
    return [coding = std::move(coding), bands](const void* samples, std::span<float> light) {
        const auto* from = static_cast<const float*>(samples);
        for (float& each : light) {
            double sum = 0;
            for (std::size_t band = 0; band < std::size_t(bands); ++band)
                sum += (bands == 1 ? 1.0 : coding.luminance[band]) * coding.light(band, *from++);
            each = float(sum);
        }
    };
}

/// Float files hold what they like. What cannot be a transmittance is refused, not clipped.
LineLight checked(LineLight law, int bands) {
    return [law = std::move(law), bands](const void* samples, std::span<float> light) {
        static const double brightest = std::pow(10.0, kLogCodeTop);
        const auto* from = static_cast<const float*>(samples);
        for (std::size_t i = 0; i < light.size() * std::size_t(bands); ++i)
            if (!std::isfinite(from[i])) throw std::range_error("holds a sample that is not a finite number");
        law(samples, light);
        for (const float each : light)
            if (!(each <= brightest))
                throw std::range_error("holds a sample of light " + decimal(each, 2) +
                                       ", 1 being full scale");
    };
}

ScanChannel channel_by_profile(const ScanFile& file, const ScanProfile& profile) {
    const bool is_byte = file.format() == VIPS_FORMAT_UCHAR;
    const std::size_t codes = is_byte ? 256 : 65536;
    if (file.format() == VIPS_FORMAT_FLOAT)
        return {profile.channels(), checked(by_profile<float>(profile, 1.0f), profile.channels()),
                light_of_log_codes()};
    if (profile.channels() == 1 || is_neutral(file)) return {1, {}, profile.neutral_light(codes)};
    if (!profile.additive())
        return {3,
                is_byte ? by_profile<std::uint8_t>(profile, 255.0f)
                        : by_profile<std::uint16_t>(profile, 65535.0f),
                light_of_log_codes()};
    std::array<std::vector<double>, 3> tables;
    for (int channel = 0; channel < 3; ++channel)
        tables[std::size_t(channel)] = profile.channel_light(channel, codes);
    ChannelLight alone;
    for (int channel = 0; channel < 3; ++channel)
        alone[std::size_t(channel)] = profile.channel_curve(channel, codes);
    if (std::ranges::any_of(alone, &std::vector<double>::empty)) alone = {};
    return {3, is_byte ? sum_of_tables<std::uint8_t>(tables) : sum_of_tables<std::uint16_t>(tables),
            light_of_log_codes(), std::move(alone)};
}

// What a grey carries in all three channels is the light of each in its share.
std::vector<double> neutral_light(const Coding& coding, std::size_t codes) {
    if (coding.curves.size() == 1) return coding.light_of_codes(0, codes);
    std::vector<double> sum(codes);
    for (std::size_t channel = 0; channel < 3; ++channel) {
        const std::vector<double> light = coding.light_of_codes(channel, codes);
        for (std::size_t code = 0; code < codes; ++code) sum[code] += coding.luminance[channel] * light[code];
    }
    return sum;
}

ScanChannel channel_by_coding(const ScanFile& file, const Coding& coding, int bands) {
    const bool is_byte = file.format() == VIPS_FORMAT_UCHAR;
    if (file.format() == VIPS_FORMAT_FLOAT)
        return {bands, checked(by_coding(coding, bands), bands), light_of_log_codes()};
    const std::size_t codes = is_byte ? 256 : 65536;
    if (bands == 1) return {1, {}, coding.light_of_codes(0, codes)};
    if (is_neutral(file)) return {1, {}, neutral_light(coding, codes)};
    ChannelLight alone;
    for (std::size_t channel = 0; channel < 3; ++channel)
        alone[channel] = coding.light_of_codes(channel, codes);
    std::array<std::vector<double>, 3> tables;
    for (std::size_t channel = 0; channel < 3; ++channel)
        for (const double each : alone[channel]) tables[channel].push_back(coding.luminance[channel] * each);
    return {3, is_byte ? sum_of_tables<std::uint8_t>(tables) : sum_of_tables<std::uint16_t>(tables),
            light_of_log_codes(), std::move(alone)};
}

// What else the file says and is not followed, where it says something else.
void note_aside(const ScanFile& file, const std::string& followed, const std::string& why, Notes& notes) {
    for (const auto& told : file.words().codings)
        if (told.coding.name != followed)
            notes.push_back("the " + told.place + " of the file (" + told.coding.name +
                            ") is set aside for " + why);
}

ScanChannel channel_as_told(const ScanFile& file, const ToldCoding& told, int bands, Notes& notes) {
    notes.push_back("the " + told.place + " of the file says what the codes stand for: " + told.coding.name);
    note_aside(file, told.coding.name, "it", notes);
    ScanChannel made = channel_by_coding(file, told.coding, bands);
    made.source = CodingSource::file;
    return made;
}

}  // namespace

vips::VImage ScanChannel::codes(const vips::VImage& pixels) const {
    const vips::VImage kept = pixels.bands() == bands ? pixels : first_bands(pixels, bands);
    return to_light ? log_coded(kept, to_light) : kept;
}

CodeLaw ScanChannel::code_law(int samples, int bits) const {
    if (!to_light) return {};
    return [law = to_light, counting = std::size_t(bands), stored = std::size_t(samples),
            bytes = std::size_t(bits / 8)](const void* pixels, std::uint16_t* codes, std::size_t count) {
        thread_local std::vector<float> lights;
        thread_local std::vector<std::byte> kept;
        lights.resize(count);
        if (stored != counting) {  // the law knows of no alpha
            kept.resize(count * counting * bytes);
            const auto* from = static_cast<const std::byte*>(pixels);
            for (std::size_t x = 0; x < count; ++x)
                std::copy_n(from + x * stored * bytes, counting * bytes, kept.data() + x * counting * bytes);
            pixels = kept.data();
        }
        law(pixels, lights);
        for (const float each : lights) *codes++ = log_code_of_light(each);
    };
}

ScanChannel weighted(const ScanFile& file, ScanChannel channel, const std::array<double, 3>& shares) {
    if (channel.bands_light[0].empty()) return channel;
    ChannelLight tables = channel.bands_light;
    for (std::size_t band = 0; band < tables.size(); ++band)
        for (double& each : tables[band]) each *= shares[band];
    channel.to_light = file.format() == VIPS_FORMAT_UCHAR ? sum_of_tables<std::uint8_t>(std::move(tables))
                                                          : sum_of_tables<std::uint16_t>(std::move(tables));
    return channel;
}

ScanChannel channel_of(const ScanFile& file, std::optional<Encoding> encoding, Notes& notes, Medium medium) {
    const int bands = counting_bands(file, notes);
    if (file.pages() > 1)
        notes.push_back("the file holds " + std::to_string(file.pages()) +
                        " pictures; the first one is used");
    notes.insert(notes.end(), file.words().notes.begin(), file.words().notes.end());
    const std::vector<unsigned char> icc = file.icc();
    const std::vector<ToldCoding>& told = file.words().codings;
    if (encoding) {
        const Coding asked = coding_of(*encoding);
        if (!icc.empty())
            notes.push_back("the embedded profile is set aside for " + asked.name + ", as asked");
        note_aside(file, asked.name, asked.name + ", as asked", notes);
        ScanChannel made = channel_by_coding(file, asked, bands);
        made.source = CodingSource::option;
        return made;
    }
    if (!told.empty() && told.front().outranks_profile) {
        if (!icc.empty()) notes.push_back("the embedded profile is set aside for the " + told.front().place);
        return channel_as_told(file, told.front(), bands, notes);
    }
    if (!icc.empty()) {
        const auto [profile, why_not] = ScanProfile::found_in(icc, bands);
        if (profile) {
            notes.push_back("the embedded profile (" + profile->name() + ") says what the codes stand for");
            if (!told.empty() && told.front().place.starts_with("Transfer"))
                note_aside(file, "", "the embedded profile", notes);
            ScanChannel made = channel_by_profile(file, *profile);
            made.source = CodingSource::file;
            return made;
        }
        notes.push_back("the embedded profile " + why_not + " and is not used");
    }
    if (!told.empty()) return channel_as_told(file, told.front(), bands, notes);
    const bool is_byte = file.format() == VIPS_FORMAT_UCHAR;
    const Coding usual = coding_of(is_byte ? Encoding::srgb : Encoding::linear);
    const char* depth = is_byte ? "8-bit" : file.format() == VIPS_FORMAT_FLOAT ? "float" : "16-bit";
    const char* light = is_byte ? "" : medium == Medium::film ? " transmittance" : " reflectance";
    notes.push_back(std::string(depth) + " scan without a usable profile: its codes are taken as " +
                    usual.name + light);
    return channel_by_coding(file, usual, bands);
}

}  // namespace fogproof::scan
