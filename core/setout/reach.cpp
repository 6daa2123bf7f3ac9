#include "setout/reach.h"

#include <algorithm>
#include <cmath>

#include "setout/words.h"

namespace fallwright {

namespace {

bool lower(const Reach& a, const Reach& b) {
    return a.target < b.target;
}

template <class Wanted>
std::vector<Reach> those(const std::vector<Reach>& rows, Wanted wanted) {
    std::vector<Reach> chosen;
    std::copy_if(rows.begin(), rows.end(), std::back_inserter(chosen), wanted);
    return chosen;
}

}  // namespace

void ReachCheck::check(const std::vector<Reach>& rows, Findings& findings) const {
    check_staff(rows, true, findings);
    check_staff(rows, false, findings);
    check_range(rows, findings);
}

void ReachCheck::check_staff(const std::vector<Reach>& rows, bool above, Findings& findings) const {
    const std::vector<Reach> out = those(rows, [this, above](const Reach& row) {
        const double target = rounded_to(row.target, length_places);
        return above ? target > staff_ : target < 0;
    });
    if (out.empty()) return;
    const double worst = above ? std::max_element(out.begin(), out.end(), lower)->target
                               : std::min_element(out.begin(), out.end(), lower)->target;
    const std::string where = stretch_words(book_, out.front().ch, out.back().ch) + " (" +
                              std::to_string(out.size()) + " of " + std::to_string(rows.size()) + " rows)";
    const std::string how =
        above ? " passes above the staff, which ends at " + length_words(book_, staff_) + ", " + where +
                    ": it would have to read up to "
              : " passes below the surface " + where + ": the staff would have to read down to ";
    findings.push_back(finding(Code::SetoutBeyondStaff, {setup_},
                               "the light of set-up " + setup_ + how + length_words(book_, worst),
                               cure(rows, out)));
}

std::string ReachCheck::move_words(const std::vector<Reach>& rows) const {
    const double most_up = staff_ - std::max_element(rows.begin(), rows.end(), lower)->target;
    const double least_up = -std::min_element(rows.begin(), rows.end(), lower)->target;
    if (least_up > most_up) return "";
    const bool down = most_up < 0;
    const double near = down ? -most_up : std::max(least_up, 0.0);
    const double far = down ? -least_up : most_up;
    return "its light stands " + length_words(book_, near) + " to " + length_words(book_, far) +
           (down ? " lower" : " higher");
}

std::string ReachCheck::cure(const std::vector<Reach>& rows, const std::vector<Reach>& out) const {
    const std::string one = move_words(rows);
    if (!one.empty()) return "move the instrument to where " + one + "; all rows can be worked to from there";
    const std::string rest = move_words(out);
    if (!rest.empty())
        return "work to the other rows from here, then set up again where " + rest + " for these";
    return "no one set-up serves these rows: set up again every " + length_words(book_, staff_) + " of fall";
}

void ReachCheck::check_range(const std::vector<Reach>& rows, Findings& findings) const {
    const std::vector<Reach> far = those(rows, [this](const Reach& row) { return row.d > range_; });
    if (far.empty()) return;
    const auto nearer = [](const Reach& a, const Reach& b) { return a.d < b.d; };
    const double worst = std::max_element(far.begin(), far.end(), nearer)->d;
    const double from = rows.back().ch - range_;
    const double to = rows.front().ch + range_;
    const std::string cure = from <= to
                                 ? "set up beside the line " + stretch_words(book_, from, to) +
                                       "; from there all rows are in range"
                                 : "set out in stretches of at most " + length_words(book_, 2 * range_);
    findings.push_back(finding(Code::SetoutOutOfRange, {setup_},
                               "rows " + stretch_words(book_, far.front().ch, far.back().ch) + " lie up to " +
                                   length_words(book_, worst) + " from set-up " + setup_ +
                                   ", the instrument's range is " + length_words(book_, range_),
                               cure));
}

}  // namespace fallwright
