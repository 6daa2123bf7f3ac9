#include "exchange/text/level_run.h"

#include <map>
#include <optional>
#include <set>
#include <utility>

#include "exchange/text/booked_check.h"
#include "exchange/text/booked_sums.h"
#include "exchange/text/inverted_rows.h"
#include "exchange/text/point_names.h"

namespace fallwright::text {

namespace {

using Level = std::optional<Decimal>;

// Places on the line as keys beside names; no name begins with a tab.
std::string line_key(const Record& record) {
    return "\t" + std::to_string(record.chainage.length().ticks()) + "\t" +
           std::to_string(record[Column::Offset].length().ticks());
}

std::string key_of(const Record& record, const std::string& point) {
    return point.empty() ? line_key(record) : point;
}

class Follower {
  public:
    Follower(const std::vector<Record>& records, const SheetForm& form, SheetFindings& findings)
        : records_(records),
          form_(form),
          findings_(findings),
          check_(records, form, findings),
          sums_(check_, form, findings),
          names_(records, form, findings),
          known_(records, form, findings) {}

    LevelRun run() {
        for (const Record& record : records_) take(record);
        report_lone_setup();
        note_figures();
        run_.benchmarks = known_.take();
        return std::move(run_);
    }

  private:
    void complain(Code code, const Record& record, Column column, std::string message,
                  std::string cure = {}) {
        findings_.add(code, form_.columns.spot(record.row, column), std::move(message), std::move(cure));
    }

    void take(const Record& record) {
        switch (record.kind) {
            case Record::Kind::Sights:
                return take_sights(record);
            case Record::Kind::Heading:
                return take_heading(record);
            case Record::Kind::Sum:
                return sums_.compare(record);
            case Record::Kind::Check:
                return take_check(record);
            case Record::Kind::Figures:
            case Record::Kind::Aside:
                return;
        }
    }

    // Kept as a remark; it may also be a point whose reading was forgotten.
    void take_heading(const Record& record) {
        add_step(RunStep::Kind::Heading, record, {});
        if (record.point.empty() || record.named_by_remark) return;
        complain(Code::ImportNotUsed, record, form_.columns.point_column(),
                 quoted(record.point) + " stands without a sight and is kept as a remark",
                 "if its reading was forgotten, type it and import again");
    }

    // Rows of figures without a sight: benchmarks listed have been taken, the rest is said.
    void note_figures() {
        for (const Record& record : records_) {
            const bool listed = record.known_level || (record[Column::Level] && known_.level(record.point));
            if (record.kind != Record::Kind::Figures || listed) continue;
            findings_.add(Code::ImportNotUsed, {record.row, -1, {}},
                          "a row of figures without a sight is not used",
                          "if its level is that of a benchmark, mark it as known");
        }
    }

    // "Check" may also be somebody's name of a point.
    void take_check(const Record& record) {
        int sights = 0;
        for (const Column column : {Column::Back, Column::Inter, Column::Fore})
            sights += record[column] ? 1 : 0;
        if (sights != 1 || sums_.fits(record)) return sums_.compare(record);
        complain(Code::ImportRow, record, form_.columns.point_column(),
                 "a sight, or a check of the sums that does not agree",
                 "give the point another name, or correct the sum");
    }

    bool is_unlabelled_sum(const Record& record) const {
        return record.point.empty() && !record.chainage && record[Column::Back] && record[Column::Fore] &&
               sums_.are_sums(record);
    }

    void check_staff(const Record& record, Column column) {
        if (record[column].magnitude().length() <= longest_staff) return;
        complain(Code::ImportReading, record, column,
                 "a reading of " + record[column].written(LengthUnit::Metre) + " m, longer than a staff");
    }

