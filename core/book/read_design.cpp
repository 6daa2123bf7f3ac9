#include "book/read_entry.h"
#include "book/read_rule.h"
#include "book/read_tolerance.h"

namespace fallwright {

namespace {

ProfilePoint read_profile_point(Fields& point, bool first) {
    ProfilePoint value;
    value.ch = point.required_length("ch");
    value.level = point.length("level");
    value.gradient = point.gradient("gradient");
    value.under = point.name("under");
    value.by = point.length_or("by", 0);
    value.curve = point.length_or("curve", 0);
    const int ways = value.level.has() + value.gradient.has() + (value.under != no_name);
    if (ways > 1)
        point.context().refuse(Code::ValueTwice,
                               point.path("level") + ": level, gradient and under exclude each other");
    if (ways == 0 && point.context().ok)
        point.context().refuse(Code::MissingField,
                               point.path("level") + ": level, gradient or under is missing");
    if (first && value.gradient.has())
        point.context().refuse(Code::OutOfRange, point.path("gradient") + " needs a point before it");
    if (value.curve < 0) point.context().refuse(Code::OutOfRange, point.path("curve") + " must be 0 or more");
    return value;
}

Pipe read_pipe(Fields& pipe) {
    Pipe value;
    value.from = pipe.required_length("from");
    value.to = pipe.required_length("to");
    value.bore = pipe.positive_length("bore");
    value.wall = pipe.thickness("wall");
    value.bedding = pipe.thickness("bedding");
    value.roughness = pipe.thickness("roughness");
    value.collar = pipe.thickness("collar");
    return value;
}

Chamber read_chamber(Fields& chamber) {
    Chamber value;
    value.name = chamber.required_name("name");
    value.ch = chamber.required_length("ch");
    value.in = chamber.length("in");
    value.out = chamber.length("out");
    value.cover = chamber.length("cover");
    value.size = chamber.positive_length("size");
    return value;
}

// Without left one plane goes through, rising to the right.
CrossfallAt read_crossfall_at(Fields& at) {
    CrossfallAt value;
    value.ch = at.required_length("ch");
    const Maybe left = at.gradient("left");
    const Maybe right = at.gradient("right");
    if (!right.has() && at.context().ok)
        at.context().refuse(Code::MissingField, at.path("right") + " is missing");
    value.right = right.or_else(0);
    value.left = left.or_else(-value.right);
    return value;
}

// One gradient, a pair of them, or such along the line as objects.
void read_crossfall(Fields& fields, Crossfall& to) {
    if (!fields.has("crossfall")) return;
    const Record& record = fields.context().record;
    if (record.node(fields.take("crossfall")).type != NodeType::Array) {
        const double right = fields.gradient("crossfall").or_else(0);
        to.along.push_back({0, -right, right});
        return;
    }
    const std::vector<std::uint32_t> listed = fields.array("crossfall");
    const bool objects = !listed.empty() && record.node(listed.front()).type == NodeType::Object;
    if (objects) {
        for_each_object(fields, "crossfall",
                        [&to](Fields& at) { to.along.push_back(read_crossfall_at(at)); });
    } else if (listed.size() == 2) {
        to.along.push_back(
            {0, fields.gradient_at(listed[0], "crossfall"), fields.gradient_at(listed[1], "crossfall")});
    } else {
        fields.wrong_type("crossfall", "gradient, pair of gradients, or list of objects with ch");
    }
}

void read_joins(Fields& fields, std::vector<Join>& to) {
    if (!fields.has("joins")) return;
    const std::uint32_t node = fields.take("joins");
    const auto read = [&to](Fields& join) {
        Join value;
        value.line = join.required_name("line");
        value.ch = join.required_length("ch");
        value.by_soffit = join.choice("by", {"soffit", "invert"}) == 0;
        to.push_back(value);
    };
    if (fields.context().record.node(node).type == NodeType::Array)
        return for_each_object(fields, "joins", read);
    if (fields.context().record.node(node).type != NodeType::Object)
        return fields.wrong_type("joins", "object");
    Fields join(fields.context(), node, "joins");
    read(join);
    join.unknown();
}

// A plan needs two points, and two neighbours that are apart.
void check_plan(Fields& fields, const LineEntry& line) {
    if (line.plan.size() == 1) fields.context().refuse(Code::OutOfRange, "plan needs two points or more");
    for (std::size_t i = 1; i < line.plan.size(); ++i) {
        if (line.plan[i] == line.plan[i - 1])
            return fields.context().refuse(Code::OutOfRange, "plan has the same point twice in a row");
    }
}

void read_line(Fields& fields, LineEntry& to) {
    to.name = fields.required_name("name");
    const int use = fields.choice("use", {"drain", "road", "kerb", "slab", "other"});
    to.use = use < 0 ? LineUse::Other : static_cast<LineUse>(use);
    to.start = fields.length_or("start", 0);
    to.plan = fields.length_pairs("plan");
    check_plan(fields, to);
    for_each_object(fields, "profile", [&to](Fields& point) {
        to.profile.push_back(read_profile_point(point, to.profile.empty()));
    });
    const int flow = fields.choice("flow", {"with", "against"});
    to.flow = flow < 0 ? Flow::Default : static_cast<Flow>(flow + 1);
    read_crossfall(fields, to.crossfall);
    to.edges = fields.pair("edges", true);
    for_each_object(fields, "pipes", [&to](Fields& pipe) { to.pipes.push_back(read_pipe(pipe)); });
    for_each_object(fields, "chambers",
                    [&to](Fields& chamber) { to.chambers.push_back(read_chamber(chamber)); });
    read_joins(fields, to.joins);
    for (const std::uint32_t node : fields.array("outlets"))
        to.outlets.push_back(fields.number_at(node, "outlets", true));
    for_each_object(fields, "layers", [&to](Fields& layer) {
        const NameId what = layer.required_name("what");
        const double thickness = layer.required_length("thickness");
        if (thickness <= 0 && layer.has("thickness")) layer.out_of_range("thickness", "above 0");
        to.layers.push_back({what, thickness});
    });
    if (!fields.has("whats")) return;
    const std::uint32_t node = fields.take("whats");
    const Node& whats = fields.context().record.node(node);
    if (whats.type != NodeType::Object) return fields.wrong_type("whats", "object of heights");
    for (std::uint32_t child = node + 1; child < whats.end; child = fields.context().record.node(child).end) {
        const std::string_view name = fields.context().record.key(fields.context().record.node(child));
        to.whats.push_back({fields.context().book.names.intern(name), fields.number_at(child, name, true)});
    }
}

void read_trial(Fields& fields, Trial& to) {
    to.name = fields.required_name("name");
    to.instrument = fields.required_name("instrument");
    to.limit = fields.positive_length("limit").or_else(to.limit);
    if (!fields.has("shots")) fields.context().refuse(Code::MissingField, "shots is missing");
    for_each_object(fields, "shots", [&to](Fields& shot) {
        Shot value;
        value.station = shot.required_name("station");
        value.peg = shot.required_name("peg");
        value.dist = shot.positive_length("dist");
        value.facing = shot.number("facing");
        value.turn = shot.name("turn");
        value.figure = read_figure(shot);
        if (value.figure.form == Form::None && shot.context().ok)
            shot.context().refuse(Code::NoValue, shot.path("staff") + ": the shot has no value");
        if (value.figure.form == Form::Clamp)
            shot.context().refuse(Code::NoClamp,
                                  shot.path("mark") + ": high or low alone, and a shot has no clamp",
                                  "give the mark with the shot");
        to.shots.push_back(value);
    });
}

void read_want(Fields& fields, Want& to) {
    to.line = fields.name("line");
    to.surface = fields.name("surface");
    to.setup = fields.name("setup");
    to.every = fields.positive_length("every");
    to.whats = fields.names("what");
    if ((to.line == no_name) == (to.surface == no_name))
        fields.context().refuse(Code::MissingField, "want needs line or surface, one of them");
}

void read_relaid(Fields& fields, Relaid& to) {
    to.line = fields.required_name("line");
    to.what = fields.required_name("what");
    to.from = fields.length("from");
    to.to = fields.length("to");
    to.why = fields.name("why");
}

void read_adjusted(Fields& fields, Adjusted& to) {
    to.instrument = fields.required_name("instrument");
    to.why = fields.name("why");
}

void read_remark(Fields& fields, Remark& to) {
    to.text = fields.required_name("text");
}

}  // namespace

bool read_design_entry(EntryContext& context, Kind kind, std::uint32_t entry) {
    Book& book = context.book;
    switch (kind) {
        case Kind::Line:
            return append_entry(context, entry, book.lines, read_line);
        case Kind::Tolerance:
            return append_entry(context, entry, book.tolerances, read_tolerance);
        case Kind::Trial:
            return append_entry(context, entry, book.trials, read_trial);
        case Kind::Surface:
            return read_surface_entry(context, entry);
        case Kind::Want:
            return append_entry(context, entry, book.wants, read_want);
        case Kind::Rule:
            return append_entry(context, entry, book.rules, read_rule);
        case Kind::Relaid:
            return append_entry(context, entry, book.relaids, read_relaid);
        case Kind::Adjusted:
            return append_entry(context, entry, book.adjusted, read_adjusted);
        case Kind::Remark:
            return append_entry(context, entry, book.remarks, read_remark);
        default:
            return true;
    }
}

}  // namespace fallwright
