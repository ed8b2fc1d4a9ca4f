// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// An open file that is read and written at stated places.
#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <string>
#include <utility>

#include "fogproof/rooms.hpp"

namespace fogproof::pixels {

class FileDescriptor {
  public:
    FileDescriptor() = default;
    /// Throws Error(Fault::no_input).
    static FileDescriptor reading(const std::filesystem::path&);
    /// Another number for an open file, whose own stays with its owner. Throws Error(Fault::unavailable).
    static FileDescriptor sharing(int descriptor);
    ~FileDescriptor();
    FileDescriptor(FileDescriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
    FileDescriptor& operator=(FileDescriptor&& other) noexcept {
        std::swap(number_, other.number_);
        return *this;
    }

    [[nodiscard]] std::uint64_t size() const;
    /// False, and why, when not all of it could be had.
    [[nodiscard]] bool read(std::byte* bytes, std::size_t count, std::uint64_t place, std::string& why) const;
    [[nodiscard]] bool write(const std::byte* bytes, std::size_t count, std::uint64_t place,
                             std::string& why) const;
    /// Starts bringing to the disk what was just written there, so that it need not all wait for the end, and
    /// has what lies far behind it out of memory, which else fills with what nobody reads. False, and why,
    /// when the disk has failed.
    [[nodiscard]] bool write_behind(std::size_t count, std::uint64_t place, std::string& why) const;
    [[nodiscard]] bool set_size(std::uint64_t, std::string& why) const;

  private:
    explicit FileDescriptor(int number) : number_(number) {}
    int number_ = -1;
};

}  // namespace fogproof::pixels
