// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/json_text.hpp"

#include "base/markup.hpp"

namespace fogproof::report {
namespace {

void make_plain(nlohmann::ordered_json& part) {
    if (part.is_string()) part = plain_line(part.get_ref<const std::string&>());
    if (part.is_structured())
        for (auto& inner : part) make_plain(inner);
}

}  // namespace

std::string json_text(nlohmann::ordered_json answer) {
    make_plain(answer);
    return answer.dump(2) + "\n";
}

double kept(double value) {
    return std::round(value * 1e6) / 1e6 + 0.0;
}

}  // namespace fogproof::report
