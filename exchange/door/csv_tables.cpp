#include "exchange/door/csv_tables.h"

#include <array>
#include <nlohmann/json.hpp>
#include <unordered_map>

#include "base/print.h"
#include "desk/write_json.h"
#include "evaluation/evaluation.h"
#include "exchange/handover/gather.h"
#include "exchange/tables/csv_out.h"

namespace fallwright::door {

namespace {

using Json = nlohmann::json;
using tables::CsvOut;

// A column of an answer: its name in the table, its member, whether it is a length and so names its unit.
struct Column {
    const char* name;
    const char* member;
    bool length = false;
};

std::vector<std::string> names_of(const std::vector<Column>& columns, const std::string& unit) {
    std::vector<std::string> names;
    for (const Column& column : columns)
        names.push_back(column.length ? std::string(column.name) + " (" + unit + ")" : column.name);
    return names;
}

// A cell is a number because the answer has a number there.
void cell(CsvOut& out, const Json& row, const char* member) {
    const auto found = row.find(member);
    if (found == row.end() || found->is_null()) {
        out.written("");
    } else if (found->is_number()) {
        out.written(found->dump());
    } else if (found->is_boolean()) {
        out.text(found->get<bool>() ? "yes" : "no");
    } else {
        out.text(found->get<std::string>());
    }
}

void rows_of(CsvOut& out, const std::vector<Column>& columns, const Json& rows, const Json& shared) {
    for (const Json& row : rows) {
        for (const Column& column : columns)
            cell(out, shared.contains(column.member) ? shared : row, column.member);
        out.end();
    }
}

Finding not_there(const std::string& what, const std::string& cure) {
    return finding(Code::ExportNothing, {}, what, cure);
}

// The desk's answer, or what it refuses for.
Result<Json> asked(const desk::OpenBook& open, const Json& request) {
    Json answer = Json::parse(desk::run(open, request.dump()), nullptr, false);
    if (!answer.contains("error")) return answer;
    const Json& error = answer["error"];
    Finding refused = finding(Code::BadRequest, {}, error.value("message", ""), error.value("cure", ""));
    for (const Json& about : error["about"]) refused.about.push_back(about.get<std::string>());
    return refused;
}

Result<std::string> along_lines(const desk::OpenBook& open, const ExportWish& wish, const char* list,
                                const std::vector<Column>& columns) {
    const Result<Json> checked = asked(open, {{"verb", "check"}});
    if (!checked) return checked.finding();
    CsvOut out(names_of(columns, (*checked)["unit"].get<std::string>()));
    std::size_t rows = 0;
    for (const Json& line : (*checked)["lines"]) {
        if (!wish.line.empty() && line["name"] != wish.line) continue;
        rows += line[list].size();
        rows_of(out, columns, line[list], {{"line", line["name"]}});
    }
    if (rows == 0)
        return not_there(
            "nothing was read on " + (wish.line.empty() ? std::string("any line") : "line " + wish.line),
            "read points on a line of the book, or export the levels");
    return out.take();
}

Result<std::string> stations(const desk::OpenBook& open, const ExportWish& wish) {
    return along_lines(open, wish, "stations",
                       {{"line", "line"},
                        {"ch", "ch", true},
                        {"off", "off", true},
                        {"what", "what"},
                        {"level", "level", true},
                        {"sd", "sd", true},
                        {"design", "design", true},
                        {"deviation", "deviation", true},
                        {"verdict", "verdict"},
                        {"as measured", "plain"},
                        {"probability within", "probability"},
                        {"dig", "dig", true},
                        {"dig to", "dig_to"}});
}

Result<std::string> falls(const desk::OpenBook& open, const ExportWish& wish) {
    return along_lines(open, wish, "falls",
                       {{"line", "line"},
                        {"from", "from", true},
                        {"to", "to", true},
                        {"what", "what"},
                        {"span", "span"},
                        {"fall", "gradient"},
                        {"sd", "sd"},
                        {"design", "design"},
                        {"verdict", "verdict"},
                        {"probability of backfall", "backfall_probability"}});
}

Result<std::string> setout(const desk::OpenBook& open, const ExportWish& wish) {
    if (wish.line.empty())
        return finding(Code::BadRequest, {"line"},
                       "a table to set out from is of one line, and none is named",
                       "name it: --line D1, with --setup S1 and --every 10 as for setout");
    Json options = {{"line", wish.line}};
    if (!wish.setup.empty()) options["setup"] = wish.setup;
    if (!wish.every.empty()) options["every"] = wish.every;
    if (!wish.what.empty()) options["what"] = wish.what;
    const Result<Json> answer = asked(open, {{"verb", "setout"}, {"options", options}});
    if (!answer) return answer.finding();
    const std::vector<Column> columns = {
        {"line", "line"},           {"setup", "setup"},   {"ch", "ch", true},
        {"off", "off", true},       {"what", "what"},     {"design", "design", true},
        {"staff", "target", true},  {"sd", "sd", true},   {"dig", "dig", true},
        {"dig sd", "dig_sd", true}, {"dig to", "dig_to"}, {"trench depth", "trench_depth", true},
        {"cover", "cover", true}};
    CsvOut out(names_of(columns, (*answer)["unit"].get<std::string>()));
    std::size_t rows = 0;
    for (const Json& table : (*answer)["setout"]) {
        rows += table["rows"].size();
        rows_of(out, columns, table["rows"], {{"line", table["line"]}, {"setup", table["setup"]}});
    }
    if (rows == 0) return not_there("line " + wish.line + " has nothing to set out", "give it a profile");
    return out.take();
}

Result<std::string> levels(const desk::OpenBook& open) {
    const std::shared_ptr<const Book> book = desk::book_of(open);
    const Evaluation evaluation = evaluate(book);
    const handover::Handover all = handover::gather(evaluation);
    if (all.points.empty()) return not_there("the book has no point", "add readings, benchmarks or places");
    const std::string unit(unit_word(book->unit));
    CsvOut out({"point", "east (" + unit + ")", "north (" + unit + ")", "level (" + unit + ")",
                "sd (" + unit + ")", "times read", "checked", "held"});
    for (const handover::Point& point : all.points) {
        const std::int32_t index = evaluation.model->points.at(book->names.find(point.name));
        out.text(point.name);
        for (const double length : {point.e, point.n, point.level, point.sd})
            out.number(book->in_unit(length), length_places);
        if (index < 0) {
            out.written("").written("");
        } else {
            const PointLevel& level = evaluation.model->levels[static_cast<std::size_t>(index)];
            out.written(std::to_string(level.readings)).text(level.checked ? "yes" : "no");
        }
        out.text(point.standing == handover::Standing::Held ? "yes" : "no").end();
    }
    return out.take();
}

Result<std::string> readings(const desk::OpenBook& open) {
    const std::shared_ptr<const Book> book = desk::book_of(open);
    const Evaluation evaluation = evaluate(book);
    const Json answer = Json::parse(written(evaluation, write_evaluation), nullptr, false);
    if (answer["readings"].empty()) return not_there("the book has no reading", "add readings");
    std::unordered_map<std::string, const Reading*> by_id;
    for (const Reading& reading : book->readings) by_id.emplace(book->id_of(reading.entry), &reading);
    const std::vector<Column> columns = {{"id", "id"},
                                         {"setup", "setup"},
                                         {"point", "point"},
                                         {"value", "value", true},
                                         {"off plane", "off_plane", true},
                                         {"residual", "residual", true},
                                         {"sd", "sd", true},
                                         {"w", "w"},
                                         {"redundancy", "redundancy"},
                                         {"detectable", "detectable", true}};
    CsvOut out(names_of(columns, answer["unit"].get<std::string>()));
    for (Json row : answer["readings"]) {
        if (const auto found = by_id.find(row["id"].get<std::string>()); found != by_id.end()) {
            row["setup"] = book->name(found->second->setup);
            row["point"] = book->name(found->second->point);
        }
        rows_of(out, columns, Json::array({row}), Json::object());
    }
    return out.take();
}

}  // namespace

Result<std::string> csv_table(const desk::OpenBook& open, const ExportWish& wish) {
    if (wish.table == "levels") return levels(open);
    if (wish.table == "stations") return stations(open, wish);
    if (wish.table == "falls") return falls(open, wish);
    if (wish.table == "setout") return setout(open, wish);
    if (wish.table == "readings") return readings(open);
    return finding(Code::BadRequest, {"table"}, "there is no table " + wish.table,
                   "take levels, stations, setout, readings or falls");
}

}  // namespace fallwright::door
