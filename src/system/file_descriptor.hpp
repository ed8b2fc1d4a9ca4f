// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// An open file that is read and written at stated places.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

class FileDescriptor {
  public:
    /// Why something failed; nothing where all of it was done.
    using Trouble = std::optional<std::string>;

    FileDescriptor() = default;
    /// Owns the number from now on.
    explicit FileDescriptor(int number) : number_(number) {}
    /// Another number for an open file, whose own stays with its owner. Throws Error(Fault::unavailable).
    static FileDescriptor sharing(int descriptor);
    ~FileDescriptor();
    FileDescriptor(FileDescriptor&& other) noexcept : number_(std::exchange(other.number_, -1)) {}
    FileDescriptor& operator=(FileDescriptor&& other) noexcept {
        std::swap(number_, other.number_);
        return *this;
    }

    [[nodiscard]] bool is_open() const { return number_ >= 0; }
    /// For a call of the system; it stays with this object.
    [[nodiscard]] int number() const { return number_; }
    [[nodiscard]] std::uint64_t size() const;
    /// Less than all of it is trouble.
    [[nodiscard]] Trouble read(std::byte* bytes, std::size_t count, std::uint64_t place) const;
    [[nodiscard]] Trouble write(const std::byte* bytes, std::size_t count, std::uint64_t place) const;
    /// Starts bringing to the disk what was just written there, so that it need not all wait for the end, and
    /// has what lies far behind it out of memory, which else fills with what nobody reads. Trouble when the
    /// disk has failed.
    [[nodiscard]] Trouble write_behind(std::size_t count, std::uint64_t place) const;
    [[nodiscard]] Trouble set_size(std::uint64_t) const;

  private:
    int number_ = -1;
};

}  // namespace fogproof::system
