// Names of points, so that one name in the lines means one point on the ground.
//
// Books use the same word for many points. A point named as another above it is the same point, except where
//   the word is one for any change point (CP, TP, WP, ...): every row is a new point;
//   the word stands for two intermediate sights of one set-up ("ground", "ground"): the same;
//   two change points of one name lie more than 0.1 m apart by the sights: nobody books that twice as one.
// New points are called "CP", "CP 2", "CP 3", ..., past every name of the sheet and of the book; a note says
// so. Any other name read again more than 0.1 m away keeps its name and is asked about.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/decimal.h"
#include "exchange/text/sheet_record.h"

namespace fallwright::text {

class PointNames {
  public:
    PointNames(const std::vector<Record>& records, const SheetForm& form, SheetFindings& findings);

    // The name in the lines of the point of this row; `level` by the sights, where they give one.
    std::string name(const Record& record, bool change_point, std::optional<Decimal> level);

    // Whether the point of this row is known to the lines by line and chainage rather than by a name: it has
    // a chainage, and no name that a back sight, a foresight or a known level gives it.
    bool on_line(const Record& record) const;

    // Rows of one point, one after the other: same name but for capitals and spaces, or no name in the
    // second, as merged cells are saved, and no other chainage.
    static bool same_as_above(const Record& above, const Record& record);

    // How findings call the point of a row.
    static std::string called(const Record& record);

  private:
    struct Seen {
        std::size_t row = 0;
        std::optional<Decimal> level;
    };

    void find_reused(const std::vector<Record>& records);
    std::string fresh(const std::string& name, const Record& record);
    Spot spot(const Record& record) const;

    const SheetForm& form_;
    SheetFindings& findings_;
    std::set<std::string> sheet_names_;
    std::set<std::string> taken_;  // in the book, or given above
    std::set<std::string> reused_;
    std::set<std::string> anchors_;  // named by a back sight, a foresight or a known level
    std::set<std::string> known_;
    std::map<std::string, Seen> seen_;
    std::map<std::string, std::size_t> last_number_;
};

}  // namespace fallwright::text
