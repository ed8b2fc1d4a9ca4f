// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/xmp.hpp"

#include <stdexcept>
#include <string_view>

#include "base/markup.hpp"

namespace fogproof::picture {
namespace {

bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

bool is_name(std::string_view name) {
    if (name.empty() || !is_letter(name.front())) return false;
    for (const char c : name)
        if (!is_letter(c) && !(c >= '0' && c <= '9') && c != '-' && c != '_' && c != '.') return false;
    return true;
}

}  // namespace

std::string xmp_packet(std::span<const XmpProperty> properties) {
    // Begin mark and id are those of the standard.
    std::string packet =
        "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
        "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
        "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
        "<rdf:Description rdf:about=\"\" xmlns:fogproof=\"urn:fogproof:1:\">\n";
    for (const auto& [name, value] : properties) {
        if (!is_name(name)) throw std::invalid_argument("no name for a property: " + name);
        packet += "<fogproof:" + name + ">" + escaped_markup(value) + "</fogproof:" + name + ">\n";
    }
    return packet + "</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>\n";
}

}  // namespace fogproof::picture
