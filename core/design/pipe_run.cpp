#include "design/pipe_run.h"

#include <algorithm>

namespace fallwright {

namespace {

bool begins_before(const Pipe* pipe, double ch) {
    return pipe->from < ch;
}

bool overlap(const Pipe& a, const Pipe& b) {
    return std::min(a.to, b.to) - std::max(a.from, b.from) >= least_chainage;
}

}  // namespace

PipeRun::PipeRun(const std::vector<Pipe>& pipes) {
    for (const Pipe& pipe : pipes) {
        if (pipe.to - pipe.from < least_chainage) {
            reversed_.push_back(&pipe);
            continue;
        }
        const auto next = std::lower_bound(pipes_.begin(), pipes_.end(), pipe.from, begins_before);
        const bool over_next = next != pipes_.end() && overlap(pipe, **next);
        const bool over_last = next != pipes_.begin() && overlap(pipe, **std::prev(next));
        if (over_next || over_last)
            overlapping_.push_back(&pipe);
        else
            pipes_.insert(next, &pipe);
    }
}

const Pipe* PipeRun::at(double ch, Side side) const {
    const auto next = std::lower_bound(pipes_.begin(), pipes_.end(), ch + least_chainage, begins_before);
    if (next == pipes_.begin()) return nullptr;
    const Pipe* here = *std::prev(next);
    if (here->to <= ch - least_chainage) return nullptr;
    const bool begins_here = here->from > ch - least_chainage;
    if (side == Side::Before && begins_here && std::prev(next) != pipes_.begin()) {
        const Pipe* before = *std::prev(next, 2);
        if (before->to > ch - least_chainage) return before;
    }
    return here;
}

}  // namespace fallwright
