#include "book/read_entry.h"

#include <array>
#include <utility>

namespace fallwright {

namespace {

constexpr std::array<std::pair<std::string_view, Kind>, 21> kinds = {
    {{"book", Kind::Book},   {"benchmark", Kind::Benchmark}, {"instrument", Kind::Instrument},
     {"staff", Kind::Staff}, {"receiver", Kind::Receiver},   {"line", Kind::Line},
     {"place", Kind::Place}, {"setup", Kind::Setup},         {"reading", Kind::Reading},
     {"step", Kind::Step},   {"what", Kind::What},           {"tolerance", Kind::Tolerance},
     {"trial", Kind::Trial}, {"surface", Kind::Surface},     {"want", Kind::Want},
     {"rule", Kind::Rule},   {"relaid", Kind::Relaid},       {"adjusted", Kind::Adjusted},
     {"amend", Kind::Amend}, {"strike", Kind::Strike},       {"remark", Kind::Remark}}};

// Exactly one of e, n | line, ch, off | point; nothing given is Kind::None.
Position read_position(Fields& fields, bool point_allowed) {
    Position position;
    const bool grid = fields.has("e") || fields.has("n");
    const bool on_line = fields.has("line") || fields.has("ch") || fields.has("off");
    const bool at_point = point_allowed && fields.has("point");
    if (grid + on_line + at_point > 1) {
        fields.context().refuse(Code::ValueTwice, "the place is given twice",
                                "keep e and n, or line, ch and off");
    } else if (grid) {
        position.kind = Position::Kind::Grid;
        position.e = fields.required_length("e");
        position.n = fields.required_length("n");
    } else if (on_line) {
        position.kind = Position::Kind::OnLine;
        position.line = fields.required_name("line");
        position.ch = fields.required_length("ch");
        position.off = fields.length_or("off", 0);
    } else if (at_point) {
        position.kind = Position::Kind::AtPoint;
        position.point = fields.required_name("point");
    }
    return position;
}

void read_benchmark(Fields& fields, Benchmark& to) {
    to.point = fields.required_name("point");
    to.level = Decimal::metres(fields.required_length("level"));
    to.sd = fields.sd_or("sd", 0);
    to.source = fields.name("source");
}

void read_keypad(Fields& fields, Keypad& to) {
    if (!fields.has("keypad")) return;
    const std::uint32_t node = fields.take("keypad");
    if (fields.context().record.node(node).type != NodeType::Object)
        return fields.wrong_type("keypad", "object");
    Fields keypad(fields.context(), node, "keypad");
    to.main_plus_rises = keypad.choice("main_plus", {"rises", "falls"}) != 1;
    to.cross_plus_rises = keypad.choice("cross_plus", {"rises", "falls"}) != 1;
    to.cross_right = keypad.choice("cross_side", {"right", "left"}) != 1;
    to.permille = keypad.choice("grade_unit", {"%", "permille"}) == 1;
    to.nested = keypad.choice("axes", {"independent", "nested"}) == 1;
    keypad.unknown();
}

void read_instrument(Fields& fields, Instrument& to) {
    to.name = fields.required_name("name");
    if (!fields.has("type")) fields.context().refuse(Code::MissingField, "type is missing");
    const int type = fields.choice("type", {"rotating-laser", "optical-level", "pipe-laser"});
    to.type = static_cast<InstrumentType>(type < 0 ? 0 : type);
    to.reading_sd = fields.sd("reading_sd");
    if (to.reading_sd.has() && to.reading_sd.value <= 0) {
        fields.context().findings.push_back(
            finding(Code::BadSd, {fields.context().id()}, "reading_sd must be above 0; the default is used"));
        to.reading_sd = {};
    }
    to.sd_per_m = fields.sd("sd_per_m", false);
    const std::array<Maybe, 2> tilt = fields.pair("tilt", false);
    to.tilt = {tilt[0].or_else(0), tilt[1].or_else(0)};
    to.tilt_sd = fields.sd("tilt_sd", false);
    to.setting_tilt_sd = fields.sd("setting_tilt_sd", false);
    to.cone = fields.number_or("cone", 0);
    to.cone_sd = fields.sd("cone_sd", false);
    to.collimation = fields.number_or("collimation", 0);
    to.collimation_sd = fields.sd("collimation_sd", false);
    to.aim_sd = fields.sd("aim_sd", false);
    to.grade_sd = fields.sd("grade_sd", false);
    to.grade_gain_sd = fields.sd_or("grade_gain_sd", 0, false);
    to.grade_step = fields.sd_or("grade_step", 0, false);
    to.grade_limit = fields.pair("grade_limit", false);
    if (to.grade_limit[0].value < 0 || to.grade_limit[1].value < 0)
        fields.out_of_range("grade_limit", "0 or more");
    to.range = fields.positive_length("range");
    read_keypad(fields, to.keypad);
}

void read_staff(Fields& fields, Staff& to) {
    to.name = fields.required_name("name");
    to.length = fields.positive_length("length");
    to.least_step = fields.positive_length("to");
    to.zero = fields.length_or("zero", 0);
    to.zero_sd = fields.sd_or("zero_sd", 0);
    to.scale = fields.number_or("scale", 0);
    to.scale_sd = fields.sd_or("scale_sd", 0, false);
    for (const std::uint32_t node : fields.array("joints")) {
        if (fields.context().record.node(node).type != NodeType::Object)
            return fields.wrong_type("joints", "list of {at, step_sd}");
        Fields joint(fields.context(), node, "joints");
        const double at = joint.required_length("at");
        if (at <= 0 && joint.has("at")) joint.out_of_range("at", "above 0");
        to.joints.push_back({at, joint.sd_or("step_sd", 0)});
        joint.unknown();
    }
}

void read_receiver(Fields& fields, Receiver& to) {
    to.name = fields.required_name("name");
    to.window = fields.positive_length("window");
    to.dead_band = fields.sd("dead_band");
}

void read_place(Fields& fields, PlaceEntry& to) {
    to.point = fields.required_name("point");
    to.position = read_position(fields, false);
    if (to.position.kind == Position::Kind::None) {
        fields.context().refuse(Code::MissingField, "a place without e and n, or line and ch");
    }
}

Axis read_axis(Fields& plane, std::string_view key) {
    Axis axis;
    axis.matched = plane.is_null(key);
    axis.dialled = plane.gradient(key).or_else(0);
    return axis;
}

void read_plane(Fields& fields, Setup& to) {
    if (!fields.has("plane")) return;
    const std::uint32_t node = fields.take("plane");
    if (fields.context().record.node(node).type != NodeType::Object)
        return fields.wrong_type("plane", "object");
    Fields plane(fields.context(), node, "plane");
    to.plane = {read_axis(plane, "main"), read_axis(plane, "cross")};
    to.bearing = plane.number("bearing");
    to.towards = plane.name("towards");
    if (to.bearing.has() && to.towards != no_name) {
        fields.context().refuse(Code::ValueTwice, "bearing and towards are given together",
                                "keep one of the two");
    }
    plane.unknown();
}

void read_shown(Fields& fields, Setup& to) {
    if (!fields.has("shown")) return;
    const std::uint32_t node = fields.take("shown");
    if (fields.context().record.node(node).type != NodeType::Object)
        return fields.wrong_type("shown", "object");
    Fields shown(fields.context(), node, "shown");
    to.shown = {shown.gradient("main"), shown.gradient("cross")};
    shown.unknown();
}

void read_setup(Fields& fields, Setup& to) {
    to.name = fields.required_name("name");
    to.instrument = fields.required_name("instrument");
    if (fields.has("place")) {
        const std::uint32_t node = fields.take("place");
        if (fields.context().record.node(node).type == NodeType::Object) {
            Fields place(fields.context(), node, "place");
            to.position = read_position(place, true);
            if (to.position.kind == Position::Kind::None && place.context().ok) {
                place.context().refuse(Code::MissingField, "a place without e and n, line and ch, or point");
            }
            place.unknown();
        } else {
            fields.wrong_type("place", "object");
        }
    }
    read_plane(fields, to);
    read_shown(fields, to);
    to.head = fields.name("head");
    to.head_sd = fields.sd_or("head_sd", to.head_sd);
    to.clamp = fields.length("clamp");
    to.staff = fields.name("staff");
    to.receiver = fields.name("receiver");
}

void read_reading_place(Fields& fields, Reading& to) {
    to.point = fields.name("point");
    to.line = fields.name("line");
    to.what = fields.name("what");
    to.ch = fields.length_or("ch", 0);
    to.off = fields.length_or("off", 0);
    if (to.point != no_name && to.line != no_name) {
        fields.context().refuse(Code::ValueTwice, "point and line are given together",
                                "keep point, or line with ch");
    } else if (to.point == no_name && to.line == no_name) {
        fields.context().refuse(Code::NoPoint, "the reading names no point");
    } else if (to.line != no_name && !fields.has("ch")) {
        fields.context().refuse(Code::NoPoint, "ch is missing", "give ch with the line");
    }
    to.dist = fields.positive_length("dist");
    to.dist_sd = fields.sd("dist_sd");
    to.along = fields.length("along");
    to.across = fields.length("across");
    if (to.across.has() && !to.along.has()) to.along = {0};
    if (to.along.has() && !to.across.has()) to.across = {0};
}

void read_reading(Fields& fields, Reading& to) {
    to.setup = fields.name("setup");
    read_reading_place(fields, to);
    const int sight = fields.choice("sight", {"back", "inter", "fore"});
    to.sight = sight < 0 ? Sight::Default : static_cast<Sight>(sight + 1);
    const int on = fields.choice("on", {"invert", "soffit", "crown", "collar"});
    to.on = on < 0 ? On::Nothing : static_cast<On>(on + 1);
    to.planned = fields.flag("planned");
    to.least_step = fields.positive_length("to");
    to.staff = fields.name("with");
    to.receiver = fields.name("receiver");
    to.shoe = fields.length_or("shoe", 0);
    to.sd = fields.sd("sd");
    if (to.sd.has() && to.sd.value <= 0) {
        fields.context().findings.push_back(finding(Code::BadSd, {fields.context().id()},
                                                    "sd of a reading must be above 0; the default is used"));
        to.sd = {};
    }
    to.figure = read_figure(fields);
    if (to.figure.form != Form::None && to.planned) {
        fields.context().refuse(Code::ValueTwice, "the reading is planned and has a value",
                                "take planned out once it is read");
    }
    if (to.figure.form == Form::None && !to.planned && fields.context().ok) {
        fields.context().refuse(Code::NoValue, "the reading has no value");
    }
}

void read_step(Fields& fields, Step& to) {
    to.from = fields.required_name("from");
    to.to = fields.required_name("to");
    to.rise = fields.required_length("rise");
    to.sd = fields.sd_or("sd", to.sd);
    if (to.sd <= 0) {
        fields.context().findings.push_back(
            finding(Code::BadSd, {fields.context().id()}, "sd of a step must be above 0; 0.002 m is used"));
        to.sd = 0.002;
    }
    if (to.from == to.to && to.from != no_name)
        fields.context().refuse(Code::OutOfRange, "a step from a point to itself");
}

void read_what(Fields& fields, WhatEntry& to) {
    to.name = fields.required_name("name");
    to.foot_sd = fields.sd("foot_sd");
}

}  // namespace

Kind kind_of(std::string_view word) {
    for (const auto& [text, kind] : kinds) {
        if (text == word) return kind;
    }
    return Kind::Unknown;
}

std::string_view kind_word(Kind kind) {
    for (const auto& [text, known] : kinds) {
        if (known == kind) return text;
    }
    return "unknown";
}

bool read_entry(EntryContext& context, Kind kind, std::uint32_t entry) {
    Book& book = context.book;
    switch (kind) {
        case Kind::Benchmark:
            return append_entry(context, entry, book.benchmarks, read_benchmark);
        case Kind::Instrument:
            return append_entry(context, entry, book.instruments, read_instrument);
        case Kind::Staff:
            return append_entry(context, entry, book.staffs, read_staff);
        case Kind::Receiver:
            return append_entry(context, entry, book.receivers, read_receiver);
        case Kind::Place:
            return append_entry(context, entry, book.places, read_place);
        case Kind::Setup:
            return append_entry(context, entry, book.setups, read_setup);
        case Kind::Reading:
            return append_entry(context, entry, book.readings, read_reading);
        case Kind::Step:
            return append_entry(context, entry, book.steps, read_step);
        case Kind::What:
            return append_entry(context, entry, book.whats, read_what);
        default:
            return read_design_entry(context, kind, entry);
    }
}

}  // namespace fallwright
