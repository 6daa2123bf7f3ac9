#include <array>
#include <map>

#include "design/design.h"

namespace fallwright {

namespace {

std::string_view surface_of(On on) {
    switch (on) {
        case On::Soffit:
            return "soffit";
        case On::Crown:
            return "crown";
        case On::Collar:
            return "collar";
        default:
            return "invert";
    }
}

class TakeDown {
  public:
    TakeDown(const Book& book, const Designs& designs)
        : book_(book), designs_(designs), line_of_(book.lines) {}

    TakenDown run() {
        for (const Reading& reading : book_.readings) taken_.readings.push_back(depth(reading));
        report(unknown_, Code::OnUnknown, "no pipe there tells how far the invert lies below it");
        report(not_laid_, Code::OnNotLaid, "only laid, laid in, laid out and invert are taken down to it");
        return std::move(taken_);
    }

  private:
    using Group = std::map<std::pair<NameId, On>, std::vector<std::string>>;

    double depth(const Reading& reading) {
        if (reading.on == On::Nothing || reading.on == On::Invert) return 0;
        if (reading.line != no_name && !is_laid(reading.what)) {
            add(not_laid_, reading);
            return 0;
        }
        const double depth = reading.line == no_name ? NAN : depth_on_line(reading);
        if (std::isnan(depth)) add(unknown_, reading);
        return depth;
    }

    bool is_laid(NameId what) const {
        const std::string_view name = book_.names.text(what);
        return name == "laid" || name == "laid in" || name == "laid out" || name == "invert";
    }

    double depth_on_line(const Reading& reading) const {
        const Design& design = designs_.lines[static_cast<std::size_t>(line_of_(reading.line))];
        const Side side =
            design.side_of({DesignSurface::Kind::Above, 0, book_.names.text(reading.what) == "laid in"});
        return height_above_profile(on_pipe(reading.on), design.pipes().at(reading.ch, side));
    }

    static DesignSurface on_pipe(On on) {
        using Kind = DesignSurface::Kind;
        const Kind kind = on == On::Soffit ? Kind::Soffit : on == On::Crown ? Kind::Crown : Kind::Collar;
        return {kind, 0, false};
    }

    void add(Group& group, const Reading& reading) {
        group[{reading.line, reading.on}].push_back(book_.id_of(reading.entry));
    }

    // One finding for all readings of a line that stood on the same.
    void report(Group& group, Code code, const std::string& why) {
        for (auto& [key, ids] : group) {
            std::string message = "the staff stood on the " + std::string(surface_of(key.second));
            if (key.first != no_name) message += " on line " + book_.name(key.first);
            message += ", and " + why;
            taken_.findings.push_back(finding(code, std::move(ids), std::move(message)));
        }
    }

    const Book& book_;
    const Designs& designs_;
    ByName line_of_;
    Group unknown_, not_laid_;
    TakenDown taken_;
};

}  // namespace

TakenDown take_down(const Book& book, const Designs& designs) {
    return TakeDown(book, designs).run();
}

}  // namespace fallwright
