// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "system/workers.hpp"

#include <poll.h>
#include <signal.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <chrono>
#include <cstring>
#include <iostream>
#include <limits>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "fogproof/base/error.hpp"
#include "system/file_descriptor.hpp"
#include "system/held_signals.hpp"
#include "system/processors.hpp"

namespace fogproof::system {
namespace {

[[noreturn]] void refuse_worker() {
    throw Error(Fault::unavailable, "a worker", std::strerror(errno), "fewer at once");
}

// What a worker says goes into memory, so that nothing it said is lost when it crashes.
FileDescriptor notebook(const char* name) {
    FileDescriptor made(::memfd_create(name, MFD_CLOEXEC));
    if (!made.is_open()) refuse_worker();
    return made;
}

std::string content(const FileDescriptor& notebook) {
    std::string text;
    char buffer[4096];
    for (ssize_t count; (count = ::pread(notebook.number(), buffer, sizeof buffer, off_t(text.size()))) > 0;)
        text.append(buffer, std::size_t(count));
    return text;
}

struct Worker {
    std::size_t number;
    pid_t process;
    FileDescriptor channel, out, err;
    std::optional<std::uint64_t> asked;
    std::uint64_t granted = 0;
    std::chrono::steady_clock::time_point since = std::chrono::steady_clock::now();
    bool is_late = false;
};

[[noreturn]] void be_worker(std::size_t number, pid_t parent, int channel, int out, int err, const Work& work,
                            const HeldSignals& held, std::size_t side_by_side) noexcept {
    ::prctl(PR_SET_PDEATHSIG, SIGTERM);
    held.release();
    share_processors(unsigned(side_by_side));
    if (::getppid() != parent) ::_exit(0);
    ::dup2(out, STDOUT_FILENO);
    ::dup2(err, STDERR_FILENO);
    const int code = work(number, Turn(channel));
    std::cout.flush();
    std::cerr.flush();
    // Without the clean-up of a process that this one only borrows.
    ::_exit(code);
}

Worker started(std::size_t number, const Work& work, const HeldSignals& held, std::size_t side_by_side) {
    int ends[2];
    if (::socketpair(AF_UNIX, SOCK_SEQPACKET | SOCK_CLOEXEC, 0, ends) != 0) refuse_worker();
    FileDescriptor mine(ends[0]), theirs(ends[1]);
    Worker worker{number, 0, std::move(mine), notebook("out"), notebook("err"), std::nullopt};
    std::cout.flush();
    const pid_t parent = ::getpid();
    worker.process = ::fork();
    if (worker.process < 0) refuse_worker();
    if (worker.process == 0)
        be_worker(number, parent, theirs.number(), worker.out.number(), worker.err.number(), work, held,
                  side_by_side);
    return worker;
}

class Processes {
  public:
    Processes(std::size_t count, const WorkLimits& limits, const Work& work, const WorkDone& done)
        : count_(count), limits_(limits), work_(work), done_(done) {}
    Processes(const Processes&) = delete;
    Processes& operator=(const Processes&) = delete;
    ~Processes() { dismiss(); }

    void run() {
        while (next_ < count_ || !workers_.empty()) {
            while (next_ < count_ && workers_.size() < side_by_side())
                if (!start_next()) break;
            listen();
            grant();
            tell();
        }
    }

  private:
    // A machine that has no room for one more process may have it when another has ended.
    bool start_next() {
        try {
            workers_.push_back(started(next_, work_, held_, side_by_side()));
        } catch (const Error&) {
            if (workers_.empty()) throw;
            return false;
        }
        ++next_;
        return true;
    }

    [[nodiscard]] std::size_t side_by_side() const {
        return std::clamp<std::size_t>(limits_.jobs, 1, std::max<std::size_t>(count_, 1));
    }

    void listen() {
        std::vector<pollfd> ears{{held_.descriptor(), POLLIN, 0}};
        for (const auto& worker : workers_) ears.push_back({worker.channel.number(), POLLIN, 0});
        if (::poll(ears.data(), ears.size(), milliseconds_to_next_end()) < 0) {
            if (errno == EINTR) return;
            throw Error(Fault::internal, "workers", std::strerror(errno));
        }
        if (ears[0].revents != 0) {
            dismiss();
            held_.release();  // it was never taken off the queue, so it arrives now
            throw Error(Fault::unavailable, "workers", "interrupted");
        }
        for (std::size_t i = workers_.size(); i-- > 0;)
            if (ears[i + 1].revents != 0) hear(i);
        for (Worker& worker : workers_)
            if (seconds_left(worker) <= 0) {
                worker.is_late = true;
                ::kill(worker.process, SIGKILL);
            }
    }

