// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A scan on disk as one channel of codes, what they stand for, and the frame that counts.
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/region.hpp"
#include "fogproof/rooms.hpp"
#include "negative/density_scale.hpp"
#include "negative/tones.hpp"
#include "pixels/code_source.hpp"

namespace fogproof::scan {

/// Sentences about guesses taken, for stderr and for the picture's legend.
using Notes = std::vector<std::string>;

/// Four gigapixels: more than any scanner of film gives, and still read in a minute.
constexpr double kUsualMaxPixels = 4e9;

/// Who says how the codes of a scan stand for light.
enum class CodingSource { option, file, guess };

/// Which reader a TIFF goes through: that of lines by several workers, as far as it takes the file, or
/// libvips.
enum class ReadBy { lines, libvips };

struct ScanOptions {
    enum class Kind { negative, positive } kind = Kind::negative;
    bool kind_is_told = false;  ///< by the user, not by default
    /// Which channels of a colour scan make its density; found: blue and green where the film is masked.
    enum class Channels { found, luminance, blue_green } channels = Channels::found;
    std::optional<Encoding> encoding{};  ///< overrides profile and default
    bool encoding_is_set = false;        ///< by the settings of the darkroom, which a note says
    std::optional<Region> frame{};       ///< given instead of found
    bool whole = false;                  ///< no search: the whole scan is the frame
    /// A frame that is found askew: the scan is turned, or an upright rectangle inside the frame is taken.
    enum class Askew { set_upright, kept } askew = Askew::set_upright;
    bool mirror = false;                   ///< scanned through the wrong side
    bool clear_edge = false;               ///< print the clear edge around the frame too, as a black border
    std::optional<Region> clear_region{};  ///< clear film edge to take as base + fog
    std::optional<double> clear_value{};   ///< its linear transmittance, (0, 1]
    std::optional<Region> black_region{};  ///< scanner black
    std::optional<double> black_value{};   ///< its linear transmittance, [0, 1)
    std::optional<double> base_fog{};      ///< density of base + fog over an empty carrier
    VirtualFilm film{};                    ///< for positives
    double max_pixels = kUsualMaxPixels;   ///< larger scans are refused before they are read
    ReadBy read_by = ReadBy::lines;        ///< whatever they do not take goes through libvips
};

/// Base + fog of the film as a density over an empty carrier, and how that is known.
struct FilmBase {
    enum class From {
        given,    ///< by the user
        scan,     ///< the clear film against the full scale of the scan
        counted,  ///< no clear film is known: densities count from the full scale, base + fog included
        assumed,  ///< a usual one; the scan cannot tell
    };
    double density;
    From from;
};

/// An opened scan, turned where its frame was found askew: then sizes and places are those of the turned one.
/// Immutable; cheap to copy.
class Scan {
  public:
    /// Throws Error(no_input) for a file that cannot be read, Error(data) for one that is no usable scan.
    static Scan open(const std::filesystem::path&, const ScanOptions&, Notes&);

    [[nodiscard]] const std::filesystem::path& path() const;
    /// Size of what is printed, in pixels.
    [[nodiscard]] int width() const;
    [[nodiscard]] int height() const;
    /// The frame that counts, in the upright or turned scan; what is printed may be larger by the clear edge.
    [[nodiscard]] Region frame() const;
    /// The same in pixels of what is printed.
    [[nodiscard]] Region frame_in_print() const;
    /// Any region of the upright or turned scan in pixels of what is printed.
    [[nodiscard]] Region in_print(const Region&) const;
    /// Degrees that the scan was turned clockwise to set its frame upright; 0 where it was not.
    [[nodiscard]] double degrees_turned() const;
    /// A region of the upright scan as it lies in its file, moved to where it lies in the turned one, and
    /// back.
    [[nodiscard]] Region as_turned(const Region& lying) const;
    [[nodiscard]] Region as_lying(const Region& turned) const;
    /// The same scan, where so many pixels more around its frame are printed and count as frame. Nothing
    /// where they would lie beyond its right or lower edge.
    [[nodiscard]] std::optional<Scan> grown(int pixels) const;
    /// Density of every code, 256 or 65536 of them.
    [[nodiscard]] const std::vector<NegativeDensity>& scale() const;
    /// Linear light of every code, before references (to average areas as the enlarger lens does).
    [[nodiscard]] const std::vector<double>& light() const;
    /// Exact counts of the codes inside the frame.
    [[nodiscard]] const Histogram& histogram() const;
    /// What is printed, upright, cropped, mirrored; read from disk when lines are asked for.
    [[nodiscard]] std::unique_ptr<CodeSource> pixels() const;
    /// The frame alone, turned and mirrored so.
    [[nodiscard]] std::unique_ptr<CodeSource> frame_pixels() const;
    /// Reads the frame once more; throws Error(data) when it is no longer what it was, or no longer there.
    void require_unchanged() const;
    /// What looks wrong with the scan, one sentence each; empty for a good one.
    [[nodiscard]] const std::vector<std::string>& warnings() const;
    /// Base + fog that lies in the carrier beside the densities of scale().
    [[nodiscard]] const FilmBase& film_base() const;
    [[nodiscard]] CodingSource coding_source() const;
    /// True when clear film was given or found, so that densities count from base + fog.
    [[nodiscard]] bool has_clear_reference() const;
    /// Resolution in pixels per millimetre of the scan, if the file tells it.
    [[nodiscard]] std::optional<double> pixels_per_mm() const;

  private:
    struct State;
    std::shared_ptr<const State> state_;
};

}  // namespace fogproof::scan
