#include <algorithm>
#include <array>
#include <cmath>

#include "design/vertices.h"
#include "fall/over_design.h"
#include "record/figure_words.h"
#include "record/section_sheet.h"

namespace fallwright::record {

namespace {

using sheet::At;
using sheet::Dash;
using sheet::Ink;

constexpr double same_level = 1e-6, same_grade = 5e-8;
constexpr int parts_of_curve = 16;
constexpr double stub = 4;  // mm a chamber of unknown height rises over its pipe
constexpr double least_chamber = 1.6;

std::vector<At> on_sheet(const SectionSheet& sheet, const std::vector<LevelPoint>& points) {
    std::vector<At> places;
    places.reserve(points.size());
    for (const LevelPoint& point : points) places.push_back({sheet.x(point.ch), sheet.y(point.level)});
    return places;
}

bool draw_levels(Drawing& drawing, const SectionSheet& sheet,
                 const std::vector<std::vector<LevelPoint>>& lines, const sheet::Stroke& stroke) {
    for (const auto& line : lines) drawing.path(on_sheet(sheet, line), stroke);
    return !lines.empty();
}

// Chainages between which a design is straight, or nearly so: columns, and parts of curves.
std::vector<double> bends(const SectionData& data, double from, double to) {
    std::vector<double> all = {from, to};
    const auto add = [&](double ch) {
        if (ch > from + least_chainage && ch < to - least_chainage) all.push_back(ch);
    };
    for (const ProfilePiece& piece : data.design->profile().pieces()) {
        add(piece.from);
        add(piece.to);
        for (int i = 1; piece.curved && i < parts_of_curve; ++i)
            add(piece.from + (piece.to - piece.from) * i / parts_of_curve);
    }
    for (const Pipe* pipe : data.design->pipes().pipes()) {
        add(pipe->from);
        add(pipe->to);
    }
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end(),
                          [](double a, double b) { return std::fabs(a - b) < least_chainage; }),
              all.end());
    return all;
}

void fill_pipe(Drawing& drawing, const SectionSheet& sheet, const DesignSurface& invert,
               const DesignSurface& soffit) {
    const std::vector<double> places = bends(*sheet.data, sheet.window.from, sheet.window.to);
    const auto level = [&](const DesignSurface& surface, double ch, Side side) {
        return sheet.data->design->level(surface, ch, 0, side).value(sheet.data->level_of);
    };
    for (std::size_t i = 1; i < places.size(); ++i) {
        const double a = places[i - 1], b = places[i];
        const double low_a = level(invert, a, Side::After), low_b = level(invert, b, Side::Before);
        const double high_a = level(soffit, a, Side::After), high_b = level(soffit, b, Side::Before);
        if (std::isnan(low_a + low_b + high_a + high_b)) continue;
        drawing.area({{sheet.x(a), sheet.y(low_a)},
                      {sheet.x(b), sheet.y(low_b)},
                      {sheet.x(b), sheet.y(high_b)},
                      {sheet.x(a), sheet.y(high_a)}},
                     Ink::Water, sheet::Pattern::Tint);
    }
}

void draw_found(Drawing& drawing, const SectionSheet& sheet, std::vector<LegendEntry>& legend) {
    constexpr std::array<sheet::Mark, 3> marks = {sheet::Mark::Point, sheet::Mark::LevelMark,
                                                  sheet::Mark::Chamber};
    for (std::size_t s = 0; s < sheet.data->surfaces.size(); ++s) {
        const sheet::Stroke stroke = {thin, Ink::Line, Dash::DashDot};
        std::vector<At> line;
        for (std::size_t i = 0; i < sheet.count(); ++i) {
            const Found& found = sheet.column(i).found[s];
            if (!found.any()) continue;
            line.push_back({sheet.x(found.ch), sheet.y(found.level)});
        }
        if (line.empty()) continue;
        for (const At& at : line) drawing.mark({at, marks[s], 2, 0, Ink::Line});
        drawing.path(line, stroke);
        const std::string& what = sheet.data->surfaces[s];
        legend.push_back({Marked{marks[s], Ink::Line}, what == "laid" ? "as laid" : "found: " + what});
    }
}

struct Grade {
    double from, to, gradient;
    double end;   // level at `to`
    double bore;  // NaN: no pipe, or not known
};