    void take_sights(const Record& record) {
        if (is_unlabelled_sum(record)) return;
        const bool back = static_cast<bool>(record[Column::Back]);
        const bool fore = static_cast<bool>(record[Column::Fore]);
        const bool inter = static_cast<bool>(record[Column::Inter]);
        sums_.add(record);
        for (const Column column : {Column::Back, Column::Inter, Column::Fore}) check_staff(record, column);
        if (inter && (back || fore)) {
            return complain(Code::ImportRow, record, Column::Inter,
                            "an intermediate sight in one row with another sight",
                            "give each its own row; only a foresight and the next backsight share one");
        }
        const bool merged_cell = back && !fore && open_fore_ != nullptr;
        if (record.point.empty() && !record.chainage && !merged_cell) {
            return complain(Code::ImportRow, record, form_.columns.point_column(), "a sight without a point",
                            "name the point, or write Sum where the row holds sums");
        }
        if (inter) take_target(record, Column::Inter);
        if (fore) take_target(record, Column::Fore);
        if (back) take_back(record);
        open_fore_ = fore && !back ? &record : nullptr;
    }

    // Whether the set-up of this foresight ends on a change point.
    bool turns_here(const Record& record) const {
        if (record[Column::Back]) return true;
        const Record* next = &record + 1;
        const Record* end = records_.data() + records_.size();
        while (next != end && next->kind != Record::Kind::Sights) ++next;
        return next != end && (*next)[Column::Back] && !(*next)[Column::Fore] &&
               PointNames::same_as_above(record, *next);
    }

    // An intermediate sight or a foresight.
    void take_target(const Record& record, Column column) {
        if (run_.setups == 0) {
            return complain(Code::ImportRow, record, column, "a sight before the first backsight",
                            "book the backsight first");
        }
        if (closed_) {
            complain(Code::ImportOrder, record, column,
                     "a sight after the foresight of its set-up; it is taken in the set-up of row " +
                         std::to_string(setup_row_),
                     "if the instrument had moved, book the backsight of the new set-up above it");
        }
        const bool fore = column == Column::Fore;
        const Level level = plane_ ? Level(*plane_ - record[column].length()) : std::nullopt;
        const std::string point = name_of(record, fore && turns_here(record), level);
        if (level) levels_[key_of(record, point)] = *level;
        reached_.insert(key_of(record, point));
        compare_target(record, column, level);
        before_ = record[column].length();
        ++sights_of_setup_;
        closed_ = fore;
        if (fore) fore_point_ = point;
        add_step(fore ? RunStep::Kind::Fore : RunStep::Kind::Inter, record, point);
    }

    void compare_target(const Record& record, Column column, Level level) {
        const bool inverted = ask_inverted(record, column, plane_, check_, form_, findings_);
        if (level && !inverted) compare_level(record, *level);
        if (before_) check_.compare_rise(record, *before_ - record[column].length());
        if (plane_ && !record[Column::Back]) check_.compare(record, Column::Collimation, *plane_);
    }

    void compare_level(const Record& record, Decimal level) {
        const bool given = record.known_level && record.known_from_level;
        if (!given) check_.compare(record, Column::Level, level);
    }

    void take_back(const Record& record) {
        const bool fore_here = static_cast<bool>(record[Column::Fore]);
        const bool turns = fore_here || (open_fore_ && PointNames::same_as_above(*open_fore_, record));
        report_lone_setup();
        const std::string point = turns ? fore_point_ : name_of(record, false, std::nullopt);
        ask_level(record, point);
        reached_.insert(key_of(record, point));
        const Level base = level_for(record, point);
        if (base && !fore_here) compare_level(record, *base);
        before_ = record[Column::Back].length();
        plane_ = base ? Level(*base + *before_) : std::nullopt;
        ask_inverted(record, Column::Back, plane_, check_, form_, findings_);
        if (plane_) check_.compare(record, Column::Collimation, *plane_);
        closed_ = false;
        sights_of_setup_ = 1;
        setup_row_ = record.row;
        ++run_.setups;
        add_step(RunStep::Kind::Back, record, point);
    }

    std::string name_of(const Record& record, bool change_point, Level level) {
        return names_.on_line(record) ? std::string() : names_.name(record, change_point, level);
    }

