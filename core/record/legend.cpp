#include "record/legend.h"

namespace fallwright::record {

namespace {

using sheet::At;

constexpr double row_height = 4, sample_width = 8, gap = 1.5, between = 5, mark_size = 2.6;

double entry_width(const LegendEntry& entry) {
    return sample_width + gap + text_width(entry.word, small_type);
}

// Where each entry begins; the last is where the legend ends below.
std::vector<At> places_of(const std::vector<LegendEntry>& entries, At at, double width) {
    std::vector<At> places;
    double x = at.x, y = at.y;
    for (const LegendEntry& entry : entries) {
        const double needed = entry_width(entry);
        if (x > at.x && x + needed > at.x + width) {
            x = at.x;
            y += row_height;
        }
        places.push_back({x, y});
        x += needed + between;
    }
    places.push_back({at.x, entries.empty() ? at.y : y + row_height});
    return places;
}

struct SampleDrawer {
    Drawing& drawing;
    At at;  // upper left

    double middle() const { return at.y + row_height / 2; }
    void operator()(const sheet::Stroke& stroke) const {
        drawing.line({at.x, middle()}, {at.x + sample_width, middle()}, stroke);
    }
    void operator()(const Hatched& hatched) const {
        const double top = middle() - 1.3, bottom = middle() + 1.3, right = at.x + sample_width;
        drawing.area({{at.x, top}, {right, top}, {right, bottom}, {at.x, bottom}}, hatched.ink,
                     hatched.pattern);
        drawing.box({at.x, top, right, bottom}, {hair, sheet::Ink::Line, sheet::Dash::Solid});
    }
    void operator()(const Marked& marked) const {
        drawing.mark({{at.x + sample_width / 2, middle()}, marked.mark, mark_size, 0, marked.ink});
    }
};

}  // namespace

double draw_legend(Drawing& drawing, const std::vector<LegendEntry>& entries, At at, double width) {
    const std::vector<At> places = places_of(entries, at, width);
    for (std::size_t i = 0; i < entries.size(); ++i) {
        std::visit(SampleDrawer{drawing, places[i]}, entries[i].sample);
        drawing.text(
            label({places[i].x + sample_width + gap, places[i].y + row_height / 2 + small_type * 0.36},
                  cut_to(entries[i].word, small_type, width - sample_width - gap), small_type));
    }
    return places.back().y;
}

double legend_height(const std::vector<LegendEntry>& entries, double width) {
    return places_of(entries, {}, width).back().y;
}

void add_marks(std::vector<LegendEntry>& entries, const UsedMarks& used) {
    using sheet::Ink;
    using sheet::Mark;
    if (used.high) entries.push_back({Marked{Mark::DigWedge, Ink::Dig}, "HIGH, outside: take down"});
    if (used.low) entries.push_back({Marked{Mark::FillWedge, Ink::Fill}, "LOW, outside: bring up"});
    if (used.within) entries.push_back({Marked{Mark::OnBar, Ink::Line}, "within tolerance"});
    if (used.undecided) entries.push_back({Marked{Mark::Undecided, Ink::Line}, "too close to call"});
    if (used.untested) entries.push_back({Marked{Mark::Spot, Ink::Line}, "no tolerance given"});
}

void note_mark(UsedMarks& used, sheet::Mark mark) {
    used.high = used.high || mark == sheet::Mark::DigWedge;
    used.low = used.low || mark == sheet::Mark::FillWedge;
    used.within = used.within || mark == sheet::Mark::OnBar;
    used.undecided = used.undecided || mark == sheet::Mark::Undecided;
    used.untested = used.untested || mark == sheet::Mark::Spot;
}

double draw_paragraph(Drawing& drawing, const std::string& words, At at, double width, double size,
                      bool bold) {
    const double row_step = size * 1.4;
    std::string row;
    double y = at.y;
    const auto finish = [&] {
        sheet::Label text = label({at.x, y + ascent * size}, row, size);
        text.bold = bold;
        drawing.text(text);
        y += row_step;
    };
    for (std::size_t from = 0; from < words.size();) {
        std::size_t end = words.find(' ', from);
        if (end == std::string::npos) end = words.size();
        const std::string word = cut_to(words.substr(from, end - from), size, width, bold);
        std::string longer = row;
        if (!row.empty()) longer += ' ';
        longer += word;
        if (!row.empty() && text_width(longer, size, bold) > width) {
            finish();
            row = word;
        } else {
            row = longer;
        }
        from = end + 1;
    }
    if (!row.empty()) finish();
    return y;
}

double draw_head(Drawing& drawing, const std::string& name, const std::string& facts,
                 const std::string& job) {
    sheet::Label title = label({0, title_type}, cut_to(name, title_type, drawing.width(), true), title_type);
    title.bold = true;
    drawing.text(title);
    drawing.place(label({}, job, small_type), {{{drawing.width(), title_type}, sheet::Anchor::End}});
    double y = title_type + descent * title_type + 1;
    if (!facts.empty()) y = draw_paragraph(drawing, facts, {0, y}, drawing.width(), small_type);
    return y + 1;
}

}  // namespace fallwright::record
