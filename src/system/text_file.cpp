// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/text_file.hpp"

#include "fogproof/base/error.hpp"
#include "system/picture_kind.hpp"
#include "system/whole_file.hpp"

namespace fogproof::system {
std::string read_text(const std::filesystem::path& source, std::size_t limit, const std::string& wanted) {
    const std::string beginning = beginning_of(source, 8);
    if (const auto kind = picture_kind_of(beginning))
        throw Error(Fault::data, source.string(), "is a " + name_of(*kind) + " picture", wanted);
    // The Unicode Standard 15, section 2.6: U+FEFF in either order, as some spreadsheets and editors save
    // text.
    if (beginning.starts_with("\xff\xfe") || beginning.starts_with("\xfe\xff"))
        throw Error(Fault::data, source.string(), "is text in UTF-16", "text in UTF-8; save it as that");
    return read_whole(source, limit);
}

}  // namespace fogproof::system
