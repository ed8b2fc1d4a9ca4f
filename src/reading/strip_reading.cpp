// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "reading/strip_reading.hpp"

#include <algorithm>

#include "base/words.hpp"
#include "fogproof/base/error.hpp"
#include "reading/calibrated_scan.hpp"
#include "reading/darks_doubt.hpp"
#include "reading/one_strip.hpp"
#include "reading/scan_origin.hpp"
#include "reading/scan_pieces.hpp"

namespace fogproof::reading {
namespace {

// Degrees; no outline tells the direction of a strip that fills its part to half a degree.
constexpr double kFullTurn = 3.5;

// One line stays one line, however much is wrong.
std::string first_of(const std::vector<std::string>& faults) {
    constexpr std::size_t shown = 3;
    std::string line;
    for (std::size_t i = 0; i < std::min(shown, faults.size()); ++i)
        line.append(i > 0 ? "; " : "").append(faults[i]);
    if (faults.size() > shown) line += "; and " + std::to_string(faults.size() - shown) + " more";
    return line;
}

bool holds(const StripPlace& place, const StripPlace& other) {
    const auto [u, v] = place.uv(other.middle_x, other.middle_y);
    return u >= 0 && v >= 0 && u <= place.length && v <= place.width;
}

[[noreturn]] void refuse_emptiness(const StripRequest& request, bool white_lid, int plain) {
    const bool by_patches = request.steps == 1;
    std::string found = by_patches ? "holds no patch" : "holds no strip";
    if (plain > 0)
        found += ", only " + std::to_string(plain) + (plain == 1 ? " patch" : " patches") + " without steps";
    std::string allowed = by_patches ? "patches that stand out from what lies behind them"
                                     : "a strip with steps from dark to light, or --steps 1 for plain "
                                       "patches";
    if (white_lid) allowed += "; a slip as white as the lid is not seen, black card over it shows it";
    throw Error(Fault::data, request.place, found, allowed);
}

void add(std::vector<std::string>& all, const std::vector<std::string>& more) {
    all.insert(all.end(), more.begin(), more.end());
}

class ScanReader {
  public:
    ScanReader(const ReflectionImage& image, const StripRequest& request)
        : request_(request),
          scan_(calibrated(image, request)),
          origin_{scan_.part.left, scan_.part.top, image.scan_pixels},
          part_(part_of(scan_.image, scan_.part)) {
        made_.notes = scan_.notes, made_.warnings = scan_.warnings, made_.doubt = scan_.doubt;
    }

    ScanReading read() {
        for (const KnownPlace& known : scan_.known)
            if (known.patch.piece == 0)
                made_.pieces.push_back(
                    {0, SeenPiece::Kind::known, known.corners, words_of(known.patch), known.patch.density});
        for (const ScanPiece& piece : scan_.pieces.all) look_at(piece);
        if (!faults_.empty() && !request_.leave_out)
            throw Error(Fault::data, request_.place, first_of(faults_));
        for (const auto& fault : faults_) made_.notes.push_back("left out: " + fault);
        const bool white_lid = scan_.pieces.on_white_lid(), by_patches = request_.steps == 1;
        if (made_.strips.empty() && !holds_prints()) refuse_emptiness(request_, white_lid, plain_);
        if (auto darks = doubt_of_darks(made_.strips); darks && !scan_.is_doubted)
            made_.warnings.push_back(std::move(*darks));
        if (white_lid && by_patches)
            made_.notes.push_back(std::to_string(made_.strips.size()) +
                                  (made_.strips.size() == 1 ? " patch" : " patches") +
                                  " found; one as white as the lid is not seen, black card over it shows it");
        return std::move(made_);
    }

  private:
    [[nodiscard]] bool holds_prints() const {
        return std::ranges::any_of(request_.pieces,
                                   [](const auto& told) { return told.kind == PieceRequest::Kind::print; });
    }

