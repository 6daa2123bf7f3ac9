#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "properties/answers.h"

namespace fallwright::properties {

namespace {

constexpr double whole_line = 100;

struct Laid {
    double ch = 0;
    std::string what;
    double off_design = 0;
};

struct Drain {
    std::vector<Laid> laid;  // by rising chainage
    double fall = 0;         // with chainage
    bool chambers = false, pipes = false;
    double outlet = 0;
};

Drain any_drain() {
    Drain drain;
    drain.fall = static_cast<double>(*rc::gen::inRange(1, 40)) * 5e-4;
    drain.chambers = *rc::gen::arbitrary<bool>();
    drain.pipes = *rc::gen::arbitrary<bool>();
    drain.outlet = *rc::gen::inRange(0, 2) == 0 ? NAN : 50;
    const auto off = [] { return static_cast<double>(*rc::gen::inRange(-150, 150)) * 1e-4; };
    drain.laid.push_back({0, drain.chambers ? "laid out" : "laid", off()});
    for (int step = 1; 10 * step < whole_line; ++step) {
        const double ch = 10 * step;
        if (*rc::gen::inRange(0, 3) == 0) continue;
        if (drain.chambers && ch == 50) {
            drain.laid.push_back({ch, "laid in", off()});
            drain.laid.push_back({ch, "laid out", off()});
        } else {
            drain.laid.push_back({ch, "laid", off()});
        }
    }
    drain.laid.push_back({whole_line, drain.chambers ? "laid in" : "laid", off()});
    return drain;
}

// The drain's book, by its chainage or against it: the same pipes in the same ground.
RandomBook book_of(const Drain& drain, bool turned) {
    const auto ch = [turned](double at) { return turned ? whole_line - at : at; };
    const auto level = [&drain](double at) { return 50 - drain.fall * at; };
    Json line = {{"kind", "line"}, {"name", "D"}, {"use", "drain"}, {"flow", turned ? "against" : "with"}};
    line["profile"] = Json::array();
    for (const double at : turned ? std::vector<double>{whole_line, 0} : std::vector<double>{0, whole_line})
        line["profile"].push_back({{"ch", ch(at)}, {"level", level(at)}});
    for (const double at : {0.0, 50.0, whole_line}) {
        if (drain.chambers)
            line["chambers"].push_back({{"name", std::to_string(at)}, {"ch", ch(at)}, {"in", level(at)}});
    }
    if (drain.pipes) {
        for (const double from : {0.0, 50.0})
            line["pipes"].push_back(
                {{"from", std::min(ch(from), ch(from + 50))}, {"to", std::max(ch(from), ch(from + 50))}});
    }
    if (!std::isnan(drain.outlet)) line["outlets"] = {ch(drain.outlet)};
    RandomBook book;
    book.lines = {
        {{"kind", "book"}, {"format", "fallwright"}, {"version", 1}},
        {{"kind", "instrument"}, {"name", "L"}, {"type", "rotating-laser"}},
        line,
        {{"kind", "tolerance"},
         {"line", "D"},
         {"what", "laid"},
         {"below", -0.010},
         {"above", 0.012},
         {"fall_min", 0.002},
         {"fall_max", 0.020}},
        {{"kind", "benchmark"}, {"point", "BM"}, {"level", 51}},
        {{"kind", "place"}, {"point", "BM"}, {"line", "D"}, {"ch", ch(20)}, {"off", 0}},
        {{"kind", "setup"}, {"name", "S"}, {"instrument", "L"}, {"place", {{"line", "D"}, {"ch", ch(40)}}}},
        {{"kind", "reading"}, {"point", "BM"}, {"staff", 1.0}}};
    for (const Laid& each : drain.laid)
        book.lines.push_back({{"kind", "reading"},
                              {"line", "D"},
                              {"ch", ch(each.ch)},
                              {"what", each.what},
                              {"staff", 52 - level(each.ch) - each.off_design}});
    return book;
}

Json lines_of(const RandomBook& book) {
    return answer_json(book)["lines"][0];
}

bool same_number(const Json& a, const Json& b, double tolerance) {
    if (a.is_null() || b.is_null()) return a.is_null() && b.is_null();
    return std::fabs(a.get<double>() - b.get<double>()) <= tolerance;
}

// The fall between the same two places, seen by the other chainage.
const Json* turned_fall(const Json& falls, const Json& fall) {
    for (const Json& other : falls) {
        if (other["span"] == fall["span"] && other["what"] == fall["what"] &&
            same_number(other["from"], whole_line - fall["to"].get<double>(), 1e-9) &&
            same_number(other["to"], whole_line - fall["from"].get<double>(), 1e-9))
            return &other;
    }
    return nullptr;
}

}  // namespace

RC_GTEST_PROP(I25, ALineRunAgainstItsChainageGivesTheSameVerdicts, ()) {
    const Drain drain = any_drain();
    const Json a = lines_of(book_of(drain, false));
    const Json b = lines_of(book_of(drain, true));
    RC_ASSERT(a["stations"].size() == drain.laid.size());
    RC_ASSERT(b["stations"].size() == drain.laid.size());
    for (std::size_t i = 0; i < drain.laid.size(); ++i) {
        const Json& x = a["stations"][i];
        const Json& y = b["stations"][i];
        RC_ASSERT(same_number(x["deviation"], y["deviation"], 1.01e-5));
        RC_ASSERT(same_number(x["probability"], y["probability"], 1.01e-4));
        RC_ASSERT(x["verdict"] == y["verdict"]);
        RC_ASSERT(x["plain"] == y["plain"]);
    }
    RC_ASSERT(a["falls"].size() == b["falls"].size());
    for (const Json& fall : a["falls"]) {
        const Json* other = turned_fall(b["falls"], fall);
        RC_ASSERT(other != nullptr);
        RC_ASSERT(same_number(fall["gradient"], (*other)["gradient"], 1.01e-7));
        RC_ASSERT(same_number(fall["sd"], (*other)["sd"], 1.01e-7));
        RC_ASSERT(same_number(fall["design"], (*other)["design"], 1.01e-7));
        RC_ASSERT(fall["verdict"] == (*other)["verdict"]);
        RC_ASSERT(same_number(fall["backfall_probability"], (*other)["backfall_probability"], 1.01e-4));
    }
    RC_ASSERT(same_number(a["all_within"]["laid"], b["all_within"]["laid"], 1e-3));
    RC_ASSERT(a["ponds"].size() == b["ponds"].size());
    for (std::size_t i = 0; i < a["ponds"].size(); ++i) {
        const Json& x = a["ponds"][i];
        const Json& y = b["ponds"][b["ponds"].size() - 1 - i];
        RC_ASSERT(same_number(x["depth"], y["depth"], 1.01e-5));
        RC_ASSERT(same_number(x["from"], whole_line - y["to"].get<double>(), 1e-3));
        RC_ASSERT(same_number(x["probability"], y["probability"], 1.01e-4));
    }
    RC_CLASSIFY(!a["ponds"].empty(), "has a pond");
    RC_CLASSIFY(drain.chambers, "has chambers");
}

// Probabilities never contradict one another, whatever was laid.
RC_GTEST_PROP(I26, AllWithinIsNeverMoreProbableThanTheLeastStationNorLessThanChanceAllows, ()) {
    const Json line = lines_of(book_of(any_drain(), false));
    double least = 1;
    double lost = 0;
    for (const Json& station : line["stations"]) {
        const double p = station["probability"].get<double>();
        least = std::min(least, p);
        lost += 1 - p;
    }
    const double all = line["all_within"]["laid"].get<double>();
    RC_ASSERT(all <= least + 1e-4);
    RC_ASSERT(all >= 1 - lost - 1e-3);
}

}  // namespace fallwright::properties
