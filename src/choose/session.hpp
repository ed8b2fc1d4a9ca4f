// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Many prints, one evening at the bleach: which may share a time, in what order, through how many baths.
#pragma once

#include <string>
#include <vector>

#include "bleach/bath_use.hpp"
#include "choose/bleaching.hpp"
#include "fogproof/rooms.hpp"

namespace fogproof::choose {

/// One print waiting for the bleach.
struct WaitingPrint {
    std::string name;
    BleachBath bath;
    Seconds time;  ///< its own
    BleachLatitude latitude;
    double silver_g;  ///< for the bath to take up
};

struct SessionTerms {
    double litres = 1;      ///< of bath in the tray
    int together = 2;       ///< sheets in the tray at once
    double between_s = 60;  ///< rinse and look after each batch; judgement
};

/// Sheets that go through the tray together.
struct SessionBatch {
    std::vector<std::size_t> prints;  ///< indices of the waiting prints
    std::size_t group;                ///< prints of one group are alike enough to share one time
    std::size_t bath;                 ///< counts baths mixed, from 0
    bool fresh;                       ///< mix the bath anew before this batch
    Seconds time;                     ///< shared time, in a fresh bath
    Seconds now;                      ///< the same made longer for what this bath has done already
};

struct Session {
    std::vector<SessionBatch> batches;
    std::size_t groups = 0, baths = 0;
    Seconds total;
};

/// Prints share a time when it lies within the latitude of each: the fewest groups that serve all (every
/// group is pierced by one time; the greedy choice by earliest end is exact). The shared time is the mean of
/// the prints' own, moved into every latitude.
/// Order: strong baths before weak ones, since a bath can be thinned but not made stronger; in one bath short
/// times first, since they forgive least and the bath is at its most reliable when fresh. A bath is renewed
/// before a print would take it over kUsableShare.
[[nodiscard]] Session bleaching_session(const std::vector<WaitingPrint>&, const BleachRate&,
                                        const SessionTerms&);

}  // namespace fogproof::choose
