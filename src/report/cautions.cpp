// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/cautions.hpp"

namespace fogproof::report {

// Sources: potassium ferricyanide, IPCS ICSC 1132 (heat, acids, hydrogen cyanide; dust; environment); ammonia
// and light, ABC of Safety (ihcworld); sunlight, Kuhn and Young (2005). Benzotriazole: NITE Japan GHS 22A4094
// (explodes at 220 C); harmful, eyes: suppliers' data sheets, from memory. Developers and skin, gloves,
// exhaust, acid into water: common practice and public darkroom guidance.
Caution cautions(bool bleach, RestrainerAgent agent) {
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
    caution.words.push_back(
        std::string(bleach ? "Used bleach, fixer" : "Used fixer") +
        " and rinse water that carries silver go to collection, not into drain or septic tank, unless the "
        "local authority allows it.");
    caution.words.push_back(
        "Labels, safety data sheets, local rules and licensed practice come before anything on this sheet.");
    return caution;
}

}  // namespace fogproof::report