bool goes_on(const Grade& before, const Grade& grade, double start) {
    const bool same_bore = before.bore == grade.bore || (std::isnan(before.bore) && std::isnan(grade.bore));
    return same_bore && std::fabs(before.gradient - grade.gradient) < same_grade &&
           grade.from - before.to < least_chainage && std::fabs(before.end - start) < same_level;
}

// Straight grades of the profile within the sheet, of one bore; those that go on without a step joined.
std::vector<Grade> grades_on(const SectionSheet& sheet) {
    const SectionData& data = *sheet.data;
    std::vector<Grade> grades;
    const DesignSurface profile = data.design->heights().find(data.profile);
    const std::vector<double> places = bends(data, sheet.window.from, sheet.window.to);
    for (std::size_t i = 1; i < places.size(); ++i) {
        const double from = places[i - 1], to = places[i];
        if (std::fabs(data.design->curvature(from, Side::After).value(data.level_of)) > 0) continue;
        const double gradient = data.design->gradient(from, Side::After).value(data.level_of);
        const double start = data.design->level(profile, from, 0, Side::After).value(data.level_of);
        const double end = data.design->level(profile, to, 0, Side::Before).value(data.level_of);
        if (std::isnan(gradient) || std::isnan(start) || std::isnan(end)) continue;
        const Pipe* pipe = data.design->pipes().at(from, Side::After);
        const Grade grade = {from, to, gradient, end, pipe == nullptr ? NAN : pipe->bore.value};
        if (!grades.empty() && goes_on(grades.back(), grade, start)) {
            grades.back().to = to;
            grades.back().end = end;
        } else {
            grades.push_back(grade);
        }
    }
    return grades;
}

// The longest of these that fits the length on paper; "" where none does.
std::string grade_words(const Book& book, const Grade& grade, double length) {
    const std::string fall = fall_words(grade.gradient), one_in = fall.substr(0, fall.find(" ("));
    const std::string bore = std::isnan(grade.bore) ? "" : size_words(book, grade.bore) + " bore, ";
    for (const std::string& words : {bore + fall, bore + one_in, fall, one_in}) {
        if (text_width(words, usual_type) <= length) return words;
    }
    return "";
}

// The lowest line of the design there: what a gradient is written under.
double lowest_design(const SectionSheet& sheet, double ch) {
    double lowest = NAN;
    for (const char* what : {"formation", "invert", "finished"}) {
        const DesignSurface surface = sheet.data->design->heights().find(what);
        if (surface.any())
            lowest = std::fmin(
                lowest, sheet.data->design->level(surface, ch, 0, Side::After).value(sheet.data->level_of));
    }
    return lowest;
}

}  // namespace

std::vector<std::vector<LevelPoint>> levels_between(const SectionData& data, const DesignSurface& surface,
                                                    double from, double to) {
    std::vector<std::vector<LevelPoint>> lines;
    if (!data.design->any() || !surface.any()) return lines;
    const std::vector<double> places = bends(data, from, to);
    const auto level = [&](double ch, Side side) {
        return data.design->level(surface, ch, 0, side).value(data.level_of);
    };
    for (std::size_t i = 1; i < places.size(); ++i) {
        const double a = level(places[i - 1], Side::After), b = level(places[i], Side::Before);
        if (std::isnan(a) || std::isnan(b)) continue;
        const bool goes_on = !lines.empty() && lines.back().back().ch == places[i - 1] &&
                             std::fabs(lines.back().back().level - a) < same_level;
        if (!goes_on) lines.push_back({{places[i - 1], a}});
        lines.back().push_back({places[i], b});
    }
    return lines;
}

std::vector<std::vector<LevelPoint>> ground_between(const SectionData& data, double from, double to) {
    std::vector<std::vector<LevelPoint>> lines;
    bool open = false;
    const Column* before = nullptr;
    for (const Column& column : data.columns) {
        if (std::isnan(column.ground)) {
            open = false;
            before = nullptr;
            continue;
        }
        const auto between = [&](double ch) {
            const double share = (ch - before->ch) / (column.ch - before->ch);
            return before->ground + share * (column.ground - before->ground);
        };
        if (column.ch >= from && column.ch <= to) {
            if (!open) lines.emplace_back();
            // Cut where the sheet begins.
            if (!open && before != nullptr && before->ch < from && column.ch > from)
                lines.back().push_back({from, between(from)});
            lines.back().push_back({column.ch, column.ground});
            open = true;
        } else if (column.ch > to && before != nullptr && before->ch < to) {
            if (!open) lines.push_back({{std::max(from, before->ch), between(std::max(from, before->ch))}});
            lines.back().push_back({to, between(to)});
            open = false;
        }
        before = &column;
    }
    return lines;
}

