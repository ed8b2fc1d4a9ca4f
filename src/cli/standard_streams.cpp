// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "cli/standard_streams.hpp"

#include <fcntl.h>
#include <signal.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <iostream>

#include "fogproof/base/error.hpp"

namespace fogproof::cli {

void make_standard_streams_safe() {
    // The lowest free number is given out, so going upwards fills each gap. Reading only: what is written to
    // a closed standard output fails, and that is noticed.
    for (const int stream : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
        if (::fcntl(stream, F_GETFD) < 0 && errno == EBADF)
            static_cast<void>(::open("/dev/null", stream == STDERR_FILENO ? O_WRONLY : O_RDONLY));
    ::signal(SIGXFSZ, SIG_IGN);
}

void require_answer_delivered() {
    errno = 0;
    if (std::cout.flush()) return;
    const int why = errno;
    throw Error(Fault::io, "standard output",
                "cannot be written" + (why != 0 ? std::string(": ") + std::strerror(why) : std::string()),
                Advice{"the answer is lost, files named on the command line are written"});
}

}  // namespace fogproof::cli
