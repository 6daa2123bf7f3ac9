#include "design/line_trouble.h"

#include <algorithm>

#include "base/print.h"

namespace fallwright {

namespace {

constexpr int places_for_people = 3;

std::string_view words(CurveTrouble why) {
    switch (why) {
        case CurveTrouble::AtEnd:
            return "stands at an end of the profile";
        case CurveTrouble::PastEnd:
            return "runs past an end of the profile";
        case CurveTrouble::Steps:
            return "stands where a chamber steps";
        default:
            return "overlaps its neighbour";
    }
}

}  // namespace

void LineTrouble::say(Code code, const std::string& what) {
    to_.push_back(finding(code, {book_.id_of(line_.entry), name()}, "line " + name() + ": " + what));
}

std::string LineTrouble::number(double metres) const {
    return fixed(book_.in_unit(metres), places_for_people);
}

void LineTrouble::check_profile() {
    for (std::size_t i = 1; i < line_.profile.size(); ++i) {
        if (line_.profile[i].ch - line_.profile[i - 1].ch >= least_chainage) continue;
        return say(Code::ProfileOrder, "chainage " + number(line_.profile[i].ch) + " does not lie beyond " +
                                           number(line_.profile[i - 1].ch) + " before it");
    }
}

void LineTrouble::check_beyond(double ch, const std::string& what) {
    if (line_.profile.empty()) return;
    if (ch < line_.profile.front().ch - least_chainage || ch > line_.profile.back().ch + least_chainage)
        say(Code::OffProfile, what + " " + at(ch) + " lies beyond the profile, which goes from " +
                                  number(line_.profile.front().ch) + " to " +
                                  number(line_.profile.back().ch));
}

void LineTrouble::check_step(const Chamber& chamber) {
    const double up = chamber.out.value - chamber.in.value;
    if (rounded_to(up, length_places) > 0)
        say(Code::ChamberRises,
            "at chamber " + book_.name(chamber.name) + " out lies " + number(up) + " above in");
}

void LineTrouble::check_chambers() {
    const std::vector<const Chamber*> used = usable_chambers(line_);
    for (const Chamber& chamber : line_.chambers) {
        check_beyond(chamber.ch, "chamber " + book_.name(chamber.name));
        if (chamber.in.has() && chamber.out.has()) check_step(chamber);
        const auto same = std::find_if(used.begin(), used.end(), [&](const Chamber* other) {
            return other != &chamber && std::fabs(other->ch - chamber.ch) < least_chainage;
        });
        if (same != used.end() && std::find(used.begin(), used.end(), &chamber) == used.end())
            say(Code::ChamberTwice, "chambers " + book_.name((*same)->name) + " and " +
                                        book_.name(chamber.name) + " are both " + at(chamber.ch));
    }
}

void LineTrouble::say_unknown(const std::vector<NameId>& points) {
    for (const NameId point : points)
        say(Code::UnderUnknown,
            "the profile hangs under " + book_.name(point) + ", which nothing gives a level");
}

void LineTrouble::check_curves(const Profile& profile) {
    for (const RefusedCurve& curve : profile.refused())
        say(Code::CurveRefused, "the curve " + at(curve.ch) + " " + std::string(words(curve.why)));
}

void LineTrouble::check_typed(const ProfileVertex& vertex, bool is_first, bool is_last) {
    if (!vertex.typed.has()) return;
    const double below = is_first ? NAN : difference(vertex.before, vertex.typed);
    const double above = is_last ? NAN : difference(vertex.after, vertex.typed);
    // Not there (NaN) is no match, and no difference either.
    if (std::isnan(below) && std::isnan(above)) return;
    if (std::fabs(below) <= worth_saying || std::fabs(above) <= worth_saying) return;
    const double off = std::isnan(below) ? above : below;
    say(Code::ProfileOverridden, "the profile " + at(vertex.ch) + " as written lies " +
                                     number(std::fabs(off)) + (off > 0 ? " below" : " above") +
                                     " what the chamber or join there gives, which holds");
}

void LineTrouble::check_flow(const Profile& profile, BuiltFlow flow) {
    if (flow.assumed)
        say(Code::FlowAssumed,
            "which end is lower shows only in levels found, so water is taken to run with chainage");
    const std::vector<ProfileVertex>& v = profile.vertices();
    if (v.size() < 2) return;
    const double rise = difference(v.back().before, v.front().after) * (flow.with_chainage ? 1 : -1);
    if (!flow.assumed && rise > worth_saying)
        say(Code::FlowUphill, std::string("water is to run ") + (flow.with_chainage ? "with" : "against") +
                                  " chainage, and the design rises " + number(rise) + " that way");
}

void LineTrouble::check_pipes(const PipeRun& pipes) {
    for (const Pipe* pipe : pipes.reversed())
        say(Code::PipeOrder, "a pipe goes from " + number(pipe->from) + " to " + number(pipe->to));
    for (const Pipe* pipe : pipes.overlapping())
        say(Code::PipeOverlap, "the pipe from " + number(pipe->from) + " to " + number(pipe->to) +
                                   " overlaps one written before it");
    if (pipes.pipes().empty()) return;
    check_beyond(pipes.pipes().front()->from, "a pipe's end");
    check_beyond(pipes.pipes().back()->to, "a pipe's end");
    check_holes(pipes);
    const bool wall_missing = std::any_of(pipes.pipes().begin(), pipes.pipes().end(),
                                          [](const Pipe* pipe) { return !pipe->wall.has(); });
    if (wall_missing)
        say(Code::WallAssumed,
            "a pipe without wall is taken without: crown, collar, bed and formation count from "
            "the bore alone");
}

void LineTrouble::check_holes(const PipeRun& pipes) {
    for (std::size_t i = 1; i < pipes.pipes().size(); ++i) {
        const double from = pipes.pipes()[i - 1]->to;
        const double to = pipes.pipes()[i]->from;
        const bool chamber =
            std::any_of(line_.chambers.begin(), line_.chambers.end(), [&](const Chamber& each) {
                return each.ch > from - least_chainage && each.ch < to + least_chainage;
            });
        if (to - from >= least_chainage && !chamber)
            say(Code::PipeHole, "no pipe lies from " + number(from) + " to " + number(to));
    }
}

void LineTrouble::check_surfaces(const Design& design) {
    for (const std::string& layer : design.heights().repeated_layers())
        say(Code::LayerTwice, "layer " + layer + " is given twice");
    if (design.heights().layers_unused()) say(Code::LayersUnused, "layers have no meaning on a drain");
    if (!design.across().in_order())
        say(Code::CrossfallOrder, "the chainages of its crossfall do not increase");
    const Maybe left = line_.edges[0];
    const Maybe right = line_.edges[1];
    if (left.has() && right.has() && !(left.value + right.value > 0))
        say(Code::EdgesCrossed,
            "edges " + number(left.value) + " and " + number(right.value) + " leave no width between them");
}

void LineTrouble::check_design(const Design& design, BuiltFlow flow) {
    const std::vector<ProfileVertex>& v = design.profile().vertices();
    if (v.size() == 1) say(Code::ProfileSingle, "the profile is a single point " + at(v.front().ch));
    for (std::size_t i = 0; i < v.size() && v.size() > 1; ++i) check_typed(v[i], i == 0, i + 1 == v.size());
    check_curves(design.profile());
    check_flow(design.profile(), flow);
    check_pipes(design.pipes());
    for (const double outlet : line_.outlets) check_beyond(outlet, "an outlet");
    check_surfaces(design);
}

}  // namespace fallwright
