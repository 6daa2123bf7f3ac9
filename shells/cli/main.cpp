#include <CLI/CLI.hpp>
#include <cmath>
#include <cstdio>
#include <exception>

#include "shells/cli/memory.h"
#include "shells/cli/verbs.h"

using namespace fallwright::cli;

namespace {

// The arguments of all verbs; one run fills those of one.
struct Arguments {
    Output output;
    std::string book;
    SuspectsArguments suspects;
    FallArguments fall;
    DialArguments dial;
    SetoutArguments setout;
    PlanArguments plan;
    DrainArguments drain;
    ReportArguments report;
    StaffArguments staff;
    ServeArguments serve;
    ImportArguments import;
    ExportArguments handed;
    std::vector<std::string> entry, books;
    std::string out;
};

CLI::App* add_verb(CLI::App& app, Arguments& arguments, const char* name, const char* what,
                   const char* example) {
    CLI::App* verb = app.add_subcommand(name, what);
    verb->footer(std::string("Example:\n  ") + example);
    verb->add_flag("--json", arguments.output.json, "The answer as JSON");
    verb->add_flag("--strict", arguments.output.strict,
                   "Exit 1 if something is outside or an error finding stands");
    return verb;
}

void add_book_verbs(CLI::App& app, Arguments& arguments, int& code) {
    CLI::App* evaluate = add_verb(app, arguments, "evaluate", "Levels, falls, pages and checks of a book",
                                  "fallwright evaluate examples/lane.book.jsonl");
    evaluate->add_option("book", arguments.book, "Book file")->required();
    evaluate->add_flag("--surveyor", arguments.output.surveyor, "Planes, residuals and tests too");
    evaluate->callback([&] { code = evaluate_book(arguments.book, arguments.output); });

    CLI::App* levels = add_verb(app, arguments, "levels", "The levels and booked pages of a book",
                                "fallwright levels examples/two-benchmarks.book.jsonl");
    levels->add_option("book", arguments.book, "Book file")->required();
    levels->callback([&] { code = level_book(arguments.book, arguments.output); });
    CLI::App* check = add_verb(app, arguments, "check", "What was laid on the lines of a book, judged",
                               "fallwright check examples/lane.book.jsonl");
    check->add_option("book", arguments.book, "Book file")->required();
    check->callback([&] { code = check_book(arguments.book, arguments.output); });
    CLI::App* trial =
        add_verb(app, arguments, "trial", "Checks of instruments on site: what they find and do not see",
                 "fallwright trial examples/checked.book.jsonl");
    trial->add_option("book", arguments.book, "Book file")->required();
    trial->callback([&] { code = check_instruments_of_book(arguments.book, arguments.output); });
}

void add_suspects_verb(CLI::App& app, Arguments& arguments, int& code) {
    CLI::App* suspects =
        add_verb(app, arguments, "suspects", "What probably went wrong, and the reading that decides",
                 "fallwright suspects examples/knocked.book.jsonl\n"
                 "  fallwright suspects examples/lane.book.jsonl --trace BM2 --by 0.010");
    suspects->add_option("book", arguments.suspects.book, "Book file")->required();
    suspects->add_option("--trace", arguments.suspects.trace,
                         "A benchmark's point or a reading's id: which levels move if it is out");
    suspects->add_option("--by", arguments.suspects.by, "By how much it is booked too large; 10 mm");
    suspects->callback([&] {
        const bool traced = !arguments.suspects.trace.empty();
        code = traced ? trace_in_book(arguments.suspects, arguments.output)
                      : suspect_book(arguments.suspects.book, arguments.output);
    });
}

void add_fall_verb(CLI::App& app, Arguments& arguments, int& code) {
    CLI::App* fall =
        add_verb(app, arguments, "fall", "How much it falls: two or more readings, or a line of a book",
                 "fallwright fall 1.432 2.118 --over 54.88±0.05\n  fallwright fall 1.432 2.118 --over 54.88 "
                 "--shown '1 in 85 fall' --near 4\n  fallwright fall 1.20 1.31 1.44 --at 0 10 20\n"
                 "  fallwright fall examples/lane.book.jsonl --line R1");
    fall->add_option("readings", arguments.fall.readings,
                     "Readings in order along the line, or one book with --line")
        ->required();
    fall->add_option("--over", arguments.fall.over,
                     "Distance from the first to the last, with ± where it is known");
    fall->add_option("--at", arguments.fall.at, "Chainage of each reading");
    fall->add_option("--shown", arguments.fall.shown, "Gradient the instrument shows after it was matched");
    fall->add_option("--near", arguments.fall.near, "How far the near point is ahead of the laser");
    fall->add_option("--unit", arguments.fall.unit, "m or ft");
    fall->add_option("--line", arguments.fall.line, "Line of the book");
    fall->add_option("--what", arguments.fall.what, "Surface on the line: ground, laid, ...");
    fall->callback([&] { code = find_fall(arguments.fall, arguments.output); });
}

void add_dial_verb(CLI::App& app, Arguments& arguments, int& code) {
    CLI::App* dial =
        add_verb(app, arguments, "dial", "What to set on the laser, for a line or a plane through points",
                 "fallwright dial examples/clamped.book.jsonl --line D1 --setup 'run 1'\n"
                 "  fallwright dial examples/clamped.book.jsonl --points BM5 BM6 --setup 'run 1'");
    dial->add_option("book", arguments.dial.book, "Book file")->required();
    dial->add_option("--line", arguments.dial.line, "Line of the book");
    dial->add_option("--surface", arguments.dial.surface, "Measured surface of the book: its best plane");
    dial->add_option("--setup", arguments.dial.setup, "Set-up the laser stands in")->required();
    dial->add_option("--points", arguments.dial.points,
                     "Two points, or three and more for the plane of best fit");
    dial->add_option("--crossfall", arguments.dial.crossfall,
                     "With two points: rising to the right of the way from the first to the second");
    dial->callback([&] { code = dial_line_of_book(arguments.dial, arguments.output); });
}

void add_setout_verb(CLI::App& app, Arguments& arguments, int& code) {
    CLI::App* setout =
        add_verb(app, arguments, "setout", "What the staff must read along a line, and how deep to dig",
                 "fallwright setout examples/trench.book.jsonl --line D4 --setup S1 --every 10\n"
                 "  fallwright setout examples/trench.book.jsonl --line D4 --rod --pegs --traveller 2.5");
    setout->add_option("book", arguments.setout.book, "Book file")->required();
    setout->add_option("--line", arguments.setout.line, "Line of the book")->required();
    setout->add_option("--every", arguments.setout.every,
                       "Interval between rows; the line's own points come too");
    setout->add_option("--setup", arguments.setout.setup,
                       "Set-up to work from; without: design levels and dig only");
    setout->add_option("--what", arguments.setout.what, "Surfaces: laid, crown, formation, finished, ...");
    setout->add_option("--traveller", arguments.setout.traveller,
                       "Sight rails for a traveller of this length");
    setout->add_flag("--rod", arguments.setout.rod, "Rod card: the marks of all surfaces on one rod");
    setout->add_flag("--pegs", arguments.setout.pegs, "Peg card: cuts from the pegs read beside the line");
    setout->callback([&] { code = set_out_line(arguments.setout, arguments.output); });
}

void add_plan_options(CLI::App& plan, PlanArguments& arguments) {
    const auto text = [&](const char* option, const char* name, const char* what) {
        plan.add_option(option, arguments.texts[name], what);
    };
    const auto number = [&](const char* option, const char* name, const char* what) {
        arguments.numbers[name] = std::nan("");
        plan.add_option(option, arguments.numbers[name], what);
    };
    plan.add_option("book", arguments.book, "Book file; without one the closed forms answer");
    text("--line", "line", "Line of the book to plan for");
    text("--every", "every", "Interval between stations; the line's own points come too");
    text("--what", "what", "Surface of the stations: laid, finished, ground, ...");
    text("--tolerance", "tolerance", "T of ±T; without: what the book asks for");
    text("--instrument", "instrument", "Instrument of the book to plan with");
    plan.add_option("--places", arguments.places,
                    "Up to 8 places for the instrument: points, or chainages of the line: 40 '80 L3.5'");
    plan.add_flag("--as-it-is", arguments.as_it_is, "Judge the layout only; look for no better one");
    number("--temperature-difference", "temperature_difference", "Degrees between its box and the air");
    text("--reading-sd", "reading_sd", "Without a book: of one reading; 1.2 mm");
    text("--sd-per-m", "sd_per_m", "Without a book: its growth with the sight, of an optical level");
    text("--tilt-sd", "tilt_sd", "Without a book: tilt of the light's plane, as 0.024 mm/m");
    text("--benchmark-sd", "benchmark_sd", "Without a book: of each benchmark");
    text("--length", "length", "Without a book: of a run, or between two benchmarks");
    text("--at", "at", "Without a book: how far a point lies from the first benchmark");
    number("--k", "k", "Without a book: the tolerance is that many standard deviations; 2");
    text("--unit", "unit", "Without a book: m or ft");
}

void add_plan_verb(CLI::App& app, Arguments& arguments, int& code) {
    CLI::App* plan =
        add_verb(app, arguments, "plan", "How sure the levels will be, and what would make them surer",
                 "fallwright plan examples/planned.book.jsonl\n"
                 "  fallwright plan examples/to-plan.book.jsonl --line K1 --tolerance 6mm\n"
                 "  fallwright plan --tolerance 5mm --reading-sd 1.2mm --tilt-sd '0.024 mm/m'");
    add_plan_options(*plan, arguments.plan);
    plan->callback([&] { code = plan_book(arguments.plan, arguments.output); });
}

void add_drain_options(CLI::App& drain, DrainArguments& arguments) {
    const auto text = [&](const char* option, const char* name, const char* what) {
        return drain.add_option(option, arguments.texts[name], what);
    };
    const auto number = [&](const char* option, const char* name, const char* what) {
        arguments.numbers[name] = std::nan("");
        drain.add_option(option, arguments.numbers[name], what);
    };
    drain.add_option("book", arguments.book, "Book file; without one a single pipe is asked for");
    text("--bore", "bore", "Inside diameter: 150, 150mm, 6in");
    text("--fall", "fall",
         "Fall the way the water runs: '1 in 80', 1.25%; found where a velocity or flow is given");
    text("--roughness", "roughness", "Roughness for Colebrook-White: 0.6mm");
    number("--manning", "manning", "Manning's n instead: 0.013");
    number("--viscosity", "viscosity", "Kinematic viscosity, m2/s; 1.007e-6, water of 20 degrees");
    text("--flow", "flow", "Peak flow: '2.5 l/s', '40 gpm', '0.5 cfs', '0.1 MGD'");
    number("--dwellings", "dwellings", "Dwellings, for their peak foul flow, instead of a flow");
    text("--depth", "depth", "Depth of water instead of a flow: 75mm, 50%");
    text("--velocity", "velocity", "Velocity to find the fall for: '0.7 m/s'");
    number("--closets", "closets", "How many WCs drain to it, for the rules that ask");
    text("--rule", "rule", "Rule of self-cleansing the job is held to, by its preset's name");
    text("--unit", "unit", "Without a book: m or ft");
}

void add_drain_book_options(CLI::App& drain, DrainArguments& arguments) {
    const auto text = [&](const char* option, const char* name, const char* what) {
        drain.add_option(option, arguments.texts[name], what)->group("With a book");
    };
    text("--line", "line", "That line only; else every drain of the book");
    text("--setup", "setup", "Set-up the staff readings are from; else the one that stands");
    text("--cover", "cover", "Least cover over the crown: 0.9, cover-highway");
    text("--width", "width", "Of the trench: 0.6, trench-en-1610-supported");
    text("--batter", "batter", "How far its sides lean out for 1 of depth; 0");
    text("--surround", "surround", "How far over the crown the surround goes; 0.15 m");
    text("--spoil", "spoil", "How much the dug ground bulks: 0.25, '25 %', bulking-clay-damp");
    text("--load", "load", "What one lorry takes, loose, in cubic units of the book");
    drain.add_flag("--follow", arguments.follow, "The pipe of least dig under the line")
        ->group("With a book");
    text("--fall-min", "fall_min", "With follow: least fall, else by the rule: '1 in 80'");
    text("--fall-max", "fall_max", "With follow: steepest fall");
    text("--outfall", "outfall", "With follow: level that its lower end must not lie under");
    text("--inlet", "inlet", "With follow: level that its upper end must not lie over");
    text("--grades", "grades", "With follow: how many falls it may have; 3");
    text("--saving", "saving", "With follow: share of the dig that a grade more must save to be told; 0.01");
    drain
        .add_option("--break", arguments.breaks,
                    "With follow: chainages where the fall may change; else chambers")
        ->group("With a book");
    text("--wall", "wall", "With follow: of the pipe");
    text("--bedding", "bedding", "With follow: under the pipe");
    text("--what", "what", "With follow: surface to keep under; finished or ground");
    text("--direction", "direction", "With follow: the water runs with or against the chainage");
}

void add_drain_verb(CLI::App& app, Arguments& arguments, int& code) {
    CLI::App* drain = add_verb(
        app, arguments, "drain", "What a pipe carries and the rules want of it; the drains of a book in full",
        "fallwright drain --bore 150 --fall '1 in 160' --roughness 0.6mm --flow '2.5 l/s'\n"
        "  fallwright drain --bore 8in --fall 0.4% --manning 0.013 --flow '100 gpm' --unit ft\n"
        "  fallwright drain --bore 225 --roughness 0.6mm --velocity '0.75 m/s'\n"
        "  fallwright drain examples/lane.book.jsonl --cover cover-drive --spoil '25 %' --load 9\n"
        "  fallwright drain examples/lane.book.jsonl --line L1 --follow --bore 225 --cover 0.9 --rule "
        "maguire");
    add_drain_options(*drain, arguments.drain);
    add_drain_book_options(*drain, arguments.drain);
    drain->callback([&] { code = answer_drain(arguments.drain, arguments.output); });
}

void add_report_verb(CLI::App& app, Arguments& arguments, int& code) {
    CLI::App* report = add_verb(app, arguments, "report", "The record of a job, to read, print and sign",
                                "fallwright report examples/lane.book.jsonl --html lane.html --pdf lane.pdf\n"
                                "  fallwright report examples/lane.book.jsonl --one-page");
    report->add_option("book", arguments.report.book, "Book file")->required();
    report->add_option("--html", arguments.report.html, "Into this file, one that needs no other");
    report->add_option("--pdf", arguments.report.pdf, "Into this file, to print and to send");
    report->add_flag("--text", arguments.report.text, "As text on the terminal; without a file that is so");
    report->add_flag("--one-page", arguments.report.one_page, "The short form, one sheet");
    report->add_option("--paper", arguments.report.paper, "A4 or Letter")
        ->check(CLI::IsMember({"A4", "Letter"}));
    report->add_option("--made-at", arguments.report.made_at, "The time it is given, else now");
    report->callback([&] { code = report_book(arguments.report, arguments.output); });
}

void add_staff_verb(CLI::App& app, Arguments& arguments, int& code) {
    CLI::App* staff =
        add_verb(app, arguments, "staff", "The face of the staff around a reading, and how to read it",
                 "fallwright staff 1.432\n  fallwright staff 4.70 --unit ft --svg staff.svg");
    staff
        ->add_option("reading", arguments.staff.reading, "The reading; negative: the staff hangs upside down")
        ->required();
    staff->add_option("--unit", arguments.staff.unit, "m or ft");
    staff->add_option("--length", arguments.staff.length, "Length of the staff");
    staff->add_option("--window", arguments.staff.window, "How much of the face is drawn");
    staff->add_option("--svg", arguments.staff.svg, "Draw into this file");
    staff->add_flag("--inverted", arguments.staff.inverted, "The staff hangs upside down");
    staff->add_flag("--ascii", arguments.staff.ascii, "Plain characters only");
    staff->callback([&] { code = draw_staff(arguments.staff, arguments.output); });
}

void add_import_verb(CLI::App& app, Arguments& arguments, int& code) {
    ImportArguments& import = arguments.import;
    CLI::App* verb = add_verb(
        app, arguments, "import", "Take over a level book or a list of points (CSV), LandXML, GeoJSON",
        "fallwright import examples/csv/comma.csv new.book.jsonl\n"
        "  fallwright import examples/exchange/control.csv new.book.jsonl --levels known\n"
        "  fallwright import examples/exchange/mill-lane.xml new.book.jsonl");
    verb->add_option("file", import.file, "The file; what it is, its content says")->required();
    verb->add_option("book", import.book, "Book to add to; made where there is none")->required();
    verb->add_option("--as", import.as, "What the file is")
        ->check(CLI::IsMember({"csv", "landxml", "geojson"}));
    verb->add_option("--title", import.title, "Title of a new book");
    verb->add_option("--datum", import.datum, "Datum of a new book");
    verb->add_option("--unit", import.unit, "m or ft, of a new book")->check(CLI::IsMember({"m", "ft"}));
    verb->add_option("--line", import.line, "Line that chainages of a sheet are of");
    verb->add_option("--what", import.what, "Surface on the line");
    verb->add_option("--instrument", import.instrument, "Name of the instrument");
    verb->add_option("--type", import.type, "optical-level, rotating-laser or pipe-laser");
    verb->add_option("--sheet-unit", import.sheet_unit, "Unit of columns that name none")
        ->check(CLI::IsMember({"m", "mm", "cm", "dm", "ft", "in"}));
    verb->add_option("--separator", import.separator, "Between cells")
        ->check(CLI::IsMember({",", ";", "tab", "|"}));
    verb->add_option("--decimal", import.decimal, "Decimal mark")->check(CLI::IsMember({".", ","}));
    verb->add_option("--date", import.date, "Day of the levelling");
    verb->add_option("--levels", import.levels,
                     "What levels of a list are: measured by someone, or to be set out")
        ->check(CLI::IsMember({"known", "wanted"}));
    verb->add_option("--sd", import.sd, "Of measured levels that say none: 5mm; 10 mm");
    verb->add_option("--use", import.use, "Of lines that say none")
        ->check(CLI::IsMember({"drain", "road", "kerb", "slab", "other"}));
    verb->callback([&] { code = import_file(arguments.import, arguments.output); });
}

void add_export_verb(CLI::App& app, Arguments& arguments, int& code) {
    ExportArguments& handed = arguments.handed;
    CLI::App* verb = add_verb(
        app, arguments, "export", "Hand over a book as CSV, XLSX, LandXML, GeoJSON, drawings, or itself",
        "fallwright export examples/lane.book.jsonl --to levels.csv\n"
        "  fallwright export examples/lane.book.jsonl --to setout.csv --table setout --line D1 "
        "--setup S3 --every 6\n"
        "  fallwright export examples/lane.book.jsonl --to lane.xml\n"
        "  fallwright export examples/lane.book.jsonl --to section.svg --figure long-section --line D1");
    verb->add_option("book", handed.book, "Book file")->required();
    verb->add_option("--to", handed.to, "File to write: .csv, .xlsx, .xml, .geojson, .svg, .jsonl");
    verb->add_option("--as", handed.as, "Format, where the ending does not say it")
        ->check(CLI::IsMember({"csv", "landxml", "geojson", "svg", "jsonl"}));
    verb->add_option("--table", handed.table, "Of CSV: levels (default), stations, setout, readings, falls")
        ->check(CLI::IsMember({"levels", "stations", "setout", "readings", "falls"}));
    verb->add_option(
        "--figure", handed.figure,
        "Drawing of SVG: long-section, cross-sections, deviations, trench, plan, network, surface, rod, "
        "pegs");
    verb->add_option("--surface", handed.surface, "Surface of the drawing surface");
    verb->add_option("--line", handed.line, "Line of the tables setout, stations, falls; of a drawing");
    verb->add_option("--setup", handed.setup, "Set-up the table setout is from");
    verb->add_option("--every", handed.every, "Interval of the table setout");
    verb->add_option("--what", handed.what, "Surfaces of the table setout");
    verb->callback([&] { code = export_file(arguments.handed, arguments.output); });
}

void add_writing_verbs(CLI::App& app, Arguments& arguments, int& code) {
    CLI::App* add = add_verb(
        app, arguments, "add", "Add an entry to a book, durably",
        "fallwright add job.book.jsonl book title='My job'\n  fallwright add job.book.jsonl benchmark "
        "point=BM1 level=50.000\n  fallwright add job.book.jsonl reading point=A mark=1.500 high=0.007\n"
        "  fallwright add job.book.jsonl strike of=qkzmwd-3 why='wrong staff'");
    add->add_option("book", arguments.book, "Book file")->required();
    add->add_option(
           "entry", arguments.entry,
           "kind field=value ..., one JSON object, or - for lines on standard input. Used most: "
           "benchmark, instrument, setup, reading, line, tolerance, want, amend, strike, remark; all "
           "kinds and fields: docs/formats/book.md")
        ->required();
    add->callback([&] { code = add_entries(arguments.book, arguments.entry, arguments.output); });

    CLI::App* join = add_verb(
        app, arguments, "join", "Join the books of two crews or devices",
        "fallwright join examples/crew-a.book.jsonl examples/crew-b.book.jsonl --out joined.book.jsonl");
    join->add_option("books", arguments.books, "Book files")->required()->expected(2, 1000);
    join->add_option("--out", arguments.out, "The new book")->required();
    join->callback([&] { code = join_files(arguments.books, arguments.out, arguments.output); });
}

void add_serve_verb(CLI::App& app, Arguments& arguments, int& code) {
    CLI::App* serve = add_verb(app, arguments, "serve", "The app in a browser, from this machine",
                               "fallwright serve\n  fallwright serve --port 0 --app dist");
    serve->add_option("--app", arguments.serve.app, "Folder of the built app; else the installed one");
    serve->add_option("--port", arguments.serve.port, "Port; 8437, 0 for any that is free");
    serve->add_option("--listen", arguments.serve.listen,
                      "Address to listen on, such as 0.0.0.0 for the network; else this machine only");
    serve->callback([&] { code = serve_app(arguments.serve, arguments.output); });
}

int refuse_words(const std::string& what) {
    std::fprintf(stderr, "fallwright: %s; see fallwright --help\n", what.c_str());
    return 2;
}

int run(int argc, char** argv) {
    CLI::App app(
        "Fallwright: levels and falls with staff, laser and receiver, each number with its uncertainty.",
        "fallwright");
    app.set_version_flag("--version", "fallwright " FALLWRIGHT_VERSION);
    app.require_subcommand(1);
    Arguments arguments;
    int code = 0;
    add_book_verbs(app, arguments, code);
    add_suspects_verb(app, arguments, code);
    add_fall_verb(app, arguments, code);
    add_dial_verb(app, arguments, code);
    add_setout_verb(app, arguments, code);
    add_plan_verb(app, arguments, code);
    add_drain_verb(app, arguments, code);
    add_report_verb(app, arguments, code);
    add_staff_verb(app, arguments, code);
    add_writing_verbs(app, arguments, code);
    add_serve_verb(app, arguments, code);
    add_import_verb(app, arguments, code);
    add_export_verb(app, arguments, code);
    try {
        app.parse(argc, argv);
    } catch (const CLI::RequiredError& error) {
        const bool no_verb = app.get_subcommands().empty() && argc > 1;
        return refuse_words(no_verb ? std::string(argv[1]) + " is no command" : error.what());
    } catch (const CLI::ParseError& error) {
        return error.get_exit_code() == 0 ? app.exit(error) : refuse_words(error.what());
    }
    return code;
}

}  // namespace

int main(int argc, char** argv) {
    keep_memory();
    try {
        return run(argc, argv);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "fallwright: this is an error of the program: %s; please report it\n",
                     error.what());
        return 2;
    }
}
