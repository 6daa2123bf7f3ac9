#include "desk/write_run.h"

#include <cmath>

#include "base/print.h"
#include "desk/absent.h"
#include "desk/drain_answer.h"

namespace fallwright {

namespace {

using drain::PipeEnd;
using drain::Run;

class RunWriter {
  public:
    RunWriter(JsonOut& out, const Book& book) : out_(out), book_(book) {}

    void write(const Run& run, const drain::Trench* trench) {
        out_.begin_object().text("line", book_.names.text(book_.lines[run.line].name));
        if (run.setup == no_setup) {
            out_.null("setup");
        } else {
            out_.text("setup", book_.names.text(book_.setups[run.setup].name));
        }
        out_.text("flow", run.with_chainage ? "with" : "against");
        write_cover(run.cover_rule);
        list("pipes", run.pipes, &RunWriter::pipe);
        list("flats", run.flats, &RunWriter::flat);
        list("kinds", run.kinds, &RunWriter::kind);
        list("chambers", run.chambers, &RunWriter::chamber);
        list("joins", run.joins, &RunWriter::join);
        list("dips", run.dips, &RunWriter::dip);
        list("stations", run.stations, &RunWriter::station);
        if (trench != nullptr) write_trench(*trench);
        out_.end_object();
    }

  private:
    void length(std::string_view key, double metres) {
        out_.number(key, book_.in_unit(metres), length_places);
    }
    void gradient(std::string_view key, double ratio) { out_.number(key, ratio, gradient_places); }
    void probability(std::string_view key, double p) { out_.number(key, p, probability_places); }

    template <class Row>
    void list(std::string_view key, const std::vector<Row>& rows, void (RunWriter::*members)(const Row&)) {
        out_.key(key).begin_array();
        for (const Row& row : rows) {
            out_.begin_object();
            (this->*members)(row);
            out_.end_object();
        }
        out_.end_array();
    }

    void write_cover(const drain::CoverRule& rule) {
        if (rule.name.empty()) {
            out_.null("cover");
            return;
        }
        out_.key("cover").begin_object().text("rule", rule.name);
        length("least", rule.least);
        text_or_null(out_, "source", rule.source.text);
        text_or_null(out_, "edition", rule.source.edition);
        out_.end_object();
    }

    void judged(std::string_view verdict, std::string_view plain, std::string_view p, const Judgement& of) {
        const bool tested = of.verdict != Verdict::Untested;
        out_.text(verdict, verdict_word(of.verdict));
        text_or_null(out_, plain, !tested ? "" : of.plain_within ? "within" : "outside");
        probability(p, tested ? of.probability : NAN);
    }

    void end(std::string_view key, const PipeEnd& end) {
        out_.key(key).begin_object();
        length("ch", end.ch);
        out_.text("what", end.what);
        length("design", end.design);
        length("level", end.laid);
        length("sd", end.laid_sd);
        length("deviation", end.deviation);
        length("staff", end.staff);
        length("staff_sd", end.staff_sd);
        out_.end_object();
    }

    void pipe(const drain::RunPipe& pipe) {
        length("from", pipe.pipe->from);
        length("to", pipe.pipe->to);
        length("bore", pipe.pipe->bore.value);
        if (pipe.kind == SIZE_MAX) {
            out_.null("kind");
        } else {
            out_.integer("kind", static_cast<long long>(pipe.kind));
        }
        gradient("design", pipe.fall);
        gradient("gradient", pipe.laid_fall);
        gradient("sd", pipe.laid_fall_sd);
        probability("backfall_probability", pipe.backfall);
        judged("verdict", "plain", "probability", pipe.met);
        end("upper", pipe.upper);
        end("lower", pipe.lower);
    }

    void flat(const drain::FlatSpot& flat) {
        length("from", flat.from);
        length("to", flat.to);
        gradient("gradient", flat.fall);
        gradient("sd", flat.fall_sd);
        gradient("design", flat.design);
        probability("backfall_probability", flat.backfall);
    }

    void kind(const drain::PipeKind& kind) {
        const drain::Friction& friction = kind.asked.friction;
        const bool manning = friction.law == drain::Friction::Law::Manning;
        length("bore", kind.asked.bore);
        gradient("fall", kind.asked.fall);
        out_.figures("roughness", manning ? NAN : book_.in_unit(friction.roughness), significant_figures);
        out_.figures("manning", manning ? friction.manning : NAN, significant_figures);
        out_.key("full").begin_object();
        out_.figures("velocity", book_.in_unit(kind.full.velocity), significant_figures);
        out_.figures("flow", cubic(book_, kind.full.flow), significant_figures).end_object();
        out_.figures("flow", cubic(book_, kind.asked.flow), significant_figures);
        part(kind);
        gradient("least_fall", kind.held.below);
        gradient("most_fall", kind.held.above);
        out_.key("rules");
        write_rules(out_, kind.rules, kind.asked, book_.unit);
    }

    void part(const drain::PipeKind& kind) {
        if (!kind.part) {
            out_.null("part");
            return;
        }
        out_.key("part").begin_object();
        length("depth", kind.part->depth);
        out_.figures("proportion", kind.part->depth / kind.asked.bore, significant_figures);
        out_.figures("velocity", book_.in_unit(kind.part->velocity), significant_figures).end_object();
    }