void find_range(SectionSheet& sheet) {
    const auto take = [&sheet](double level) {
        sheet.lowest = std::fmin(sheet.lowest, level);
        sheet.highest = std::fmax(sheet.highest, level);
    };
    const SectionData& data = *sheet.data;
    for (std::size_t i = 0; i < sheet.count(); ++i) {
        for (const Found& found : sheet.column(i).found) take(found.level);
    }
    for (const auto& line : ground_between(data, sheet.window.from, sheet.window.to)) {
        for (const LevelPoint& point : line) take(point.level);
    }
    for (const char* what : {"formation", "invert", "finished", "crown", "soffit"}) {
        const DesignSurface surface = data.design->heights().find(what);
        for (const auto& line : levels_between(data, surface, sheet.window.from, sheet.window.to)) {
            for (const LevelPoint& point : line) take(point.level);
        }
        take(data.design->any() && surface.any()
                 ? data.design->level(surface, sheet.window.from, 0).value(data.level_of)
                 : NAN);
    }
    for (const Chamber* chamber : usable_chambers(*data.line)) {
        if (chamber->ch >= sheet.window.from && chamber->ch <= sheet.window.to)
            take(chamber_lid(*data.line, chamber->ch));
    }
}

void draw_section_lines(Drawing& drawing, const SectionSheet& sheet, std::vector<LegendEntry>& legend) {
    const SectionData& data = *sheet.data;
    const double from = sheet.window.from, to = sheet.window.to;
    const auto design = [&](const char* what) {
        return levels_between(data, data.design->heights().find(what), from, to);
    };
    const auto draw = [&](const std::vector<std::vector<LevelPoint>>& lines, const sheet::Stroke& stroke,
                          const std::string& word) {
        if (draw_levels(drawing, sheet, lines, stroke)) legend.push_back({stroke, word});
    };
    const bool piped = data.profile == "invert";
    if (piped)
        fill_pipe(drawing, sheet, data.design->heights().find("invert"),
                  data.design->heights().find("soffit"));
    draw(design("formation"), {thin, Ink::Design, Dash::Dotted}, piped ? "trench bottom" : "formation");
    if (piped)
        draw(design("soffit"), {medium, Ink::Design, Dash::Solid}, "soffit (inside of the bore, above)");
    draw(design(data.profile.c_str()), {heavy_line, Ink::Design, Dash::Solid}, "design " + data.profile);
    draw(ground_between(data, from, to), {medium, Ink::Ground, Dash::Dashed}, "existing ground");
    draw_found(drawing, sheet, legend);
}

