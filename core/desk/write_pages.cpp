#include <cmath>

#include "desk/evaluation_out.h"

namespace fallwright {

namespace {

class PageWriter : EvaluationOut {
  public:
    PageWriter(const Evaluation& evaluation, JsonOut& out) : EvaluationOut(evaluation, out) {}

    void write() {
        pages();
        closures();
    }

  private:
    void pages() {
        out_.key("pages").begin_array();
        for (const Page& page : evaluation_.pages.pages) write_page(page);
        out_.end_array();
    }

    void write_page(const Page& page) {
        out_.begin_object().key("rows").begin_array();
        for (const PageRow& row : page.rows) write_row(page, row);
        out_.end_array();
        const auto sum = [&](std::string_view key, Decimal value) {
            length(key, page.sloped ? std::nullopt : std::optional(value));
        };
        sum("sum_back", page.sum_back);
        sum("sum_fore", page.sum_fore);
        sum("sum_rise", page.sum_rise);
        sum("sum_fall", page.sum_fall);
        length("first", page.first);
        length("last", page.last);
        if (page.sloped) {
            out_.null("agrees");
        } else {
            out_.boolean("agrees", page.agrees);
        }
        out_.end_object();
    }

    void write_row(const Page& page, const PageRow& row) {
        const Reading& reading = book_.readings[row.reading];
        out_.begin_object().text("id", book_.id_of(reading.entry));
        out_.text("setup", book_.names.text(book_.setups[static_cast<std::size_t>(row.setup)].name));
        out_.text("point", book_.names.text(reading.point));
        length("back", row.back);
        length("inter", row.inter);
        length("fore", row.fore);
        length("rise", row.rise);
        length("fall", row.fall);
        length("collimation", row.collimation);
        length("level", row.level);
        length("adjusted", row.adjusted);
        const std::string_view remark = remark_of(page, row);
        if (remark.empty()) {
            out_.null("remark");
        } else {
            out_.text("remark", remark);
        }
        out_.end_object();
    }

    void closures() {
        out_.key("closures").begin_array();
        for (std::size_t i = 0; i < evaluation_.closures.size(); ++i) {
            const Closure& closure = evaluation_.pages.closures[i];
            const JudgedClosure& judged = evaluation_.closures[i];
            out_.begin_object()
                .text("from", book_.names.text(closure.from))
                .text("to", book_.names.text(closure.to))
                .integer("setups", closure.setups);
            out_.number("length", book_.in_unit(closure.length.value), length_places);
            length("misclosure", closure.misclosure);
            length("allowed", judged.allowed);
            out_.text("rule", evaluation_.rule.name);
            if (std::isnan(judged.allowed)) {
                out_.null("ok");
            } else {
                out_.boolean("ok", judged.ok);
            }
            out_.end_object();
        }
        out_.end_array();
    }
};

}  // namespace

void write_pages(const Evaluation& evaluation, JsonOut& out) {
    PageWriter(evaluation, out).write();
}

}  // namespace fallwright
