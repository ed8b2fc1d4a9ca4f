// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "render/xmp.hpp"

#include <glib.h>

#include <memory>
#include <stdexcept>
#include <string_view>

namespace fogproof {
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

// File names may hold bytes that are no UTF-8, and XML 1.0 forbids most control characters even escaped.
std::string escaped(const std::string& text) {
    const std::unique_ptr<char, decltype(&g_free)> valid(g_utf8_make_valid(text.data(), gssize(text.size())),
                                                         g_free);
    std::string safe;
    for (const char c : std::string_view(valid.get())) {
        const bool control = (static_cast<unsigned char>(c) < 0x20 && c != '\t' && c != '\n') || c == 0x7F;
        if (c == '&')
            safe += "&amp;";
        else if (c == '<')
            safe += "&lt;";
        else if (c == '>')
            safe += "&gt;";
        else
            safe += control ? ' ' : c;
    }
    return safe;
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
        packet += "<fogproof:" + name + ">" + escaped(value) + "</fogproof:" + name + ">\n";
    }
    return packet + "</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>\n";
}

}  // namespace fogproof
