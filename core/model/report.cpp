#include <set>
#include <string>
#include <utility>

#include "model/build.h"

namespace fallwright {

namespace {

constexpr std::size_t names_in_a_sentence = 6;

class Reporter {
  public:
    explicit Reporter(Build& build) : book_(build.book), model_(&build.model), columns_(&build.columns) {}

    void run() {
        report_undetermined();
        report_matches();
    }

  private:
    std::string name_of(const Owner& owner) const {
        const auto index = static_cast<std::size_t>(owner.index);
        switch (owner.kind) {
            case Owner::Kind::Point:
                return book_.name(model_->points.name(index));
            case Owner::Kind::Plane:
            case Owner::Kind::Head:
            case Owner::Kind::SetupEffect:
                return book_.name(book_.setups[index].name);
            case Owner::Kind::InstrumentEffect:
                return book_.name(book_.instruments[index].name);
            case Owner::Kind::StaffEffect:
                return book_.name(book_.staffs[index].name);
            case Owner::Kind::Foot:
                break;
        }
        return book_.name(model_->points.name(index));
    }

    // One finding for each way a part can move by itself.
    void report_undetermined() {
        for (const adjust::NullVector& null : model_->solution.nulls) {
            std::vector<std::string> about;
            std::set<std::string> seen;
            bool gradient = false;
            for (const adjust::Term& move : null.moves) {
                const Owner& owner = columns_->owner(move.column);
                gradient = gradient || owner.kind == Owner::Kind::SetupEffect;
                const std::string name = name_of(owner);
                if (seen.insert(name).second) about.push_back(name);
            }
            const std::string list = listed(about);
            const std::string message =
                gradient ? "the gradient of the plane is not determined by these readings: " + list
                         : "nothing ties these to a benchmark: " + list + "; their levels are not determined";
            model_->findings.push_back(finding(Code::Undetermined, std::move(about), message));
        }
    }

    static std::string listed(const std::vector<std::string>& names) {
        std::string list;
        for (std::size_t i = 0; i < names.size() && i < names_in_a_sentence; ++i)
            list += (i == 0 ? "" : ", ") + names[i];
        if (names.size() > names_in_a_sentence)
            list += " and " + std::to_string(names.size() - names_in_a_sentence) + " more";
        return list;
    }

    // A plane matched on a shared head is proved by a point of the head set-up read again, beside the one it
    // was matched on.
    void report_matches() {
        for (std::size_t i = 0; i < book_.setups.size(); ++i) {
            const SetupTerms& setup = model_->sights.setups[i];
            if (!(setup.matched[0] || setup.matched[1]) || book_.setups[i].head_at < 0) continue;
            std::set<std::int32_t> again;
            const std::set<std::int32_t> head = points_in(static_cast<std::size_t>(book_.setups[i].head_at));
            for (const std::int32_t point : points_in(i)) {
                if (head.count(point) > 0) again.insert(point);
            }
            if (again.size() > 1) continue;
            const std::string& name = book_.name(book_.setups[i].name);
            model_->findings.push_back(finding(Code::MatchNotProved, {name},
                                               "the plane of set-up " + name + " is matched, not proved"));
        }
    }

    std::set<std::int32_t> points_in(std::size_t setup) const {
        std::set<std::int32_t> all;
        for (std::uint32_t k = model_->sights.row_start[setup]; k < model_->sights.row_start[setup + 1];
             ++k) {
            all.insert(model_->sights.rows[model_->sights.by_setup[k]].point);
        }
        return all;
    }

    const Book& book_;
    Model* model_;
    Columns* columns_;
};

}  // namespace

void report_findings(Build& build) {
    Reporter(build).run();
}

}  // namespace fallwright
