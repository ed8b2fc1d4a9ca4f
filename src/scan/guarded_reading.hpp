// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// One evaluation of a libvips pipeline on an input file, with every way it can fail turned into one Error.
#pragma once

#include <filesystem>
#include <string_view>
#include <vips/vips8>

#include "fogproof/base/error.hpp"
#include "fogproof/rooms.hpp"
#include "scan/log_coded.hpp"
#include "scan/tiff_image.hpp"
#include "scan/vips_session.hpp"

namespace fogproof::scan {

/// The result of `evaluate`, once libvips has nothing to complain about.
template <class Evaluate>
auto reading(const std::filesystem::path& path, Evaluate evaluate) {
    const VipsWatch watch;
    const auto refuse_bad_sample = [&] {
        const std::string text = watch.complaint();
        if (const std::string_view prefix(kLinesComplaint); text.starts_with(prefix))
            throw Error(Fault::data, "",
                        text.substr(prefix.size() + 2, text.find(kMessageEnd) - prefix.size() - 2));
        if (const std::string_view prefix(kSampleComplaint); text.starts_with(prefix))
            throw Error(Fault::data, path.string(), text.substr(prefix.size() + 2),
                        "finite samples that are transmittances");
    };
    try {
        auto result = evaluate();
        refuse_bad_sample();
        watch.require_clean(path.string());
        return result;
    } catch (const vips::VError&) {
        refuse_bad_sample();
        watch.require_clean(path.string());
        throw Error(Fault::data, path.string(), "cannot be read to its end", "a complete file");
    }
}

}  // namespace fogproof::scan
