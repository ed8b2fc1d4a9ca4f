// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "support/program.hpp"

#include <fcntl.h>
#include <grp.h>
#include <gtest/gtest.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>
#include <cerrno>
#include <cstdlib>
#include <fstream>
#include <thread>

namespace fogproof::tests {

Program::Answer Program::run(const std::string& words, const std::string& variables) const {
    return shell(variables + " \"$FOGPROOF\" " + words);
}

Program::Answer Program::run_as_anybody(const std::string& words) const {
    return shell("\"$FOGPROOF\" " + words, true);
}

Program::Answer Program::shell(const std::string& line, bool as_anybody) const {
    return answer_of(begun(line, as_anybody));
}

Program::Answer Program::run_and_kill(const std::string& words, std::chrono::microseconds after) const {
    const pid_t child = begun("exec \"$FOGPROOF\" " + words, false);
    std::this_thread::sleep_for(after);
    ::kill(child, SIGKILL);
    return answer_of(child);
}

pid_t Program::begun(const std::string& line, bool as_anybody, const std::string& changed_by_test) const {
    const std::string out = (said_ / "out").string(), err = (said_ / "err").string();
    Asked asked{line, named_inputs(folder_ / "", line)};
    asked.inputs.erase(changed_by_test);
    const pid_t child = ::fork();
    if (child == 0) begin(line, out.c_str(), err.c_str(), as_anybody);
    asked_[child] = std::move(asked);
    return child;
}

Program::Answer Program::answer_of(pid_t child) const {
    int status = 0;
    while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {
    }
    if (const auto asked = asked_.extract(child)) expect_kept(asked.mapped());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status), content_of(said_ / "out"),
            content_of(said_ / "err")};
}

Program::~Program() {
    for (const auto& [child, asked] : asked_)
        ADD_FAILURE() << "not asked whether its inputs were kept: " << asked.line;
}

void Program::write(const std::string& name, const std::string& text) const {
    std::ofstream(folder_ / name, std::ios::binary) << text;
}

std::map<std::string, std::string> Program::files() const {
    std::map<std::string, std::string> all;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder_ / "")) {
        const std::string name = std::filesystem::relative(entry.path(), folder_ / "").string();
        if (entry.is_directory())
            all[name + "/"];
        else
            all[name] = content_of(entry.path());
    }
    return all;
}

void Program::let_anybody_in() const {
    std::filesystem::permissions(folder_ / "", std::filesystem::perms::all);
}

void Program::expect_kept(const Asked& asked) const {
    for (const auto& [name, content] : asked.inputs)
        if (content_of(folder_ / name) != content)
            ADD_FAILURE() << "the input " << name << " was changed by: " << asked.line;
}

void Program::begin(const std::string& line, const char* out, const char* err, bool as_anybody) const {
    const int streams[] = {::open("/dev/null", O_RDONLY), ::open(out, O_WRONLY | O_CREAT | O_TRUNC, 0600),
                           ::open(err, O_WRONLY | O_CREAT | O_TRUNC, 0600)};
    for (int i = 0; i < 3; ++i) ::dup2(streams[i], i);
    for (const int stream : streams)
        if (stream > 2) ::close(stream);
    const int program = ::open(FOGPROOF_PROGRAM, O_RDONLY);
    const std::string place = "/proc/self/fd/" + std::to_string(program);
    ::setenv("FOGPROOF", as_anybody ? place.c_str() : FOGPROOF_PROGRAM, 1);
    constexpr unsigned kNobody = 65534;
    const bool ready = ::chdir((folder_ / "").c_str()) == 0 &&
                       (!as_anybody || ::geteuid() != 0 ||
                        (::setgroups(0, nullptr) == 0 && ::setgid(kNobody) == 0 && ::setuid(kNobody) == 0));
    if (ready) ::execl("/bin/sh", "sh", "-c", line.c_str(), static_cast<char*>(nullptr));
    ::_exit(126);
}

}  // namespace fogproof::tests
