// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include <libdeflate.h>

#include <memory>

#include "fogproof/base/error.hpp"
#include "pixels/line_reader.hpp"
#include "pixels/tiff_layout.hpp"
#include "pixels/tiff_print.hpp"
#include "system/progress.hpp"
#include "system/threads.hpp"

namespace fogproof::pixels {
namespace {

class CheckWorker : public BandWorker {
  public:
    CheckWorker(const WrittenPrint& written, const TiffScan& scan, WorkSteps& steps)
        : written_(written), steps_(steps), line_bytes_(scan.layout().line_bytes()), reader_(scan) {}

    void work(std::size_t band) override {
        const int top = written_.edges[band], count = written_.edges[band + 1] - top;
        const std::byte* const lines = reader_.lines(top, count);
        if (libdeflate_crc32(0, lines, std::size_t(count) * line_bytes_) != written_.checksums[band])
            throw Error(
                Fault::io, written_.name,
                "reads back differently from how it was written, in the lines from " + std::to_string(top));
        steps_.done();
    }

  private:
    const WrittenPrint& written_;
    WorkSteps& steps_;
    std::size_t line_bytes_;
    LineReader reader_;
};

}  // namespace

void require_as_written(const WrittenPrint& written, const std::filesystem::path& file, Pace pace) {
    const auto scan = TiffScan::open(file);
    if (!scan || scan->facts().height != written.edges.back())
        throw Error(Fault::io, written.name, "cannot be read back");
    WorkSteps steps("reading back " + std::filesystem::path(written.name).filename().string(),
                    written.checksums.size());
    work_in_bands(written.checksums.size(), pace.threads,
                  [&] { return std::make_unique<CheckWorker>(written, *scan, steps); });
}

}  // namespace fogproof::pixels
