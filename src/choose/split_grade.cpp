// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "choose/split_grade.hpp"

#include <boost/math/tools/roots.hpp>
#include <cmath>

#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"

namespace fogproof::choose {

std::optional<SplitExposures> split_exposures(const Pack& pack, const PaperModel& paper, double grade,
                                              Seconds time) {
    const auto grades = grades_of(pack, paper);
    if (grades.size() < 2) return std::nullopt;
    const double power = pack.darkroom.enlarger.reciprocity;
    const Filter wanted = filter_for(pack, paper, grade), soft = filter_for(pack, paper, grades.front()),
                 hard = filter_for(pack, paper, grades.back());
    const double work = std::pow(time.value, power);
    const double determinant = soft.blue * hard.green - soft.green * hard.blue;
    if (std::abs(determinant) < 1e-12) return std::nullopt;
    const double soft_work = work * (wanted.blue * hard.green - wanted.green * hard.blue) / determinant;
    const double hard_work = work * (soft.blue * wanted.green - soft.green * wanted.blue) / determinant;
    constexpr double kRounding = 1e-9;
    if (soft_work < -kRounding || hard_work < -kRounding) return std::nullopt;
    return SplitExposures{grades.front(),
                          grades.back(),
                          {std::pow(std::max(soft_work, 0.0), 1 / power)},
                          {std::pow(std::max(hard_work, 0.0), 1 / power)}};
}

Seconds longest_flash(const Pack& pack, const PaperModel& paper, double grade, const DevelopStep& develop) {
    constexpr double kVeil = 0.01;
    const Filter filter = filter_for(pack, paper, grade);
    const TreatedSheet sheet(paper, develop);
    const double border = sheet.border().density.value;
    const auto veil = [&](double log_h) {
        const double h = std::pow(10.0, log_h);
        return sheet.lit({h * filter.blue, h * filter.green}).density.value - border - kVeil;
    };
    // Where no light leaves an image, as before one appears, a flash does nothing.
    constexpr double kLongest = 6;
    if (veil(kLongest) <= 0) return {0};
    std::uintmax_t rounds = 100;
    const double log_h = boost::math::tools::toms748_solve(
                             veil, -6.0, kLongest, boost::math::tools::eps_tolerance<double>(30), rounds)
                             .first;
    return flash_giving({log_h}, pack.darkroom.enlarger);
}

Flash soft_flash(const Pack& pack, const PaperModel& paper, const DevelopStep& develop) {
    const double softest = grades_of(pack, paper).front();
    return {softest, longest_flash(pack, paper, softest, develop)};
}

}  // namespace fogproof::choose
