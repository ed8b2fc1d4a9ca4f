// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// Work on the rows of a picture in several threads. Every row is computed from its number alone, so the
// result is the same for any number of threads.
#pragma once

#include <functional>

namespace fogproof::demo {

/// Calls work(row) once for each row in [0, rows), by threads; the first exception is rethrown.
void for_each_row(int rows, int threads, const std::function<void(int)>& work);

}  // namespace fogproof::demo
