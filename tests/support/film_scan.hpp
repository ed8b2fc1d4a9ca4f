// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Pictures for tests: plain rasters on disk, and a drawn scan of roll film with everything that surrounds a
// frame.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>
#include <vips/vips8>

#include "scan/vips_session.hpp"
#include "support/rooms.hpp"

namespace fogproof::tests {

/// A folder that goes away with the test.
class TestFolder {
  public:
    TestFolder();
    ~TestFolder();
    TestFolder(const TestFolder&) = delete;
    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return path_ / name; }

  private:
    std::filesystem::path path_;
};

/// Width x height pixels of `bands` samples out of a function of column, row, band.
template <class Sample>
vips::VImage raster(int width, int height, int bands, const std::function<double(int, int, int)>& sample,
                    VipsInterpretation meaning);  // of 8 or 16 bits, or float

/// Roll film on a light table under a holder. Lengths in pixels, densities above bare light.
struct FilmScan {
    int width = 1440, height = 1000;
    int holder = 40;  ///< opaque band at the rim of the scan
    double holder_density = 3.3;
    double clear = 0.28;                                       ///< density of base + fog
    double left = 160, top = 150, right = 1280, bottom = 850;  ///< the frame
    double degrees = 0;         ///< turned clockwise about its centre, film and perforations with it
    bool perforations = false;  ///< bare light above and below the frame
    bool neighbours = false;    ///< pictures right and left of the frame
    bool dust = false;          ///< specks on the clear film and on the picture
    double grain = 0.01;        ///< standard deviation of density

    /// Density above clear film over the frame's unit square. Here its lower edge is partly as clear as the
    /// film.
    std::function<double(double, double)> picture_law = [](double u, double v) {
        if (u > 0.55 && u < 0.8 && v > 0.7) return 0.0;
        const double sky = 1.1 + 0.25 * std::sin(9 * u) * std::cos(7 * v);
        const double land = 0.35 + 0.2 * std::sin(25 * u + 9 * v);
        return v < 0.45 + 0.1 * std::sin(5 * u) ? sky : land;
    };

    [[nodiscard]] double picture(double x, double y) const;
    [[nodiscard]] double film(double x, double y) const;
    [[nodiscard]] double density(double x, double y) const;
    /// 16-bit, linear in transmittance, bare light at 60000.
    [[nodiscard]] vips::VImage drawn() const;
};

}  // namespace fogproof::tests
