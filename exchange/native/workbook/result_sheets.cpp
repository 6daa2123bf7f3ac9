#include <cmath>

#include "base/print.h"
#include "exchange/native/workbook/sheets.h"
#include "fall/falls.h"
#include "quantity/gradient.h"
#include "verdict/verdict.h"

namespace fallwright::workbook {

namespace {

const std::string level_shown = "0.000", small_shown = "0.00000", gradient_shown = "0.00000%";
const std::string share_shown = "0.0%", count_shown = "0", plain_shown = "0.00";

// Numbers as rounded for results, in the book's unit.
class Numbers {
  public:
    Numbers(const Book& book, Sheet& sheet) : book_(book), sheet_(sheet) {}

    void length(std::size_t column, double metres, const std::string& shown = level_shown) {
        sheet_.number(column, rounded_to(book_.in_unit(metres), length_places), shown);
    }
    void gradient(std::size_t column, double ratio) {
        sheet_.number(column, rounded_to(ratio, gradient_places), gradient_shown);
    }
    void probability(std::size_t column, double p) {
        sheet_.number(column, rounded_to(p, probability_places), share_shown);
    }
    void figures(std::size_t column, double value, const std::string& shown) {
        sheet_.number(column, rounded_to_figures(value, significant_figures), shown);
    }
    void name(std::size_t column, NameId id) { sheet_.text(column, book_.names.text(id)); }

