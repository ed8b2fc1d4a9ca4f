// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// A variable of the environment that has a value for a while.
#pragma once

#include <cstdlib>
#include <optional>
#include <string>
#include <utility>

namespace fogproof::tests {

class Variable {
  public:
    Variable(std::string name, const std::string& value) : name_(std::move(name)) {
        if (const char* const set = std::getenv(name_.c_str())) before_ = set;
        ::setenv(name_.c_str(), value.c_str(), 1);
    }
    ~Variable() {
        if (before_)
            ::setenv(name_.c_str(), before_->c_str(), 1);
        else
            ::unsetenv(name_.c_str());
    }
    Variable(const Variable&) = delete;
    Variable& operator=(const Variable&) = delete;

  private:
    std::string name_;
    std::optional<std::string> before_;
};

}  // namespace fogproof::tests