    // The point of a back sight that neither a benchmark nor a sight above gives a level.
    void ask_level(const Record& record, const std::string& point) {
        const std::string key = key_of(record, point);
        if (known_.level(point) || levels_.count(key) > 0) return;
        const Amount booked = known_.booked(record);
        const bool first = levels_.empty();
        if (booked) {
            if (!first && !ask_spelling(record)) {
                complain(Code::ImportOrder, record, Column::Back,
                         "nothing above gives " + PointNames::called(record) +
                             " a level; the level booked here is taken as that of a benchmark",
                         "if it is the point of the foresight above, name both alike");
            }
            add_benchmark(record, point, booked);
        } else if (run_.setups > 0 && reached_.count(key) == 0) {
            complain(Code::ImportOrder, record, Column::Back,
                     "nothing above leads to " + PointNames::called(record) +
                         ": what follows hangs together with nothing before it",
                     "if it is the point of the foresight above, name both alike");
        }
    }

    void add_benchmark(const Record& record, const std::string& point, const Amount& level) {
        if (!point.empty()) return known_.add(point, level, record.row);
        complain(Code::ImportRow, record, form_.columns.point_column(),
                 "a benchmark needs a name beside its chainage", "name the point");
    }

    // The same level booked for the foresight above and for this point of another name: surely one point.
    bool ask_spelling(const Record& record) {
        if (!open_fore_) return false;
        const auto fore = levels_.find(key_of(*open_fore_, fore_point_));
        if (fore == levels_.end() || !check_.agrees(record, Column::Level, fore->second)) return false;
        complain(Code::ImportRow, record, form_.columns.point_column(),
                 PointNames::called(record) + " has the level of " + PointNames::called(*open_fore_) +
                     " in row " + std::to_string(open_fore_->row) + ", as if it were the same point",
                 "name both alike, or book the level of the benchmark itself");
        return true;
    }

    // Where a point is both known and levelled to, books go on with either: what is booked here tells which.
    Level level_for(const Record& record, const std::string& point) const {
        const Level given = known_.level(point);
        const auto place = levels_.find(key_of(record, point));
        if (place == levels_.end()) return given;
        if (!given) return place->second;
        const auto fits = [&](Decimal level) {
            return check_.agrees(record, Column::Collimation, level + record[Column::Back].length()) &&
                   (record[Column::Fore] || check_.agrees(record, Column::Level, level));
        };
        const bool page_goes_on = record[Column::Fore] && !record.known_from_level;
        const Decimal first = page_goes_on ? place->second : *given;
        const Decimal second = page_goes_on ? *given : place->second;
        return fits(first) || !fits(second) ? first : second;
    }

    void report_lone_setup() {
        if (sights_of_setup_ != 1) return;
        findings_.add(Code::ImportOrder, form_.columns.spot(setup_row_, Column::Back),
                      "no other sight follows this backsight in its set-up",
                      "if it belongs to the set-up above it, book it as an intermediate sight");
    }

    void add_step(RunStep::Kind kind, const Record& record, std::string point) {
        const bool said = !run_.steps.empty() && run_.steps.back().record == &record;
        const bool text_as_name = kind == RunStep::Kind::Back && open_fore_ && record.named_by_remark &&
                                  !open_fore_->named_by_remark;
        const std::string_view remark = text_as_name ? record.point : record.remark;
        run_.steps.push_back({kind, &record, std::move(point), said ? std::string_view() : remark});
    }

    const std::vector<Record>& records_;
    const SheetForm& form_;
    SheetFindings& findings_;
    BookedCheck check_;
    BookedSums sums_;
    PointNames names_;
    KnownPoints known_;
    LevelRun run_;
    std::map<std::string, Decimal> levels_;  // by the sights, the last one of each point
    std::set<std::string> reached_;
    Level plane_;                        // height of collimation
    Level before_;                       // the reading before, in the same set-up
    const Record* open_fore_ = nullptr;  // the row of sights above, where it ends with a foresight
    std::string fore_point_;
    bool closed_ = false;  // the set-up has its foresight
    std::size_t sights_of_setup_ = 0;
    std::size_t setup_row_ = 0;
};

}  // namespace

LevelRun follow(const std::vector<Record>& records, const SheetForm& form, SheetFindings& findings) {
    return Follower(records, form, findings).run();
}

}  // namespace fallwright::text
