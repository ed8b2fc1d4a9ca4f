// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "report/html_text.hpp"

#include <glib.h>

#include <memory>
#include <vector>

#include "base/markup.hpp"
#include "base/version.hpp"
#include "base/words.hpp"

namespace fogproof::report::html {
namespace {

std::string base64(const void* bytes, std::size_t size) {
    const std::unique_ptr<gchar, void (*)(void*)> text(
        g_base64_encode(static_cast<const guchar*>(bytes), size), g_free);
    return text.get();
}

std::string opened(std::string_view name, const Attributes& attributes) {
    std::string text = "<" + std::string(name);
    for (const auto& [key, value] : attributes) {
        text.append(" ").append(key);
        if (!value.empty() || key == "alt") text.append("=\"").append(escaped_markup(value)).append("\"");
    }
    return text.append(">");
}

// The number in the first attribute of a name within a drawing's root element.
int size_in(std::string_view svg, std::string_view name) {
    const std::string key = " " + std::string(name) + "=\"";
    const auto from = svg.find(key) + key.size();
    return int(number_in(svg.substr(from, svg.find('"', from) - from)).value_or(0));
}

std::string policy(std::string_view style, std::string_view script) {
    std::string text = "default-src 'none'; img-src data:; style-src " + policy_hash(style) +
                       "; base-uri 'none'; form-action 'none'";
    if (!script.empty()) text += "; script-src " + policy_hash(script);
    return text;
}

}  // namespace

std::string element(std::string_view name, const Attributes& attributes, std::string_view content) {
    return opened(name, attributes).append(content).append("</").append(name).append(">\n");
}

std::string worded(std::string_view name, std::string_view words, const Attributes& attributes) {
    return element(name, attributes, escaped_markup(words));
}

std::string data_uri(std::string_view media_type, std::string_view bytes) {
    return "data:" + std::string(media_type) + ";base64," + base64(bytes.data(), bytes.size());
}

std::string picture(std::string_view media_type, std::string_view bytes, std::string_view words, int width,
                    int height) {
    return opened("img", {{"src", data_uri(media_type, bytes)},
                          {"alt", words},
                          {"width", std::to_string(width)},
                          {"height", std::to_string(height)}}) +
           "\n";
}

std::string within_script(std::string json) {
    for (std::size_t at = 0; (at = json.find('<', at)) != std::string::npos;) json.replace(at, 1, "\\u003c");
    return json;
}

std::string drawing(std::string_view svg, std::string_view words) {
    return picture("image/svg+xml", svg, words, size_in(svg, "width"), size_in(svg, "height"));
}

std::string policy_hash(std::string_view text) {
    const std::unique_ptr<GChecksum, void (*)(GChecksum*)> sum(g_checksum_new(G_CHECKSUM_SHA256),
                                                               g_checksum_free);
    g_checksum_update(sum.get(), reinterpret_cast<const guchar*>(text.data()), gssize(text.size()));
    std::vector<guint8> digest(32);
    gsize size = digest.size();
    g_checksum_get_digest(sum.get(), digest.data(), &size);
    return "'sha256-" + base64(digest.data(), size) + "'";
}

std::string page(const Page& page) {
    std::string text = "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n";
    text += opened("meta", {{"http-equiv", "Content-Security-Policy"},
                            {"content", policy(page.style, page.script)}}) +
            "\n";
    text += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
    text += opened("meta", {{"name", "generator"}, {"content", "fogproof " + version()}}) + "\n";
    text += worded("title", page.title);
    // Hashes count every byte between the tags.
    text.append("<style>").append(page.style).append("</style>\n</head>\n<body>\n").append(page.body);
    if (!page.script.empty()) text.append("<script>").append(page.script).append("</script>\n");
    return text + "</body>\n</html>\n";
}

}  // namespace fogproof::report::html
