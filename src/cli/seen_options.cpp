// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/seen_options.hpp"

#include <array>
#include <filesystem>

#include "base/markup.hpp"
#include "fogproof/base/error.hpp"
#include "fogproof/fit/pack_fit.hpp"
#include "fogproof/pack/readings.hpp"
#include "report/seen_words.hpp"

namespace fogproof::cli {

void SeenOptions::add_to(CLI::App& app) {
    const std::string group = "After the test strip";
    app.add_option("--seen", band,
                   "number of the band on your real strip that is as dark as the same place in the second "
                   "row or column "
                   "of the --strip picture (1 is the shortest); judge it developed, unbleached and dry; keep "
                   "the other "
                   "options as they were for that strip")
        ->group(group);
    app.add_option("--readings-out", readings,
                   "append the reading of --seen to this readings file, for pack fit (.csv)")
        ->group(group);
}

void SeenOptions::refuse_idle() const {
    if (!readings.empty() && !band)
        throw Error(Fault::usage, "--readings-out", "without --seen", "--seen BAND beside it");
}

Pack SeenOptions::told_by(const Pack& pack, const SeenBand& seen) {
    if (seen.today) return in_light(pack, seen.today->log_gain);
    return fitted_pack(pack, std::array{seen.reading}, "start --seen").pack;
}

void SeenOptions::keep(const SeenBand& seen, const std::string& scan) const {
    if (readings.empty()) return;
    append_readings(readings,
                    std::array{OriginalRows{plain_line(std::filesystem::path(scan).filename().string()) +
                                                ", start --seen: " + seen_words(seen),
                                            {seen.reading}}});
}

}  // namespace fogproof::cli
