// SPDX-License-Identifier: MIT
// Copyright the fogproof authors
#include "pixels/tiff_print.hpp"

#include <algorithm>
#include <bit>
#include <memory>
#include <optional>

#include "fogproof/base/error.hpp"
#include "pixels/bands.hpp"
#include "pixels/deflater.hpp"
#include "pixels/entry_sums.hpp"
#include "pixels/passes.hpp"
#include "pixels/tiff_directory.hpp"
#include "system/file_descriptor.hpp"
#include "system/progress.hpp"
#include "system/threads.hpp"
#include "system/whole_file.hpp"

namespace fogproof::pixels {
namespace {

constexpr std::size_t kStripBytes = 1 << 20;

// A power of two, as the strips and tiles of most scans are, so that the two mostly begin together. The scan
// has no say in it: the same print has the same bytes.
int lines_of_strip(std::size_t line_bytes, int height) {
    return int(std::bit_floor(std::clamp<std::size_t>(kStripBytes / line_bytes, 1, std::size_t(height))));
}

TiffPicture picture_of(const CodeSource& source, const StripPrint& print) {
    TiffPicture picture{source.width() + print.border.widths().across(),
                        source.height() + print.border.widths().down(),
                        print.table.channels(),
                        print.table.bits(),
                        1,
                        print.compress,
                        print.pixels_per_mm,
                        print.icc,
                        print.xmp};
    picture.lines_per_strip = lines_of_strip(picture.line_bytes(), picture.height);
    return picture;
}

// Strips that are compressed are made by one worker each, so bands begin where strips do; otherwise the scan
// decides.
std::vector<int> edges_of(const CodeSource& source, const StripPrint& print, const TiffPicture& picture,
                          std::size_t band_bytes) {
    if (!print.compress) {
        std::vector<int> edges = band_edges(source, band_bytes);
        for (int& edge : edges) edge += print.border.widths().top;
        edges.front() = 0;
        edges.back() = picture.height;
        return edges;
    }
    const int strip = picture.lines_per_strip, together = source.lines_together();
    const int step = (together + strip - 1) / strip * strip;
    std::vector<int> edges;
    for (int edge = 0; edge < picture.height; edge += step) edges.push_back(edge);
    edges.push_back(picture.height);
    return edges;
}

using Strips = std::vector<std::vector<std::byte>>;

// The file being written: strips at their places, or one after the other.
class Target {
  public:
    Target(int file, const std::string& name, const TiffPicture& picture)
        : name_(name), picture_(picture), file_(FileDescriptor::sharing(file)), places_(picture.strips()) {
        end_ = first_ = tiff_head(picture_, places_).size();
        if (picture_.deflate) return;
        if (const auto trouble = file_.set_size(first_ + picture_.pixel_bytes())) refuse(*trouble);
    }
    void put_lines(const std::byte* bytes, int top, int count) const {
        const std::uint64_t line_bytes = picture_.line_bytes();
        put(bytes, std::size_t(count) * line_bytes, first_ + std::uint64_t(top) * line_bytes);
    }
    void append(const Strips& strips) {
        for (const auto& strip : strips) {
            places_[done_++] = {end_, strip.size()};
            put(strip.data(), strip.size(), end_);
            end_ += strip.size();
        }
    }
    void put_head() {
        if (!picture_.deflate) {
            const std::uint64_t strip_bytes = std::uint64_t(picture_.lines_per_strip) * picture_.line_bytes();
            for (std::size_t i = 0; i < places_.size(); ++i)
                places_[i] = {first_ + i * strip_bytes,
                              std::min(strip_bytes, picture_.pixel_bytes() - i * strip_bytes)};
        }
        const auto head = tiff_head(picture_, places_);
        put(head.data(), head.size(), 0);
    }

  private:
    void put(const std::byte* bytes, std::size_t count, std::uint64_t place) const {
        if (const auto trouble = file_.write(bytes, count, place)) refuse(*trouble);
        if (const auto trouble = file_.write_behind(count, place)) refuse(*trouble);
    }
    [[noreturn]] void refuse(const std::string& why) const { throw cannot_be_written(name_, why); }

    const std::string& name_;
    const TiffPicture& picture_;
    FileDescriptor file_;
    std::vector<StoredStrip> places_;
    std::size_t done_ = 0;
    std::uint64_t first_ = 0, end_ = 0;
};

// All that the workers share.
struct Job {
    const CodeSource& source;
    const StripPrint& print;
    const TiffPicture& picture;
    WrittenPrint& written;
    Target& target;
    EntrySums drawn;
    InOrder<Strips> strips;
    WorkSteps steps;
};

template <class Code>
class PrintWorker : public BandWorker {
  public:
    explicit PrintWorker(Job& job) : job_(job), reader_(job.source.reader()) {
        pixels_.resize(std::size_t(job.picture.lines_per_strip) * job.picture.line_bytes() +
                       PackedTable::kSlack);
        if (job.print.compress) deflater_.emplace();
    }

