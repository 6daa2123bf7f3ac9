#include <algorithm>

#include "design/design.h"
#include "design/join_order.h"
#include "design/line_trouble.h"

namespace fallwright {

namespace {

// Points that something gives a level to, or will once it is read.
std::vector<bool> points_with_level(const Book& book) {
    std::vector<bool> found(book.names.size(), false);
    for (const Benchmark& benchmark : book.benchmarks) found[benchmark.point] = true;
    for (const Reading& reading : book.readings) found[reading.point] = true;
    for (const Step& step : book.steps) found[step.from] = found[step.to] = true;
    return found;
}

class Designer {
  public:
    explicit Designer(const Book& book)
        : book_(book), order_(order_by_joins(book)), has_level_(points_with_level(book)) {}

    Designs run() {
        std::vector<Findings> findings(book_.lines.size());
        designs_.resize(book_.lines.size());
        for (const std::size_t i : order_.lines) design(i, findings[i]);
        Designs done;
        for (std::unique_ptr<Design>& each : designs_) done.lines.push_back(std::move(*each));
        say_circles(done.findings);
        for (Findings& each : findings)
            done.findings.insert(done.findings.end(), std::make_move_iterator(each.begin()),
                                 std::make_move_iterator(each.end()));
        return done;
    }

  private:
    void design(std::size_t i, Findings& findings) {
        const LineEntry& line = book_.lines[i];
        LineTrouble trouble(book_, line, findings);
        trouble.check_profile();
        trouble.check_chambers();
        const BuiltFlow flow = flow_without_levels(line);
        const FixedEnds fixed = join_ends(i, flow.with_chainage, trouble);
        std::vector<ProfileVertex> vertices = lay_vertices(line, flow.with_chainage, fixed);
        drop_unknown(vertices, trouble);
        designs_[i] = std::make_unique<Design>(book_, line, flow, Profile(std::move(vertices)));
        trouble.check_design(*designs_[i], flow);
    }

    // Levels that hang under what nothing gives a level are no levels.
    void drop_unknown(std::vector<ProfileVertex>& vertices, LineTrouble& trouble) const {
        std::vector<NameId> unknown;
        const auto drop = [&](DesignLevel& level) {
            const auto lost = std::find_if(level.hangs.begin(), level.hangs.end(),
                                           [&](const Hang& hang) { return !has_level_[hang.point]; });
            if (lost == level.hangs.end()) return;
            if (std::find(unknown.begin(), unknown.end(), lost->point) == unknown.end())
                unknown.push_back(lost->point);
            level = {};
        };
        for (ProfileVertex& vertex : vertices) {
            drop(vertex.before);
            drop(vertex.after);
            drop(vertex.typed);
        }
        trouble.say_unknown(unknown);
    }

    FixedEnds join_ends(std::size_t i, bool with_chainage, LineTrouble& trouble) const {
        const LineEntry& line = book_.lines[i];
        FixedEnds fixed;
        if (line.joins.empty()) return fixed;
        if (line.joins.size() > 2)
            trouble.say(Code::JoinTooMany,
                        "has " + std::to_string(line.joins.size()) + " joins, and two ends");
        const std::vector<ProfileVertex> typed = lay_vertices(line, with_chainage, {});
        if (typed.size() < 2) return fixed;
        for (std::size_t k = 0; k < std::min<std::size_t>(2, line.joins.size()); ++k) {
            const bool at_last = (k == 0) == with_chainage;
            fixed[at_last] = joined_level(i, k, at_last ? typed.back().ch : typed.front().ch, trouble);
        }
        return fixed;
    }

    // What the join gives at the own end; absent, and said, where it gives nothing.
    DesignLevel joined_level(std::size_t i, std::size_t k, double own_end, LineTrouble& trouble) const {
        const Join& join = book_.lines[i].joins[k];
        const std::int32_t to = order_.joined[i][k];
        if (to == in_circle) return {};
        const std::string where = book_.name(join.line) + " " + trouble.at(join.ch);
        if (to == no_line) {
            trouble.say(Code::JoinToNothing, "joins " + where + ", and no such line is in the book");
            return {};
        }
        const Design& other = *designs_[static_cast<std::size_t>(to)];
        const Side side = other.side_of({});
        DesignLevel invert = other.profile().level(join.ch, side);
        if (!invert.has()) {
            trouble.say(Code::JoinToNothing, "joins " + where + ", where that line has no design");
            return {};
        }
        if (!join.by_soffit) return invert;
        const double rise = bore_at(other.pipes(), join.ch, side) - own_bore(i, own_end);
        if (std::isnan(rise))
            trouble.say(Code::JoinNoBore, "joins " + where + " by its soffit, and a bore there is missing");
        return std::isnan(rise) ? DesignLevel() : raised(invert, rise);
    }

    static double bore_at(const PipeRun& pipes, double ch, Side side) {
        const Pipe* pipe = pipes.at(ch, side);
        return pipe == nullptr ? NAN : pipe->bore.value;
    }
    double own_bore(std::size_t i, double end) const {
        return bore_at(PipeRun(book_.lines[i].pipes), end, Side::After);
    }

    void say_circles(Findings& findings) const {
        for (const std::vector<std::size_t>& circle : order_.circles) {
            std::vector<std::string> about;
            std::string words;
            for (const std::size_t line : circle) {
                about.push_back(book_.id_of(book_.lines[line].entry));
                words += book_.name(book_.lines[line].name) + " joins ";
            }
            words += book_.name(book_.lines[circle.front()].name) + ", so none of them has a level to join";
            findings.push_back(finding(Code::JoinCircle, std::move(about), std::move(words)));
        }
    }

    const Book& book_;
    JoinOrder order_;
    std::vector<bool> has_level_;
    std::vector<std::unique_ptr<Design>> designs_;
};

}  // namespace

Designs design_lines(const Book& book) {
    return Designer(book).run();
}

}  // namespace fallwright
