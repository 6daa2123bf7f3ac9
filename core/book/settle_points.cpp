#include <cstdlib>
#include <optional>
#include <unordered_map>

#include "book/settle.h"

namespace fallwright {

namespace {

// Chainages closer than this are one, metres.
constexpr double least_chainage = 0.0005;

class PointNamer {
  public:
    explicit PointNamer(Book& book) : book_(book) {}

    void run() {
        name_line_points();
        stand_on_line_points();
    }

  private:
    struct OnLine {
        NameId line, what;
        double ch, off;
    };

    void name_line_points() {
        const ByName lines(book_.lines);
        const NameId ground = book_.names.intern("ground");
        for (Reading& reading : book_.readings) {
            if (reading.line == no_name) take_place_from_name(reading, lines);
            if (reading.line == no_name) continue;
            if (reading.what == no_name) reading.what = ground;
            const std::int32_t line = lines(reading.line);
            name_at_chamber(reading, book_.lines[static_cast<std::size_t>(line)]);
            reading.point =
                book_.names.intern(line_point_name(book_.name(reading.line), book_.in_unit(reading.ch),
                                                   book_.in_unit(reading.off), book_.name(reading.what)));
            name_older_surface(reading);
        }
    }

    // A set-up over a point whose text reads like a point on a line stands there, read or not.
    void stand_on_line_points() {
        const ByName lines(book_.lines);
        for (Setup& setup : book_.setups) {
            if (setup.position.kind != Position::Kind::AtPoint) continue;
            const std::optional<OnLine>& found = place_in_name(setup.position.point, lines);
            if (!found) continue;
            setup.position.kind = Position::Kind::OnLine;
            setup.position.line = found->line;
            setup.position.ch = found->ch;
            setup.position.off = found->off;
        }
    }

    // A stretch that was relaid is a new surface: points of older ones are told apart, counted from the
    // oldest.
    void name_older_surface(Reading& reading) {
        const Entry& at = book_.entries[reading.entry];
        int before = 0;
        int after = 0;
        for (const Relaid& relaid : book_.relaids) {
            if (!covers(relaid, reading)) continue;
            const Entry& when = book_.entries[relaid.entry];
            const bool is_before = when.at != at.at ? when.at < at.at : relaid.entry < reading.entry;
            ++(is_before ? before : after);
        }
        reading.older = after > 0;
        if (!reading.older) return;
        reading.point =
            book_.names.intern(book_.name(reading.point) + " (" + std::to_string(before + 1) + ")");
    }

    static bool covers(const Relaid& relaid, const Reading& reading) {
        return relaid.line == reading.line && relaid.what == reading.what &&
               reading.ch >= relaid.from.or_else(reading.ch) - least_chainage &&
               reading.ch <= relaid.to.or_else(reading.ch) + least_chainage;
    }

    void name_at_chamber(Reading& reading, const LineEntry& line) {
        if (book_.name(reading.what) != "laid") return;
        for (const Chamber& chamber : line.chambers) {
            if (std::fabs(chamber.ch - reading.ch) >= least_chainage) continue;
            reading.what = book_.names.intern("laid out");
            book_.findings.push_back(
                finding(Code::LaidAtChamber, {book_.id_of(reading.entry)},
                        "laid at chamber " + book_.name(chamber.name) + " is taken as laid out"));
            return;
        }
    }

    // A point's text that reads like a point on a line of this book is that point.
    void take_place_from_name(Reading& reading, const ByName& lines) {
        const std::optional<OnLine>& found = place_in_name(reading.point, lines);
        if (!found) return;
        reading.line = found->line;
        reading.ch = found->ch;
        reading.off = found->off;
        reading.what = found->what;
    }

    const std::optional<OnLine>& place_in_name(NameId name, const ByName& lines) {
        if (book_.names.text(name).find(' ') == std::string_view::npos) return nowhere_;
        const auto [known, is_new] = read_names_.emplace(name, std::nullopt);
        if (is_new) known->second = on_line(book_.name(name), lines);
        return known->second;
    }

    std::optional<OnLine> on_line(const std::string& name, const ByName& lines) {
        for (std::size_t space = name.find(' '); space != std::string::npos;
             space = name.find(' ', space + 1)) {
            const NameId line = book_.names.find(std::string_view(name).substr(0, space));
            if (line == no_name || lines(line) < 0) continue;
            const char* text = name.c_str() + space + 1;
            char* end = nullptr;
            const double ch = std::strtod(text, &end);
            if (end == text || *end != ' ') continue;
            double off = 0;
            if ((end[1] == 'L' || end[1] == 'R') && end[2] >= '0' && end[2] <= '9') {
                const double side = end[1] == 'L' ? -1 : 1;
                off = side * std::strtod(end + 2, &end);
                if (*end != ' ') continue;
            }
            const std::string what(end + 1);
            // Only the name the tool itself would write is that point.
            if (!std::isfinite(ch) || std::fabs(ch) > 1e9 || !std::isfinite(off) ||
                line_point_name(book_.name(line), ch, off, what) != name)
                continue;
            return OnLine{line, book_.names.intern(what), ch * book_.metres_per_unit(),
                          off * book_.metres_per_unit()};
        }
        return std::nullopt;
    }

    Book& book_;
    const std::optional<OnLine> nowhere_;
    std::unordered_map<NameId, std::optional<OnLine>> read_names_;  // texts of points already looked at
};

}  // namespace

void settle_points(Book& book) {
    PointNamer(book).run();
}

}  // namespace fallwright
