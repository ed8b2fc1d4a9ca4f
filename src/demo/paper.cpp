// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The invented pack of the demo: what its owner knows of it, and the strips read off it.
#include "demo/demo.hpp"

#include <cmath>
#include <vector>

#include "base/words.hpp"
#include "demo/noise.hpp"
#include "fogproof/pack/grades.hpp"
#include "fogproof/print/print_model.hpp"
#include "pack/from_slips.hpp"

namespace fogproof::demo {
namespace {

constexpr double kRepeatability = 0.01;  // density; of the invented densitometer

// One piece of paper through one treatment.
struct Strip {
    std::string label;
    double exposure_s, filter, restrainer_ml_l, develop_s, bleach_s;
};

std::string row(const Strip& strip, double wedge_density, double density) {
    const auto number = [](double value) { return std::string(",").append(decimal(value, 2)); };
    return strip.label + number(wedge_density) + number(strip.exposure_s) + number(strip.filter) +
           number(strip.restrainer_ml_l) + number(strip.develop_s) + number(strip.bleach_s) + ",50,0," +
           fixed(density, 2) + "\r\n";
}

}  // namespace

Pack described_paper() {
    Slips slips;
    slips.white_density = 0.09;
    slips.blank_density = 0.42;
    slips.black_density = 1.74;
    slips.surface = Surface::semi_matt;
    slips.tint = Tint::cold;
    slips.name = "Attic box, 24 sheets 18 x 24 cm";
    Pack pack = pack_from_slips(slips);
    pack.notes = "Invented for the demo of fogproof.";
    pack.darkroom.enlarger.setting = pack.darkroom.enlarger.anchor = {6.7, 8};
    pack.darkroom.enlarger.anchor_carrier = {Carrier::Held::clear_film, 0};
    pack.darkroom.anchored = true;
    pack.speed_log_s = 0.60;
    pack.knowledge["speed.log_seconds"] = {Origin::measured, 0.03};
    for (const char* key :
         {"enlarger.magnification", "enlarger.f_number", "anchor.magnification", "anchor.f_number"})
        pack.knowledge[key] = {Origin::given, std::nullopt};
    return pack;
}

Pack true_paper() {
    Pack pack = described_paper();
    pack.restrainer = {12.0, 1.0, 0.35};
    pack.bleach.starvation = 0.11;
    pack.bleach.per_second = 0.0026;
    pack.speed_log_s = 0.62;
    pack.grains.green_spread = 0.52;
    return pack;
}

std::string strip_readings() {
    const Pack pack = true_paper();
    const PaperModel paper = paper_model(pack);
    std::string text =
        "# Invented for the demo of fogproof: strips of the attic box, exposed through clear film.\r\n"
        "strip,wedge_density,exposure_s,filter,restrainer_ml_l,develop_s,bleach_s,bleach_parts,redevelop_s,"
        "density\r\n";
    std::int32_t serial = 0;
    const auto read = [&](const Strip& strip, double wedge_density) {
        PrintSteps steps;
        steps.exposures = {{filter_for(pack, paper, strip.filter), Seconds{strip.exposure_s}}};
        steps.develop = {strip.restrainer_ml_l, strip.develop_s, pack.development.nominal_c};
        steps.finishing.bleach_dose = bleach_dose(paper.bleach, pack.darkroom.bath, Seconds{strip.bleach_s});
        Enlarger contact = pack.darkroom.enlarger;  // the wedge lies on the paper: neither flare nor Callier
        contact.flare = 0;
        contact.callier = 1;
        const double density = PrintModel(paper, contact, steps, 0).patch({wedge_density}).density.value;
        text += row(strip, wedge_density, density + kRepeatability * normal_chance(serial++, 0, 77));
    };
    for (int i = 0; i < 3; ++i) read({"fixed", 0, 2, 0, 0, 0}, 0);
    for (const double ml_l : {0.0, 5.0, 10.0, 20.0, 40.0})
        for (int i = 0; i < 2; ++i) read({"blank-" + decimal(ml_l, 0), 0, 2, ml_l, 90, 0}, 0);
    // A step tablet of 21 steps from 0.05 to 3.05 (US Navy NAVEDTRA 14209, p. 10-40).
    for (const Strip& strip : {Strip{"soft", 28, 2, 20, 90, 0}, Strip{"soft-bleached", 28, 2, 20, 90, 40},
                               Strip{"hard", 28, 4, 20, 90, 0}, Strip{"hard-bleached", 28, 4, 20, 90, 25}})
        for (int step = 0; step < 21; ++step) read(strip, 0.05 + 0.15 * step);
    return text;
}

}  // namespace fogproof::demo
