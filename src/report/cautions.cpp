// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/cautions.hpp"

#include <string>

namespace fogproof::report {

// Sulphide: US Army subcourse SS0513 p. 50, "Focal Encyclopedia" p. 687 (hydrogen sulphide, acids, heat, fogs
// paper). Thiourea: IPCS ICSC 0680 (avoid all contact, limited evidence of cancer, harm to the unborn, acids,
// oxidants, sewers). Selenium: toxic, by skin and breath, ammonia: suppliers' data sheets, from memory.
std::string toner_caution(Toner toner) {
    switch (toner) {
        case Toner::sulphide:
            return "Sulphide toner gives off hydrogen sulphide, a poisonous gas, and much more with acid or "
                   "heat: keep stop bath, acid fixer and every other acid away from it, work outdoors or "
                   "under an exhaust. If the smell seems to go away, stop and leave at once: the gas numbs "
                   "the "
                   "sense of smell, and you may be breathing a dangerous amount. Keep it away from paper and "
                   "film: the gas fogs them.";
        case Toner::thiourea:
            return "Thiourea is suspected of causing cancer and of harming the unborn child: gloves, no "
                   "contact with the skin, no dust, no work with it in pregnancy. Keep it away from acids "
                   "and oxidants, out of drain and sewer.";
        case Toner::selenium:
            return "Selenium toner is poisonous if swallowed, breathed or taken in through the skin, and "
                   "gives off ammonia: gloves, tongs, an exhaust or open window, and never ferricyanide or "
                   "acid in it.";
        case Toner::none:
            break;
    }
    return {};
}

// Sources: potassium ferricyanide, IPCS ICSC 1132 (heat, acids, hydrogen cyanide; dust; environment); ammonia
// and light, ABC of Safety (ihcworld); sunlight, Kuhn and Young (2005). Benzotriazole: NITE Japan GHS 22A4094
// (explodes at 220 C); harmful, eyes: suppliers' data sheets, from memory. Developers and skin, gloves,
// exhaust, acid into water: common practice and public darkroom guidance.
std::string short_caution() {
    return "Keep ferricyanide from acids, heat and strong sun; gloves; follow labels, local rules and "
           "licensed "
           "practice for use and disposal.";
}

Caution cautions(bool bleach, RestrainerAgent agent, Toner toner) {
    Caution caution;
    if (bleach)
        caution.words = {
            "Ferricyanide gives off poisonous gas with acids, with heat and in strong sun or ultraviolet "
            "light: keep it away from stop bath and acid fixer, rinse the print well before and after, never "
            "heat it, work in subdued light.",
            "Never bring ferricyanide together with ammonia. Do not breathe the powder's dust; keep stocks "
            "closed, labelled, dark and out of reach."};
    caution.words.push_back(
        "Gloves and eye protection, tongs rather than fingers: developers can make the skin allergic. Fresh "
        "air. No food or drink. Acid goes into water, never water into acid.");
    if (agent == RestrainerAgent::benzotriazole)
        caution.words.push_back(
            "Benzotriazole is harmful if swallowed, irritates the eyes and can explode when strongly heated: "
            "weigh it "
            "without raising dust, never heat the powder.");
    if (toner != Toner::none) caution.words.push_back(toner_caution(toner));
    caution.words.push_back(
        std::string(bleach ? "Used bleach, fixer" : "Used fixer") +
        (toner == Toner::none ? "" : ", used toner") +
        " and rinse water that carries silver go to collection, not into drain or septic tank, unless the "
        "local authority allows it.");
    caution.words.push_back(
        "Labels, safety data sheets, local rules and licensed practice come before anything on this sheet.");
    return caution;
}

}  // namespace fogproof::report
