#include <cmath>

#include "base/print.h"
#include "desk/drain_book_answer.h"
#include "desk/write_json.h"
#include "desk/write_run.h"

namespace fallwright {

namespace {

using drain::Holder;

std::string_view holder_word(Holder by) {
    switch (by) {
        case Holder::Cover:
            return "cover";
        case Holder::LeastFall:
            return "least-fall";
        case Holder::SteepestFall:
            return "steepest-fall";
        case Holder::Outfall:
            return "outfall";
        default:
            return "inlet";
    }
}

class FollowWriter {
  public:
    FollowWriter(const DrainBookAnswer& answer, JsonOut& out)
        : answer_(answer),
          book_(*answer.evaluation->book),
          wish_(*answer.wish),
          found_(*answer.followed),
          out_(out) {}

    void write() {
        out_.begin_object().text("line", book_.names.text(book_.lines[wish_.line].name));
        out_.text("what", found_.what).text("flow", found_.with_chainage ? "with" : "against");
        length("from", found_.from);
        length("to", found_.to);
        write_wish();
        length("sure_cover", found_.sure_cover);
        length("shortfall", found_.choices.empty() ? found_.shortfall : NAN);
        gradient("least_fall_that_reaches", found_.least_fall_that_reaches);
        out_.key("rule");
        write_trench_rule(out_, book_, wish_.trench);
        out_.key("choices").begin_array();
        for (const drain::FollowChoice& choice : found_.choices) write_choice(choice);
        out_.end_array().end_object();
    }

  private:
    void length(std::string_view key, double metres) {
        out_.number(key, book_.in_unit(metres), length_places);
    }
    void gradient(std::string_view key, double ratio) { out_.number(key, ratio, gradient_places); }
    double area(double square_metres) const { return book_.in_unit(book_.in_unit(square_metres)); }

    void write_wish() {
        length("bore", wish_.pipe.bore.value);
        length("wall", wish_.pipe.wall.or_else(0));
        length("bedding", wish_.pipe.bedding.or_else(0));
        length("cover", wish_.cover);
        gradient("least_fall", wish_.limits.least_fall);
        if (answer_.fall_from.empty()) {
            out_.null("fall_from");
        } else {
            out_.text("fall_from", answer_.fall_from);
        }
        gradient("steepest_fall", wish_.limits.steepest_fall);
        length("outfall", found_.outfall);
        if (found_.outfall_from.empty()) {
            out_.null("outfall_from");
        } else {
            out_.text("outfall_from", found_.outfall_from);
        }
        length("inlet", wish_.limits.inlet);
    }

    void write_choice(const drain::FollowChoice& choice) {
        const drain::Followed& followed = choice.followed;
        out_.begin_object().boolean("proved", followed.proved).key("grades").begin_array();
        for (std::size_t i = 0; i < choice.falls.size(); ++i) {
            out_.begin_object();
            length("from", followed.x[i]);
            length("to", followed.x[i + 1]);
            length("invert", followed.y[i]);
            length("lower_invert", followed.y[i + 1]);
            gradient("fall", choice.falls[i]);
            out_.end_object();
        }
        out_.end_array();
        write_dug(out_, book_, choice.dug);
        out_.key("held").begin_array();
        for (const drain::Held& held : followed.held) {
            out_.begin_object().text("by", holder_word(held.by));
            length("ch", held.x);
            out_.end_object();
        }
        out_.end_array().key("prices").begin_object();
        // Area of the long section for 1 more: a length for a level, an area for a fall.
        for (const Holder by :
             {Holder::Cover, Holder::LeastFall, Holder::SteepestFall, Holder::Outfall, Holder::Inlet}) {
            const double price = followed.price_of(by);
            const bool fall = by == Holder::LeastFall || by == Holder::SteepestFall;
            out_.figures(holder_word(by), fall ? area(price) : book_.in_unit(price), significant_figures);
        }
        out_.end_object().key("stations").begin_array();
        for (const drain::FollowRow& row : choice.rows) write_row(row);
        out_.end_array().end_object();
    }

    void write_row(const drain::FollowRow& row) {
        out_.begin_object();
        length("ch", row.ch);
        length("ground", row.ground);
        length("ground_sd", row.ground_sd);
        length("invert", row.invert);
        length("cover", row.cover);
        length("depth", row.depth);
        out_.boolean("meets", row.meets).end_object();
    }

    const DrainBookAnswer& answer_;
    const Book& book_;
    const drain::FollowWish& wish_;
    const drain::FollowedLine& found_;
    JsonOut& out_;
};

}  // namespace

std::string drains_json(const DrainBookAnswer& answer) {
    const Book& book = *answer.evaluation->book;
    JsonOut out;
    out.begin_object().integer("version", format_version).text("unit", unit_word(book.unit));
    out.key("drains").begin_array();
    for (std::size_t i = 0; i < answer.runs.runs.size(); ++i)
        write_run(out, book, answer.runs.runs[i], &answer.trenches[i]);
    out.end_array().key("follow");
    if (answer.followed) {
        FollowWriter(answer, out).write();
    } else {
        out.null();
    }
    write_cautions(out, answer.cautions);
    write_findings(out, answer.findings);
    out.end_object();
    return out.take();
}

}  // namespace fallwright
