// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
//
// The rooms of the house, in walking order. Each is a namespace and sees the names of the rooms before it as
// if they were its own, never those of a room after it.
#pragma once

namespace fogproof {

namespace base {}
namespace system {
using namespace base;
}  // namespace system
namespace negative {
using namespace system;
}  // namespace negative
namespace enlarger {
using namespace negative;
}  // namespace enlarger
namespace emulsion {
using namespace enlarger;
}  // namespace emulsion
namespace bleach {
using namespace emulsion;
}  // namespace bleach
namespace redevelop {
using namespace bleach;
}  // namespace redevelop
namespace sheet {
using namespace redevelop;
}  // namespace sheet
namespace pack {
using namespace sheet;
}  // namespace pack
namespace print {
using namespace pack;
}  // namespace print
namespace table {
using namespace print;
}  // namespace table
namespace fit {
using namespace table;
}  // namespace fit
namespace choose {
using namespace fit;
}  // namespace choose
namespace proof {
using namespace choose;
}  // namespace proof
namespace pixels {
using namespace proof;
}  // namespace pixels
namespace scan {
using namespace pixels;
}  // namespace scan
namespace registration {
using namespace scan;
}  // namespace registration
namespace reading {
using namespace registration;
}  // namespace reading
namespace picture {
using namespace reading;
}  // namespace picture
namespace report {
using namespace picture;
}  // namespace report
namespace demo {
using namespace report;
}  // namespace demo
namespace cli {
using namespace demo;
}  // namespace cli

}  // namespace fogproof
