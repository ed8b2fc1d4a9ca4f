// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "fogproof/base/file_kind.hpp"

#include <utility>

#include "fogproof/base/error.hpp"

namespace fogproof {

void refuse_picture(std::string_view content, const std::string& place, const std::string& wanted) {
    using namespace std::string_view_literals;
    for (const auto& [start, kind] : {std::pair{"II*\0"sv, "TIFF"},
                                      {"MM\0*"sv, "TIFF"},
                                      {"II+\0"sv, "TIFF"},
                                      {"MM\0+"sv, "TIFF"},
                                      {"\x89PNG\r\n"sv, "PNG"},
                                      {"\xff\xd8\xff"sv, "JPEG"}})
        if (content.starts_with(start))
            throw Error(Fault::data, place, std::string("is a ") + kind + " picture", wanted);
    refuse_utf16(content, place);
}

// The Unicode Standard 15, section 2.6: U+FEFF in either order.
void refuse_utf16(std::string_view content, const std::string& place) {
    if (content.starts_with("\xff\xfe") || content.starts_with("\xfe\xff"))
        throw Error(Fault::data, place, "is text in UTF-16", "text in UTF-8; save it as that");
}

}  // namespace fogproof
