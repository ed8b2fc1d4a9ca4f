// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/text_file.hpp"

#include <unistd.h>

#include <string_view>
#include <utility>

#include "fogproof/base/error.hpp"
#include "system/input_file.hpp"
#include "system/whole_file.hpp"

namespace fogproof::system {
namespace {

constexpr std::size_t kTellingBytes = 8;

// What cannot be read has no beginning; reading the whole of it says why.
std::string beginning_of(const std::filesystem::path& source) {
    const FileDescriptor file = opened_input(source);
    std::string bytes(kTellingBytes, '\0');
    const ssize_t count = ::pread(file.number(), bytes.data(), bytes.size(), 0);
    bytes.resize(count < 0 ? 0 : std::size_t(count));
    return bytes;
}

std::optional<std::string> picture_beginning_with(const std::string& beginning) {
    using namespace std::string_view_literals;
    for (const auto& [start, kind] : {std::pair{"II*\0"sv, "TIFF"},
                                      {"MM\0*"sv, "TIFF"},
                                      {"II+\0"sv, "TIFF"},
                                      {"MM\0+"sv, "TIFF"},
                                      {"\x89PNG\r\n"sv, "PNG"},
                                      {"\xff\xd8\xff"sv, "JPEG"}})
        if (beginning.starts_with(start)) return kind;
    return std::nullopt;
}

}  // namespace

std::optional<std::string> picture_kind(const std::filesystem::path& source) {
    return picture_beginning_with(beginning_of(source));
}

std::string read_text(const std::filesystem::path& source, std::size_t limit, const std::string& wanted) {
    const std::string beginning = beginning_of(source);
    if (const auto kind = picture_beginning_with(beginning))
        throw Error(Fault::data, source.string(), "is a " + *kind + " picture", wanted);
    // The Unicode Standard 15, section 2.6: U+FEFF in either order, as some spreadsheets and editors save
    // text.
    if (beginning.starts_with("\xff\xfe") || beginning.starts_with("\xfe\xff"))
        throw Error(Fault::data, source.string(), "is text in UTF-16", "text in UTF-8; save it as that");
    return read_whole(source, limit);
}

}  // namespace fogproof::system