    void see(const ScanPiece& piece, SeenPiece::Kind kind) {
        made_.pieces.push_back({piece.number, kind, piece.corners, {}, {}});
    }

    // Known by its number it is no more than that; a region lies somewhere on a piece.
    [[nodiscard]] const KnownPlace* known_on(const ScanPiece& piece) const {
        for (const KnownPlace& known : scan_.known)
            if (known.patch.piece == piece.number ||
                (known.patch.piece == 0 && holds(piece.place, known.place)))
                return &known;
        return nullptr;
    }

    void look_at(const ScanPiece& piece) {
        const KnownPlace* known = known_on(piece);
        const bool is_named = known && known->patch.piece > 0;
        if (is_named) {
            made_.pieces.push_back({piece.number, SeenPiece::Kind::known, piece.corners,
                                    words_of(known->patch), known->patch.density});
            return;
        }
        // Shadows and stains may look like it: white paper on a white lid is read where somebody names it.
        if (piece.place.is_faint && request_.pieces.empty()) return see(piece, SeenPiece::Kind::aside);
        StripRequest how = request_;
        if (!request_.pieces.empty()) {
            const auto told = std::ranges::find(request_.pieces, piece.number, &PieceRequest::number);
            if (told == request_.pieces.end()) {
                see(piece, SeenPiece::Kind::aside);
                made_.notes.push_back("piece " + std::to_string(piece.number) +
                                      " has no line among the labels and is left aside");
                return;
            }
            if (told->kind == PieceRequest::Kind::print) return see(piece, SeenPiece::Kind::print);
            if (told->kind == PieceRequest::Kind::skipped) return see(piece, SeenPiece::Kind::aside);
            // What is asked of all strips goes before what the labels tell of this one.
            if (told->kind == PieceRequest::Kind::patch) {
                how.steps = 1;
                how.halves = told->halves;
            } else {
                if (!how.steps) how.steps = told->steps;
                how.halves = how.halves || told->halves;
            }
        }
        if (known && how.steps == 1) return see(piece, SeenPiece::Kind::aside);
        read_strip(piece, how, known != nullptr);
    }

    void read_strip(const ScanPiece& piece, const StripRequest& how, bool is_reference) {
        StripPlace place = piece.place;
        place.middle_x -= scan_.part.left, place.middle_y -= scan_.part.top;
        OneStrip strip =
            strip_at(part_, origin_, place, place_request(scan_.pieces, how.steps), how, scan_.scale);
        add(made_.notes, strip.notes);
        add(faults_, strip.faults);
        if (strip.is_plain && !request_.pieces.empty())
            faults_.push_back("piece " + std::to_string(piece.number) +
                              " has no steps; kind patch in the labels, or the number of steps");
        else if (strip.is_plain && !is_reference) {
            ++plain_;
            made_.notes.push_back("a patch without steps at " + origin_.words(place) +
                                  " is left aside (--known " + std::to_string(piece.number) +
                                  "=DENSITY makes it a known one)");
        }
        see(piece, !strip.reading   ? SeenPiece::Kind::aside
                   : how.steps == 1 ? SeenPiece::Kind::patch
                                    : SeenPiece::Kind::strip);
        if (!strip.reading) return;
        strip.reading->piece = piece.number;
        made_.strips.push_back(std::move(*strip.reading));
    }

    const StripRequest& request_;
    CalibratedScan scan_;
    ScanOrigin origin_;
    ReflectionImage part_;
    ScanReading made_{};
    std::vector<std::string> faults_{};
    int plain_ = 0;
};

}  // namespace

PlaceRequest place_request(const ScanPieces& pieces, std::optional<int> steps) {
    PlaceRequest how{steps, pieces.lid, pieces.blur, 0.4};
    if (!pieces.lid) how.turn = kFullTurn;
    return how;
}

ScanReading strips_read(const ReflectionImage& image, const StripRequest& request) {
    return ScanReader(image, request).read();
}

}  // namespace fogproof::reading