    void work(std::size_t band) override try {
        const int end = job_.written.edges[band + 1];
        Strips strips;
        std::uint32_t checksum = 0;
        take(job_.written.edges[band], end);
        for (int top = job_.written.edges[band]; top < end;) {
            const int count = std::min(job_.picture.lines_per_strip, end - top);
            for (int line = 0; line < count; ++line) draw(top + line, line);
            const std::size_t bytes = std::size_t(count) * job_.picture.line_bytes();
            if (job_.print.checksums) checksum = libdeflate_crc32(checksum, pixels_.data(), bytes);
            if (deflater_)
                strips.push_back(deflater_->deflated(pixels_.data(), count, job_.picture));
            else
                job_.target.put_lines(pixels_.data(), top, count);
            top += count;
        }
        job_.written.checksums[band] = checksum;
        if (deflater_) job_.strips.hand_in(band, std::move(strips));
        job_.steps.done();
    } catch (...) {
        job_.strips.abandon();
        throw;
    }
    void finish() override { job_.drawn += drawn_; }

  private:
    // Reads the scan's part of these lines of the print.
    void take(int top, int end) {
        first_ = std::max(top - job_.print.border.widths().top, 0);
        end_ = std::min(end - job_.print.border.widths().top, job_.source.height());
        if (first_ < end_) codes_ = reader_->lines(first_, end_ - first_);
    }
    void draw(int line_of_print, int line_of_strip) {
        const std::size_t bytes = job_.print.table.pixel_bytes();
        const int left = job_.print.border.widths().left, width = job_.source.width();
        std::byte* to = pixels_.data() + std::size_t(line_of_strip) * job_.picture.line_bytes();
        const int line = line_of_print - job_.print.border.widths().top;
        if (line < first_ || line >= end_) return draw_border(line_of_print, 0, job_.picture.width, to);
        const Code* const codes = codes_.line<Code>(line - first_);
        std::byte* const picture = to + std::size_t(left) * bytes;
        if (job_.print.local)
            drawn_ += job_.print.local->draw(codes, line, 0, width, picture);
        else
            for_each_run(job_.source, line, 0, width, [&](int begin, int end, std::size_t first_entry) {
                drawn_ += job_.print.table.map(codes + begin, std::size_t(end - begin), first_entry,
                                               picture + std::size_t(begin) * bytes);
            });
        // Behind the picture, whose last pixel may have been written with some more.
        draw_border(line_of_print, 0, left, to);
        draw_border(line_of_print, left + width, job_.picture.width, picture + std::size_t(width) * bytes);
    }
    void draw_border(int line, int begin, int end, std::byte* to) const {
        job_.print.border.draw(line, begin, end, job_.picture.width, job_.picture.height, to);
    }

    Job& job_;
    std::unique_ptr<CodeReader> reader_;
    EntrySums drawn_;
    CodeBand codes_{};
    int first_ = 0, end_ = 0;
    std::vector<std::byte> pixels_;
    std::optional<Deflater> deflater_;
};

}  // namespace

std::uint64_t pixel_bytes(const CodeSource& source, const StripPrint& print) {
    return picture_of(source, print).pixel_bytes();
}

WrittenPrint print_strips(const CodeSource& source, const StripPrint& print, int file,
                          const Histogram* expected, Pace pace) {
    if (print.table.entries() != source.entries() ||
        (!print.border.widths().is_none() && print.border.pixel_bytes() != print.table.pixel_bytes()))
        throw Error(Fault::internal, print.name, "is to be printed through a table of other codes");
    const TiffPicture picture = picture_of(source, print);
    WrittenPrint written{print.name, edges_of(source, print, picture, pace.band_bytes), {}};
    const std::size_t bands = written.edges.size() - 1;
    written.checksums.resize(bands);
    Target target(file, print.name, picture);
    const unsigned threads = source.in_order() ? 1 : pace.threads;
    Job job{source,
            print,
            picture,
            written,
            target,
            {},
            InOrder<Strips>(2 * workers_for(bands, threads),
                            [&target](const Strips& strips) { target.append(strips); }),
            WorkSteps("printing " + std::filesystem::path(source.name()).filename().string(), bands)};
    work_in_bands(bands, threads, [&]() -> std::unique_ptr<BandWorker> {
        if (source.codes() == 256) return std::make_unique<PrintWorker<std::uint8_t>>(job);
        return std::make_unique<PrintWorker<std::uint16_t>>(job);
    });
    source.require_unchanged();
    require_all(job.drawn.pixels, source);
    if (expected != nullptr && job.drawn != sums_of(*expected))
        throw Error(Fault::data, source.name(), "has changed while it was read",
                    "a scan that stays as it is");
    target.put_head();
    return written;
}

}  // namespace fogproof::pixels