void draw_chambers(Drawing& drawing, const SectionSheet& sheet, std::vector<LegendEntry>& legend) {
    const SectionData& data = *sheet.data;
    bool any = false;
    for (const Chamber* chamber : usable_chambers(*data.line)) {
        if (chamber->ch < sheet.window.from - least_chainage ||
            chamber->ch > sheet.window.to + least_chainage)
            continue;
        double bottom = NAN, top = chamber_lid(*data.line, chamber->ch), pipe = NAN;
        for (const Side side : {Side::Before, Side::After}) {
            const auto level = [&](const char* what) {
                return data.design->level(data.design->heights().find(what), chamber->ch, 0, side)
                    .value(data.level_of);
            };
            bottom = std::fmin(bottom, level(data.profile.c_str()));
            pipe = std::fmax(pipe, std::fmax(level("soffit"), level(data.profile.c_str())));
        }
        for (std::size_t i = 0; std::isnan(top) && i < sheet.count(); ++i) {
            if (std::fabs(sheet.column(i).ch - chamber->ch) < least_chainage) top = sheet.column(i).ground;
        }
        if (std::isnan(bottom)) continue;
        const double half = std::max(least_chamber, on_paper(chamber->size.or_else(0), sheet.horizontal)) / 2;
        const double x = sheet.x(chamber->ch), low = sheet.y(bottom);
        const double high = std::isnan(top) ? sheet.y(pipe) - stub : sheet.y(top);
        const sheet::Stroke wall = {wide, Ink::Line, Dash::Solid};
        const std::string name = data.book->name(chamber->name);
        drawing.path({{x - half, high}, {x - half, low}, {x + half, low}, {x + half, high}}, wall, name);
        if (!std::isnan(top))
            drawing.line({x - half - 0.8, high}, {x + half + 0.8, high},
                         {heavy_line, Ink::Line, Dash::Solid});
        std::vector<LabelPlace> places;
        for (int i = 0; i < 4; ++i) {
            const double y = std::min(high, sheet.top + 6) - 1.5 - 3 * i;
            places.push_back({{x, y}, sheet::Anchor::Middle});
            places.push_back({{x - half, y}, sheet::Anchor::Start});
            places.push_back({{x + half, y}, sheet::Anchor::End});
        }
        sheet::Label text = label({}, name, usual_type);
        text.bold = true;
        text.cleared = true;
        drawing.place(text, places, name);
        any = true;
    }
    if (any) legend.push_back({sheet::Stroke{wide, Ink::Line, Dash::Solid}, "chamber: two upright lines"});
}

// Of a line without a design: the straight line of best fit through what was found first.
void draw_fitted(Drawing& drawing, const SectionSheet& sheet) {
    const SectionData& data = *sheet.data;
    if (data.found.empty() || std::isnan(data.fitted) || data.found.front().found.size() < 2) return;
    double lowest = NAN;
    for (std::size_t i = 0; i < sheet.count(); ++i)
        lowest = std::fmin(lowest, sheet.column(i).found.front().level);
    if (std::isnan(lowest)) return;
    const double middle = (sheet.x(sheet.window.from) + sheet.x(sheet.window.to)) / 2,
                 y = sheet.y(lowest) + 4;
    const std::string words = "best fit " + fall_words(data.fitted);
    const double width = text_width(words, usual_type);
    sheet::Label text = label({}, words, usual_type);
    text.cleared = true;
    if (drawing.place(text, {{{middle, y}, sheet::Anchor::Middle}}) && !words.ends_with("level"))
        drawing.mark({{middle - width / 2 - 2.8, y - 0.8},
                      sheet::Mark::FlowArrow,
                      3.4,
                      data.fitted < 0 ? 0.0 : 180.0,
                      Ink::Line});
}

void draw_gradients(Drawing& drawing, const SectionSheet& sheet) {
    if (!sheet.data->design->any()) {
        draw_fitted(drawing, sheet);
        return;
    }
    for (const Grade& grade : grades_on(sheet)) {
        constexpr double arrow = 5;
        const double length = sheet.x(grade.to) - sheet.x(grade.from);
        const std::string words = grade_words(*sheet.data->book, grade, length - arrow);
        const double width = text_width(words, usual_type) + arrow;
        if (words.empty()) continue;
        for (const double share : {0.5, 0.35, 0.65, 0.2, 0.8}) {
            const double ch = grade.from + share * (grade.to - grade.from);
            const double x =
                std::clamp(sheet.x(ch), sheet.x(grade.from) + width / 2, sheet.x(grade.to) - width / 2);
            const double y = sheet.y(std::fmin(lowest_design(sheet, ch), lowest_design(sheet, grade.to))) + 4;
            sheet::Label text = label({}, words, usual_type);
            text.cleared = true;
            const Box arrow_box = {x - width / 2, y - 2, x - width / 2 + arrow - 0.5, y};
            const bool level = words.ends_with("level");
            if (!level && !drawing.is_free(arrow_box)) continue;
            if (!drawing.place(text, {{{x - width / 2 + arrow, y}, sheet::Anchor::Start}})) continue;
            if (!level)
                drawing.mark({{x - width / 2 + arrow / 2 - 0.4, y - 0.8},
                              sheet::Mark::FlowArrow,
                              3.4,
                              grade.gradient < 0 ? 0.0 : 180.0,
                              Ink::Design});
            break;
        }
    }
}

}  // namespace fallwright::record
