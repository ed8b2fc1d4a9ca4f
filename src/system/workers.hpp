// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Many files at once, each in a process of its own, within a limit of processes and one of memory.
//
// Processes and not threads: what libvips complains of goes into one buffer for the whole process, and the
// complaint alone tells a damaged file that it reported as read, so with two files at once nobody could say
// whose it is. A process has one file and its own buffer; a decoder that crashes takes one file with it, and
// what it held is given back to the last byte.
#pragma once

#include <sys/types.h>

#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>

#include "fogproof/rooms.hpp"

namespace fogproof::system {

struct WorkLimits {
    std::size_t jobs;      ///< processes at once
    std::uint64_t memory;  ///< bytes that all of them may ask for together
    /// Seconds that one may take, not counting its wait for memory; then it is killed.
    double seconds = 1200;
};
/// One job for each processor this process may use, half of the machine's memory, twenty minutes each
/// (judgement: a gigapixel takes seconds from strips, minutes from PNG).
[[nodiscard]] WorkLimits usual_work_limits();

/// What a worker sees of the others.
class Turn {
  public:
    explicit Turn(int channel) : channel_(channel) {}
    /// Waits until this many bytes are free under the limit; what asks for more than the whole limit waits
    /// until it is alone. Those who wait are served in the order of their numbers. To be asked once.
    void wait_for_memory(std::uint64_t bytes) const;

  private:
    int channel_;
};

/// What became of one worker.
struct WorkerEnd {
    int code;              ///< that its work returned; meaningless after a signal
    int signal;            ///< that ended it, 0 if none
    pid_t process;         ///< it had
    std::string out, err;  ///< what it wrote on its standard output and error
    bool is_late = false;  ///< it was killed at its time limit
};

using Work = std::function<int(std::size_t number, const Turn&)>;
using WorkDone = std::function<void(std::size_t number, const WorkerEnd&)>;

/// Runs work(0) to work(count - 1), each in a process forked off this one, which must have one thread only,
/// and tells of each end in the order of the numbers, whoever ends first. SIGINT, SIGTERM and SIGHUP are
/// passed on to the workers as SIGTERM; once they have ended the signal takes its course here. Workers get
/// SIGTERM too when this process dies. Throws Error(Fault::unavailable) when no worker can be started.
void work_side_by_side(std::size_t count, const WorkLimits&, const Work&, const WorkDone&);

}  // namespace fogproof::system
