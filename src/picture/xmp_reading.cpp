// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "picture/xmp_reading.hpp"

#include <libdeflate.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdint>
#include <cstring>
#include <memory>
#include <string_view>
#include <utility>

#include "fogproof/base/error.hpp"
#include "system/input_file.hpp"
#include "system/picture_kind.hpp"

namespace fogproof::picture {
namespace {

constexpr std::string_view kBegins = "<?xpacket begin=", kEnds = "<?xpacket end=";
// PNG 11.3.3.3, a chunk of deflated text, under the keyword that libvips gives a packet.
constexpr std::string_view kDeflated("zTXtXML:com.adobe.xmp\0\0", 23);
constexpr std::size_t kChunk = 1u << 20;
// Far more than a print says of itself.
constexpr std::size_t kLargestPacket = 1u << 20;

class File {
  public:
    explicit File(const std::filesystem::path& path) : path_(path), file_(system::opened_input(path)) {}

    /// Fewer at its end.
    [[nodiscard]] std::string bytes(std::uint64_t from, std::size_t count) const {
        std::string bytes(count, '\0');
        std::size_t have = 0;
        while (have < count) {
            const ssize_t got =
                ::pread(file_.number(), bytes.data() + have, count - have, off_t(from + have));
            if (got < 0 && errno == EINTR) continue;
            if (got < 0)
                throw Error(Fault::io, path_.string(),
                            std::string("cannot be read: ") + std::strerror(errno));
            if (got == 0) break;
            have += std::size_t(got);
        }
        bytes.resize(have);
        return bytes;
    }
    [[nodiscard]] std::optional<std::uint64_t> place_of(std::string_view mark, std::uint64_t from) const {
        for (;; from += kChunk) {
            // A mark may lie across two chunks.
            const std::string chunk = bytes(from, kChunk + mark.size());
            if (const std::size_t at = chunk.find(mark); at != std::string::npos) return from + at;
            if (chunk.size() < kChunk + mark.size()) return std::nullopt;
        }
    }

  private:
    const std::filesystem::path& path_;
    system::FileDescriptor file_;
};

std::string inflated(std::string_view packed) {
    const std::unique_ptr<libdeflate_decompressor, decltype(&libdeflate_free_decompressor)> decompressor(
        libdeflate_alloc_decompressor(), libdeflate_free_decompressor);
    std::string text(kLargestPacket, '\0');
    std::size_t size = 0;
    if (!decompressor || libdeflate_zlib_decompress(decompressor.get(), packed.data(), packed.size(),
                                                    text.data(), text.size(), &size) != LIBDEFLATE_SUCCESS)
        return {};
    text.resize(size);
    return text;
}

// The packets of a file, one after the other.
std::optional<std::string> next_packet(const File& file, std::uint64_t& from) {
    const auto begin = file.place_of(kBegins, from);
    if (!begin) return std::nullopt;
    from = *begin + kBegins.size();
    const std::string bytes = file.bytes(*begin, kLargestPacket);
    return bytes.substr(0, bytes.find(kEnds));
}

std::optional<std::string> packet_of_png(const File& file) {
    constexpr std::size_t kLength = 4;  // bytes before a chunk's name
    const auto chunk = file.place_of(kDeflated, kLength);
    if (!chunk) return std::nullopt;
    std::uint32_t length = 0;
    for (const char byte : file.bytes(*chunk - kLength, kLength))
        length = length << 8 | std::uint32_t(std::uint8_t(byte));
    if (length > kLargestPacket) return std::nullopt;
    return inflated(file.bytes(*chunk + kDeflated.size(), length));
}

std::string unescaped(std::string_view text) {
    constexpr std::array<std::pair<std::string_view, char>, 4> kEscapes{
        {{"&amp;", '&'}, {"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}}};
    std::string plain;
    while (!text.empty()) {
        std::size_t taken = 1;
        char letter = text.front();
        for (const auto& [escape, stands_for] : kEscapes)
            if (text.starts_with(escape)) {
                taken = escape.size();
                letter = stands_for;
            }
        plain += letter;
        text.remove_prefix(taken);
    }
    return plain;
}

// What stands between two marks; nothing where one is missing.
std::optional<std::string_view> between(std::string_view text, std::string_view from, std::string_view to) {
    const std::size_t begin = text.find(from);
    if (begin == std::string_view::npos) return std::nullopt;
    const std::size_t end = text.find(to, begin + from.size());
    if (end == std::string_view::npos) return std::nullopt;
    return text.substr(begin + from.size(), end - begin - from.size());
}

}  // namespace

std::optional<std::string> property_of_picture(const std::filesystem::path& path, const std::string& name) {
    const File file(path);
    const auto told_in = [&](const std::optional<std::string>& packet) {
        return packet ? between(*packet, "<fogproof:" + name + ">", "</fogproof:" + name + ">")
                      : std::nullopt;
    };
    if (picture_kind(path) == PictureKind::png) {
        const auto packet = packet_of_png(file);
        if (const auto value = told_in(packet)) return unescaped(*value);
    }
    std::uint64_t from = 0;
    for (auto packet = next_packet(file, from); packet; packet = next_packet(file, from))
        if (const auto value = told_in(packet)) return unescaped(*value);
    return std::nullopt;
}

}  // namespace fogproof::picture
