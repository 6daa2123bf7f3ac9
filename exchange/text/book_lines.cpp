#include "exchange/text/book_lines.h"

#include <set>
#include <utility>

#include "base/json_out.h"
#include "base/print.h"

namespace fallwright::text {

namespace {

LengthUnit book_unit(const SheetForm& form) {
    const std::string& asked = form.options.unit;
    if (!asked.empty()) return asked == "ft" ? LengthUnit::Foot : LengthUnit::Metre;
    const Column sights = form.columns.has(Column::Back) ? Column::Back : Column::Staff;
    const bool feet = form.options.new_book && imperial(form.columns.unit(sights));
    return feet ? LengthUnit::Foot : LengthUnit::Metre;
}

class Writer {
  public:
    Writer(const LevelRun& run, const SightLengths& lengths, const SheetForm& form)
        : run_(run), lengths_(lengths), options_(form.options), unit_(book_unit(form)) {
        used_names_.insert(options_.setups_in_use.begin(), options_.setups_in_use.end());
    }

    std::vector<std::string> write(const std::vector<std::string>& titles) {
        if (options_.new_book) write_book();
        write_opening(titles);
        write_instrument();
        write_line();
        for (const RunBenchmark& benchmark : run_.benchmarks) write_benchmark(benchmark);
        for (const RunStep& step : run_.steps) write_step(step);
        return std::move(lines_);
    }

  private:
    static JsonOut entry(std::string_view kind) {
        JsonOut json;
        json.begin_object().text("kind", kind);
        return json;
    }

    void add(JsonOut& json) {
        json.end_object();
        lines_.push_back(json.take());
    }

    void length(JsonOut& json, std::string_view name, const Amount& amount) const {
        if (amount) json.key(name).raw(amount.written(unit_));
    }

    std::string sheet() const { return options_.sheet_name.empty() ? "the sheet" : options_.sheet_name; }

    void write_book() {
        JsonOut json = entry("book");
        json.text("format", "fallwright").integer("version", 1);
        if (!options_.title.empty()) json.text("title", options_.title);
        if (!options_.datum.empty()) json.text("datum", options_.datum);
        json.text("unit", unit_ == LengthUnit::Foot ? "ft" : "m");
        add(json);
    }

    void write_remark(std::string_view text) {
        JsonOut json = entry("remark");
        json.text("text", text);
        add(json);
    }

    void write_opening(const std::vector<std::string>& titles) {
        if (!options_.sheet_name.empty() || !options_.date.empty()) {
            std::string opening = "imported from " + sheet();
            if (!options_.date.empty()) opening += ", levelled on " + options_.date;
            write_remark(opening);
        }
        for (const std::string& title : titles) write_remark(title);
    }

    void write_instrument() {
        if (options_.instrument_in_book) return;
        JsonOut json = entry("instrument");
        json.text("name", options_.instrument).text("type", options_.instrument_type);
        add(json);
    }

    void write_line() {
        if (options_.line.empty() || options_.line_in_book) return;
        JsonOut json = entry("line");
        json.text("name", options_.line);
        add(json);
    }

    void write_benchmark(const RunBenchmark& benchmark) {
        JsonOut json = entry("benchmark");
        json.text("point", benchmark.point);
        length(json, "level", benchmark.level);
        json.text("source", "row " + std::to_string(benchmark.row) + " of " + sheet());
        add(json);
    }

    void write_step(const RunStep& step) {
        if (step.kind == RunStep::Kind::Heading) {
            const Record& record = *step.record;
            // What the row says may stand in a column without a name, which is not used.
            if (record.point.empty() && record.remark.empty()) return;
            const bool both = !record.point.empty() && !record.remark.empty();
            return write_remark(record.point + (both ? ": " : "") + record.remark);
        }
        if (step.kind == RunStep::Kind::Back) write_setup();
        if (!step.point.empty() && step.record->chainage) write_place(step);
        write_reading(step);
        std::string text(step.remark);
        if (step.point.empty() && !step.record->point.empty())
            text = step.record->point + (text.empty() ? "" : ", ") + text;
        if (!text.empty())
            write_remark((step.point.empty() ? line_point(*step.record) : step.point) + ": " + text);
    }

    // A point read on the line, as the book names it.
    std::string line_point(const Record& record) const {
        constexpr int places = 3;
        const double unit = static_cast<double>(scale_of(unit_).ticks);
        const double off = static_cast<double>(record[Column::Offset].length().ticks()) / unit;
        std::string name = options_.line + " ";
        append_fixed(name, static_cast<double>(record.chainage.length().ticks()) / unit, places);
        if (rounded_to(off, places) != 0) {
            name += off < 0 ? " L" : " R";
            append_fixed(name, off < 0 ? -off : off, places);
        }
        return name + " " + options_.what;
    }

    void write_setup() {
        do {
            setup_ = options_.setup_prefix + std::to_string(++setup_number_);
        } while (used_names_.count(setup_) > 0);
        JsonOut json = entry("setup");
        json.text("name", setup_).text("instrument", options_.instrument);
        add(json);
    }

    void place(JsonOut& json, const Record& record) const {
        json.text("line", options_.line);
        length(json, "ch", record.chainage);
        if (record[Column::Offset].digits != 0) length(json, "off", record[Column::Offset]);
    }

    void write_place(const RunStep& step) {
        if (!placed_.insert(step.point).second) return;
        JsonOut json = entry("place");
        json.text("point", step.point);
        place(json, *step.record);
        add(json);
    }

    void write_reading(const RunStep& step) {
        JsonOut json = entry("reading");
        json.text("setup", setup_);
        if (step.point.empty()) {
            place(json, *step.record);
            json.text("what", options_.what);
        } else {
            json.text("point", step.point);
        }
        const bool back = step.kind == RunStep::Kind::Back;
        const bool fore = step.kind == RunStep::Kind::Fore;
        json.text("sight", back ? "back" : fore ? "fore" : "inter");
        const Column column = back ? Column::Back : fore ? Column::Fore : Column::Inter;
        length(json, "staff", (*step.record)[column]);
        length(json, "dist", lengths_.length(step));
        add(json);
    }

    const LevelRun& run_;
    const SightLengths& lengths_;
    const CsvOptions& options_;
    LengthUnit unit_;
    std::vector<std::string> lines_;
    std::set<std::string> used_names_;
    std::set<std::string> placed_;
    std::string setup_;
    std::size_t setup_number_ = 0;
};

}  // namespace

std::vector<std::string> book_lines(const LevelRun& run, const SightLengths& lengths,
                                    const std::vector<std::string>& titles, const SheetForm& form) {
    return Writer(run, lengths, form).write(titles);
}

}  // namespace fallwright::text
