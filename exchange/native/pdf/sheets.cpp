#include "exchange/native/pdf/sheets.h"

#include <algorithm>

#include "exchange/native/pdf/blocks.h"

namespace fallwright::pdf {

namespace {

struct HeadingStyle {
    Style style;
    double before, after;
};
constexpr HeadingStyle heading_styles[] = {{{5, true}, 6, 3}, {{4.1, true}, 4.5, 1.8}, {{3.5, true}, 3, 1}};
constexpr Style title_style{7, true}, subject_style{4.1, false};

const HeadingStyle& style_of(const sheet::Heading& heading) {
    return heading_styles[std::clamp(heading.depth, 1, 3) - 1];
}

class Layout {
  public:
    Layout(const sheet::Document& document, sheet::PaperSize paper, Type& type)
        : document_(document), flow_(paper, type) {}

    Laid lay_out() {
        title();
        const std::vector<sheet::Block>& blocks = document_.blocks;
        for (std::size_t k = 0; k < blocks.size();) {
            // Headings, and a statement that a signature stands under, stay with what follows them.
            std::size_t stop = k;
            while (stop < blocks.size() && leans_on_next(blocks, stop)) ++stop;
            stop = std::min(stop, blocks.size() - 1);
            group(k, stop);
            k = stop + 1;
        }
        return flow_.take();
    }

  private:
    static bool leans_on_next(const std::vector<sheet::Block>& blocks, std::size_t k) {
        if (std::holds_alternative<sheet::Heading>(blocks[k])) return true;
        return std::holds_alternative<sheet::Statement>(blocks[k]) && k + 1 < blocks.size() &&
               std::holds_alternative<sheet::Signature>(blocks[k + 1]);
    }

    void title() {
        flow_.lines(flow_.type().lines(flow_.clean(document_.title), title_style.size, true, flow_.width()),
                    flow_.left(), title_style);
        flow_.gap(1);
        if (!document_.subject.empty()) {
            flow_.lines(
                flow_.type().lines(flow_.clean(document_.subject), subject_style.size, false, flow_.width()),
                flow_.left(), subject_style);
        }
        flow_.gap(4);
    }

    void group(std::size_t first, std::size_t last) {
        const std::vector<sheet::Block>& blocks = document_.blocks;
        orient(blocks[last]);
        double height = lead(blocks[last]);
        for (std::size_t k = first; k < last; ++k) height += lead(blocks[k]);
        flow_.need(std::min(height, flow_.height()));
        for (std::size_t k = first; k <= last; ++k) {
            std::visit([&](const auto& block) { put(block); }, blocks[k]);
        }
    }

    // A turned sheet for what needs one; small print under it stays with it; then upright again.
    void orient(const sheet::Block& block) {
        const auto* table = std::get_if<sheet::Table>(&block);
        const auto* drawn = std::get_if<sheet::Drawn>(&block);
        const auto* statement = std::get_if<sheet::Statement>(&block);
        const bool turned =
            (table != nullptr && turns(flow_, *table)) || (drawn != nullptr && turns(flow_, *drawn));
        if (flow_.turned() && statement != nullptr && statement->tone == sheet::Tone::Small) return;
        if (turned != flow_.turned()) flow_.next_sheet(turned);
    }

    double lead(const sheet::Block& block) {
        return std::visit([&](const auto& what) { return lead(what); }, block);
    }
    double lead(const sheet::Heading& heading) {
        const HeadingStyle& style = style_of(heading);
        return style.before + static_cast<double>(lines_of(heading).size()) * style.style.leading() +
               style.after;
    }
    static double lead(const sheet::PageBreak& /*nothing*/) { return 0; }
    template <class Other>
    double lead(const Other& other) {
        return lead_of(flow_, other);
    }

    std::vector<std::string_view> lines_of(const sheet::Heading& heading) {
        const Style& style = style_of(heading).style;
        return flow_.type().lines(flow_.clean(heading.text), style.size, true, flow_.width());
    }

    void put(const sheet::Heading& heading) {
        const HeadingStyle& style = style_of(heading);
        flow_.gap(style.before);
        flow_.bookmark(heading.depth, flow_.clean(heading.text));
        flow_.lines(lines_of(heading), flow_.left(), style.style);
        if (heading.depth <= 1) flow_.rule(flow_.left(), flow_.left() + flow_.width(), flow_.y() + 0.6, 0.5);
        flow_.gap(style.after);
    }
    void put(const sheet::PageBreak& /*nothing*/) { flow_.next_sheet(false); }
    template <class Other>
    void put(const Other& other) {
        place(flow_, other);
    }

    const sheet::Document& document_;
    Flow flow_;
};

}  // namespace

namespace {

Laid on_sheets(const sheet::Document& document, double larger, Type& type) {
    sheet::PaperSize paper = sheet::size_of(document.paper);
    paper.width *= larger;
    paper.height *= larger;
    paper.margin *= larger;
    Laid laid = Layout(document, paper, type).lay_out();
    laid.larger = larger;
    // What a document's end left empty is no sheet.
    if (laid.sheets.size() > 1 && laid.sheets.back().pieces.empty()) laid.sheets.pop_back();
    return laid;
}

}  // namespace

Laid lay_out(const sheet::Document& document, Type& type) {
    // The largest makes type of 3.5 mm 2.5 mm, 7 points.
    constexpr double step = 0.08, largest = 1.4;
    Laid laid = on_sheets(document, 1, type);
    for (double larger = 1 + step; document.one_sheet && laid.sheets.size() > 1 && larger <= largest + 1e-9;
         larger += step)
        laid = on_sheets(document, larger, type);
    return laid;
}

}  // namespace fallwright::pdf
