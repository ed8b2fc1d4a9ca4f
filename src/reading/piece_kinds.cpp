// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/piece_kinds.hpp"

#include <utility>

#include "fogproof/base/error.hpp"
#include "reading/calibrated_scan.hpp"
#include "reading/coding_doubt.hpp"
#include "reading/one_strip.hpp"

namespace fogproof::reading {
namespace {

class Look {
  public:
    Look(const CalibratedScan& scan, const StripRequest& request)
        : scan_(scan),
          request_(request),
          origin_{scan.part.left, scan.part.top, scan.image.scan_pixels},
          part_(part_of(scan.image, scan.part)) {}

    void at(const ScanPiece& piece, PiecesSeen& seen) const {
        PieceLabels labels;
        labels.piece = piece.number;
        labels.place = region_around(piece.corners);
        labels.kind = PieceRequest::Kind::print;
        SeenPiece what{piece.number, SeenPiece::Kind::print, piece.corners, {}, {}};
        const auto take = [&](OneStrip& read, PieceRequest::Kind told, SeenPiece::Kind shown) {
            if (!read.reading || !read.faults.empty()) return false;
            labels.kind = told, what.kind = shown;
            read.reading->piece = piece.number;
            seen.scan.strips.push_back(std::move(*read.reading));
            return true;
        };
        OneStrip patch = tried(piece, 1, false);
        if (!take(patch, PieceRequest::Kind::patch, SeenPiece::Kind::patch)) {
            OneStrip strip = tried(piece, request_.steps, false), halves;
            const bool is_plain = strip.is_plain;
            if (take(strip, PieceRequest::Kind::strip, SeenPiece::Kind::strip)) {
                labels.steps = seen.scan.strips.back().step_count;
            } else if (!is_plain) {
                halves = tried(piece, request_.steps, true);
                if (take(halves, PieceRequest::Kind::strip, SeenPiece::Kind::strip))
                    labels.steps = seen.scan.strips.back().step_count, labels.halves = true;
            }
        }
        seen.scan.pieces.push_back(std::move(what));
        seen.labels.push_back(std::move(labels));
    }

  private:
    [[nodiscard]] OneStrip tried(const ScanPiece& piece, std::optional<int> steps, bool halves) const {
        StripPlace place = piece.place;
        place.middle_x -= scan_.part.left, place.middle_y -= scan_.part.top;
        StripRequest how = request_;
        how.steps = steps, how.halves = halves, how.leave_out = false;
        return strip_at(part_, origin_, place, place_request(scan_.pieces, steps), how, scan_.scale);
    }

    const CalibratedScan& scan_;
    const StripRequest& request_;
    ScanOrigin origin_;
    ReflectionImage part_;
};

}  // namespace

PiecesSeen pieces_seen(const ReflectionImage& image, const StripRequest& request) {
    const CalibratedScan scan = evened(image, request);
    if (scan.pieces.all.empty())
        throw Error(Fault::data, request.place, "shows no piece that stands out from its lid",
                    std::string("strips, patches or prints on it") +
                        (scan.pieces.on_white_lid()
                             ? "; white slips on a white lid are not seen, black card over them shows them"
                             : ""));
    PiecesSeen seen;
    seen.scan.notes = scan.notes;
    seen.scan.warnings = scan.warnings;
    if (const auto coding = doubt_of_linear(image); coding && coding->is_likely)
        seen.scan.warnings.push_back(coding->words);
    const Look look(scan, request);
    for (const ScanPiece& piece : scan.pieces.all) look.at(piece, seen);
    return seen;
}

}  // namespace fogproof::reading