    // Without end for one that waits for memory, or that is being ended.
    [[nodiscard]] double seconds_left(const Worker& worker) const {
        if (worker.asked || worker.is_late) return std::numeric_limits<double>::infinity();
        const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - worker.since;
        return limits_.seconds - spent.count();
    }

    [[nodiscard]] int milliseconds_to_next_end() const {
        double left = std::numeric_limits<double>::infinity();
        for (const Worker& worker : workers_) left = std::min(left, seconds_left(worker));
        constexpr double kLongest = 1e6;  // seconds
        return left > kLongest ? -1 : int(std::max(left, 0.0) * 1000) + 1;
    }

    // A worker either asks for memory or, by closing its end, says that it is gone.
    void hear(std::size_t place) {
        Worker& worker = workers_[place];
        std::uint64_t bytes = 0;
        if (::recv(worker.channel.number(), &bytes, sizeof bytes, 0) == ssize_t(sizeof bytes)) {
            worker.asked = bytes;
            return;
        }
        int status = 0;
        while (::waitpid(worker.process, &status, 0) < 0 && errno == EINTR) {
        }
        used_ -= worker.granted;
        ended_.emplace(worker.number, WorkerEnd{WIFEXITED(status) ? WEXITSTATUS(status) : 0,
                                                WIFSIGNALED(status) ? WTERMSIG(status) : 0, worker.process,
                                                content(worker.out), content(worker.err), worker.is_late});
        workers_.erase(workers_.begin() + std::ptrdiff_t(place));
    }

    // First come by number, first served: nobody overtakes a large scan, so it is not kept waiting for ever.
    void grant() {
        for (Worker& worker : workers_) {
            if (!worker.asked) continue;
            const bool fits = *worker.asked <= limits_.memory && used_ <= limits_.memory - *worker.asked;
            if (!fits && used_ > 0) return;
            worker.granted = *worker.asked;
            used_ += worker.granted;
            worker.since = std::chrono::steady_clock::now();
            worker.asked.reset();
            const char go = 1;
            static_cast<void>(::send(worker.channel.number(), &go, 1, MSG_NOSIGNAL));
        }
    }

    void tell() {
        for (auto end = ended_.begin(); end != ended_.end() && end->first == told_; end = ended_.erase(end))
            done_(told_++, end->second);
    }

    void dismiss() {
        for (const auto& worker : workers_) ::kill(worker.process, SIGTERM);
        for (const auto& worker : workers_)
            while (::waitpid(worker.process, nullptr, 0) < 0 && errno == EINTR) {
            }
        workers_.clear();
    }

    std::size_t count_;
    WorkLimits limits_;
    const Work& work_;
    const WorkDone& done_;
    HeldSignals held_;
    std::vector<Worker> workers_;  // in the order of their numbers
    std::map<std::size_t, WorkerEnd> ended_;
    std::size_t next_ = 0, told_ = 0;
    std::uint64_t used_ = 0;
};

}  // namespace

WorkLimits usual_work_limits() {
    const auto pages = std::uint64_t(std::max(::sysconf(_SC_PHYS_PAGES), 0L));
    const auto page = std::uint64_t(std::max(::sysconf(_SC_PAGESIZE), 1L));
    return {.jobs = processors(), .memory = pages * page / 2};
}

void Turn::wait_for_memory(std::uint64_t bytes) const {
    char go = 0;
    // A parent that does not answer is dying, and this process with it.
    if (::send(channel_, &bytes, sizeof bytes, MSG_NOSIGNAL) != ssize_t(sizeof bytes) ||
        ::recv(channel_, &go, 1, 0) != 1)
        throw Error(Fault::unavailable, "a worker", "has lost the process that started it");
}

void work_side_by_side(std::size_t count, const WorkLimits& limits, const Work& work, const WorkDone& done) {
    Processes(count, limits, work, done).run();
}

}  // namespace fogproof::system
