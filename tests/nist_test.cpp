// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The solver against certified values of the NIST Statistical Reference Datasets, nonlinear regression
// (National Institute of Standards and Technology, itl.nist.gov/div898/strd): data, models, starting values
// and eleven-digit certified parameters as published there.
#include <gtest/gtest.h>