    void chamber(const drain::RunChamber& chamber) {
        out_.text("name", book_.names.text(chamber.chamber->name));
        length("ch", chamber.chamber->ch);
        length("cover", chamber.chamber->cover.value);
        length("depth", chamber.depth);
        length("in", chamber.in);
        length("out", chamber.out);
        length("drop", chamber.drop);
        length("bore_in", chamber.bore_in);
        length("bore_out", chamber.bore_out);
        length("soffit_drop", chamber.soffit_drop);
        length("laid_in", chamber.laid_in);
        length("laid_in_sd", chamber.laid_in_sd);
        length("laid_out", chamber.laid_out);
        length("laid_out_sd", chamber.laid_out_sd);
        length("laid_drop", chamber.laid_drop);
        length("laid_drop_sd", chamber.laid_drop_sd);
    }

    void join(const drain::RunJoin& join) {
        length("ch", join.ch);
        out_.text("line", book_.names.text(join.join->line));
        length("at", join.join->ch);
        out_.text("by", join.join->by_soffit ? "soffit" : "invert");
        length("invert", join.invert);
        length("other_invert", join.other_invert);
        length("other_soffit", join.other_soffit);
        length("drop", join.drop);
    }

    void dip(const drain::Dip& dip) {
        out_.text("point", book_.names.text(dip.point));
        length("ch", dip.ch);
        length("level", dip.level);
        length("sd", dip.sd);
        length("design", dip.design);
        length("difference", dip.difference);
        length("difference_sd", dip.difference_sd);
        out_.boolean("agrees", dip.agrees);
    }

    void station(const drain::RunStation& station) {
        length("ch", station.ch);
        out_.text("what", station.what);
        length("invert", station.invert);
        length("soffit", station.soffit);
        length("crown", station.crown);
        length("bottom", station.bottom);
        length("sd", station.design_sd);
        length("ground", station.ground);
        length("ground_sd", station.ground_sd);
        length("cover", station.cover);
        length("cover_sd", station.cover_sd);
        length("depth", station.depth);
        length("depth_sd", station.depth_sd);
        length("laid", station.laid);
        length("laid_sd", station.laid_sd);
        length("laid_cover", station.laid_cover);
        length("laid_cover_sd", station.laid_cover_sd);
        judged("verdict", "plain", "probability", station.least);
        judged("laid_verdict", "laid_plain", "laid_probability", station.laid_least);
    }

    void write_trench(const drain::Trench& trench) {
        out_.key("trench").begin_object().key("rule");
        write_trench_rule(out_, book_, trench.rule);
        list("stretches", trench.stretches, &RunWriter::stretch);
        out_.key("total").begin_object();
        write_dug(out_, book_, trench.total);
        out_.end_object().key("spoil").begin_object();
        volume("loose", trench.spoil.loose);
        count("loads", trench.spoil.loads);
        volume("surplus", trench.spoil.surplus);
        volume("surplus_loose", trench.spoil.surplus_loose);
        count("surplus_loads", trench.spoil.surplus_loads);
        out_.end_object().end_object();
    }

    void stretch(const drain::TrenchStretch& stretch) {
        length("from", stretch.from);
        length("to", stretch.to);
        length("bore", stretch.pipe->bore.value);
        length("narrowest", stretch.narrowest);
        length("widest", stretch.widest);
        length("shallowest", stretch.shallowest);
        length("deepest", stretch.deepest);
        length("left_out", stretch.left_out);
        write_dug(out_, book_, stretch.volumes);
    }

    void volume(std::string_view key, double cubic_metres) {
        out_.figures(key, cubic(book_, cubic_metres), significant_figures);
    }
    void count(std::string_view key, double loads) { out_.number(key, loads, 0); }

    JsonOut& out_;
    const Book& book_;
};

}  // namespace

double cubic(const Book& book, double cubic_metres) {
    return book.in_unit(book.in_unit(book.in_unit(cubic_metres)));
}

void write_run(JsonOut& out, const Book& book, const Run& run, const drain::Trench* trench) {
    RunWriter(out, book).write(run, trench);
}

void write_dug(JsonOut& out, const Book& book, const drain::Dug& dug) {
    const auto volume = [&](std::string_view key, double cubic_metres) {
        out.figures(key, cubic(book, cubic_metres), significant_figures);
    };
    volume("dug", dug.dug);
    volume("dug_sd", dug.dug_sd);
    volume("by_end_areas", dug.by_end_areas);
    volume("bedding", dug.bedding);
    volume("surround", dug.surround);
    volume("pipe", dug.pipe);
    volume("backfill", dug.backfill);
}

void write_trench_rule(JsonOut& out, const Book& book, const drain::TrenchRule& rule) {
    const preset::Source source = rule.preset == nullptr ? preset::Source{} : rule.preset->source;
    out.begin_object().text("name", rule.name);
    text_or_null(out, "source", source.text);
    text_or_null(out, "edition", source.edition);
    text_or_null(out, "provenance", rule.preset == nullptr ? "" : preset::provenance_word(source.provenance));
    out.number("width", rule.preset == nullptr ? book.in_unit(rule.width) : NAN, length_places);
    out.figures("batter", rule.batter, significant_figures);
    out.number("surround", book.in_unit(rule.surround), length_places);
    out.figures("bulking", rule.bulking, significant_figures);
    text_or_null(out, "material", rule.material);
    out.figures("load", cubic(book, rule.load), significant_figures).end_object();
}

}  // namespace fallwright