  private:
    const Book& book_;
    Sheet& sheet_;
};

std::string_view people_word(Verdict verdict) {
    if (verdict == Verdict::Untested) return "no tolerance";
    return verdict == Verdict::Undecided ? "too close to call" : verdict_word(verdict);
}

void put_verdict(std::size_t column, Verdict verdict, Sheet& sheet) {
    sheet.text(column, people_word(verdict), verdict == Verdict::Outside ? Style::Strong : Style::Plain);
}

void write_station(const Evaluation& evaluation, std::size_t line, const Station& station,
                   const StationVerdict& verdict, Sheet& sheet) {
    Numbers numbers(*evaluation.book, sheet);
    const PointLevel& level = evaluation.model->levels[static_cast<std::size_t>(station.point)];
    const Judgement& judged = verdict.judged;
    numbers.name(0, evaluation.book->lines[line].name);
    numbers.length(1, station.ch);
    numbers.length(2, station.off);
    numbers.name(3, station.what);
    numbers.length(4, level.level);
    numbers.length(5, level.sd, small_shown);
    numbers.length(6, verdict.design);
    numbers.length(7, verdict.deviation);
    numbers.length(8, station.off_fit);
    put_verdict(9, judged.verdict, sheet);
    if (judged.verdict != Verdict::Untested) {
        sheet.text(10, judged.plain_within ? "within" : "outside");
        numbers.probability(11, judged.probability);
    }
    numbers.length(12, verdict.dig);
    sheet.text(13, verdict.dig_to);
    sheet.next_row();
}

void write_fall(const Evaluation& evaluation, std::size_t line, const FoundFall& fall,
                const FallVerdict& verdict, Sheet& sheet) {
    Numbers numbers(*evaluation.book, sheet);
    numbers.name(0, evaluation.book->lines[line].name);
    numbers.length(1, fall.from);
    numbers.length(2, fall.to);
    sheet.text(3, fall.what);
    sheet.text(4, span_word(fall.span));
    numbers.gradient(5, fall.gradient);
    numbers.gradient(6, fall.sd);
    numbers.figures(7, Gradient::ratio(fall.gradient).one_in().value_or(NAN), "0.0");
    numbers.gradient(8, verdict.design);
    put_verdict(9, verdict.judged.verdict, sheet);
    numbers.probability(10, verdict.backfall_probability);
    sheet.next_row();
}

std::string_view sight_word(Sight sight) {
    switch (sight) {
        case Sight::Back:
            return "back";
        case Sight::Inter:
            return "inter";
        case Sight::Fore:
            return "fore";
        case Sight::Default:
            break;
    }
    return "";
}

// Spreadsheets count days; 1 January 1970 is day 25569.
double day_of(Instant at) {
    constexpr double microseconds_a_day = 86400e6, first_day = 25569;
    return at == before_all ? NAN : first_day + static_cast<double>(at) / microseconds_a_day;
}

void write_where(const Book& book, const Reading& reading, Sheet& sheet) {
    Numbers numbers(book, sheet);
    const Entry& entry = book.entries[reading.entry];
    sheet.text(0, book.id_of(reading.entry));
    sheet.number(1, day_of(entry.at), "yyyy-mm-dd hh:mm:ss");
    numbers.name(2, entry.by);
    if (reading.setup_at >= 0) numbers.name(3, book.setups[static_cast<std::size_t>(reading.setup_at)].name);
    numbers.name(4, reading.point);
    numbers.name(5, reading.line);
    if (reading.line != no_name) {
        numbers.length(6, reading.ch);
        numbers.length(7, reading.off);
    }
    numbers.name(8, reading.what);
    sheet.text(9, sight_word(reading.sight));
}

void write_reading(const Evaluation& evaluation, std::size_t i, Sheet& sheet) {
    const Book& book = *evaluation.book;
    const Model& model = *evaluation.model;
    const Reading& reading = book.readings[i];
    Numbers numbers(book, sheet);
    write_where(book, reading, sheet);
    const Decimal value = evaluation.figures.value[i];
    numbers.length(10, (reading.figure.inverted ? -value : value).metres(), small_shown);
    numbers.length(11, off_plane(evaluation, i), small_shown);
    const std::int32_t row = model.sights.row_of[i];
    if (row < 0) {
        sheet.text(17, "left out");
    } else {
        const ReadingFit fit = model.fit(static_cast<std::size_t>(row));
        numbers.length(12, fit.residual, small_shown);
        numbers.length(13, fit.sd, small_shown);
        numbers.figures(14, fit.w, plain_shown);
        sheet.number(15, rounded_to(fit.redundancy, probability_places), "0.0000");
        numbers.length(16, fit.detectable, small_shown);
    }
    sheet.next_row();
}

}  // namespace

std::vector<Head> levels_heads(const std::string& unit) {
    return {
        {"Point", false}, {"Level " + unit}, {"\xC2\xB1 one sd " + unit}, {"Readings"}, {"Checked", false}};
}

std::vector<Head> stations_heads(const std::string& unit) {
    return {{"Line", false},
            {"Chainage " + unit},
            {"Offset " + unit + " (right +)"},
            {"Surface", false},
            {"Level " + unit},
            {"\xC2\xB1 one sd " + unit},
            {"Design " + unit},
            {"Deviation " + unit + " (high +)"},
            {"Off its straight " + unit},
            {"Judged", false},
            {"As measured", false},
            {"Probability within"},
            {"Dig " + unit + " (fill -)"},
            {"Dig to", false}};
}

std::vector<Head> falls_heads(const std::string& unit) {
    return {{"Line", false},
            {"From chainage " + unit},
            {"To chainage " + unit},
            {"Surface", false},
            {"Span", false},
            {"Fall (the way water runs +)"},
            {"\xC2\xB1"},
            {"1 in"},
            {"Design"},
            {"Judged", false},
            {"Probability of a backfall"}};
}

std::vector<Head> readings_heads(const std::string& unit) {
    return {{"Entry", false},
            {"Time UTC", false},
            {"By", false},
            {"Set-up", false},
            {"Point", false},
            {"Line", false},
            {"Chainage " + unit},
            {"Offset " + unit + " (right +)"},
            {"Surface", false},
            {"Sight", false},
            {"On the staff " + unit},
            {"Off the plane " + unit + " (high +)"},
            {"Residual " + unit},
            {"\xC2\xB1 one sd " + unit},
            {"w"},
            {"Redundancy"},
            {"Detectable " + unit},
            {"Used", false}};
}

void write_levels(const Evaluation& evaluation, Sheet& sheet) {
    const Model& model = *evaluation.model;
    Numbers numbers(*evaluation.book, sheet);
    for (std::size_t i = 0; i < model.levels.size(); ++i) {
        const PointLevel& level = model.levels[i];
        numbers.name(0, model.points.name(i));
        numbers.length(1, level.level);
        numbers.length(2, level.sd, small_shown);
        sheet.number(3, level.readings, count_shown);
        sheet.text(4, level.checked ? "yes" : "no");
        sheet.next_row();
    }
}

void write_stations(const Evaluation& evaluation, Sheet& sheet) {
    for (std::size_t i = 0; i < evaluation.lines.size(); ++i) {
        const LineFalls& found = evaluation.lines[i];
        const LineJudge judge(*evaluation.book, evaluation.designs.lines[i], found, *evaluation.model);
        for (const Station& station : found.stations)
            write_station(evaluation, i, station, judge.judge(station), sheet);
    }
}

void write_falls(const Evaluation& evaluation, Sheet& sheet) {
    for (std::size_t i = 0; i < evaluation.lines.size(); ++i) {
        const LineFalls& found = evaluation.lines[i];
        const Design& design = evaluation.designs.lines[i];
        const LineJudge judge(*evaluation.book, design, found, *evaluation.model);
        for (const FoundFall& fall : list_falls(*evaluation.book, design, found, *evaluation.model))
            write_fall(evaluation, i, fall, judge.judge(fall), sheet);
    }
}

void write_readings(const Evaluation& evaluation, Sheet& sheet) {
    for (std::size_t i = 0; i < evaluation.book->readings.size(); ++i) {
        if (!evaluation.book->readings[i].planned) write_reading(evaluation, i, sheet);
    }
}

}  // namespace fallwright::workbook
