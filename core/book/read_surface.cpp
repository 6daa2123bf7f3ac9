#include "book/read_entry.h"

namespace fallwright {

namespace {

// A place as [e, n], or the name of a point.
void read_place(Fields& target, SurfaceTarget& to) {
    const std::uint32_t node = target.given("at");
    if (node == 0) return;
    if (target.context().record.node(node).type == NodeType::Text) {
        to.place = target.name("at");
    } else {
        to.at = target.pair("at", true);
    }
}

SurfaceTarget read_target(Fields& target) {
    SurfaceTarget value;
    value.name = target.name("name");
    value.surface = target.name("surface");
    value.level = target.length("level");
    value.by = target.length_or("by", 0);
    value.main = target.gradient("main").or_else(0);
    value.cross = target.gradient("cross").or_else(0);
    value.bearing = target.number_or("bearing", 0);
    read_place(target, value);
    EntryContext& context = target.context();
    if (!context.ok) return value;
    const bool slopes = target.has("main") || target.has("cross");
    value.sloped = slopes || target.has("at");
    if (value.level.has() == (value.surface != no_name)) {
        context.refuse(Code::MissingField, target.path("level") + ": level or surface, one of them",
                       "give a level, or the name of another surface");
    } else if (value.surface != no_name && value.sloped) {
        context.refuse(Code::ValueTwice, target.path("surface") + ": another surface has its own slope",
                       "take main, cross and at out, or give a level in place of the surface");
    } else if (slopes && !target.has("at")) {
        context.refuse(Code::MissingField, target.path("at") + " is missing: where the plane has its level",
                       "give at: [e, n], or a point's name");
    }
    return value;
}

void read_targets(Fields& fields, std::vector<SurfaceTarget>& to) {
    if (!fields.has("to")) return;
    const std::uint32_t node = fields.take("to");
    const auto read = [&](std::uint32_t object, const std::string& path) {
        if (fields.context().record.node(object).type != NodeType::Object)
            return fields.wrong_type("to", "object, nor a list of objects");
        Fields target(fields.context(), object, path);
        to.push_back(read_target(target));
        target.unknown();
    };
    if (fields.context().record.node(node).type != NodeType::Array) return read(node, "to");
    int index = 0;
    for (const std::uint32_t element : fields.array("to"))
        read(element, "to[" + std::to_string(index++) + "]");
}

void read_breaklines(Fields& fields, std::vector<std::vector<NameId>>& to) {
    for (const std::uint32_t list : fields.array("breaklines")) {
        const Node& node = fields.context().record.node(list);
        if (node.type != NodeType::Array) return fields.wrong_type("breaklines", "list of lists of names");
        to.emplace_back();
        for (std::uint32_t child = list + 1; child < node.end;
             child = fields.context().record.node(child).end) {
            to.back().push_back(fields.name_at(child, "breaklines"));
        }
    }
}

// One spacing both ways, or two.
void read_grid(Fields& fields, std::array<Maybe, 2>& to) {
    const std::uint32_t node = fields.given("grid");
    if (node == 0) return;
    if (fields.context().record.node(node).type == NodeType::Array) {
        to = fields.pair("grid", true);
    } else {
        to.fill(fields.positive_length("grid"));
    }
    for (const Maybe& spacing : to) {
        if (fields.context().ok && !(spacing.value > 0)) fields.out_of_range("grid", "above 0");
    }
}

// Shares of a volume: numbers, or per cent.
void read_bulking(Fields& fields, SurfaceEntry& to) {
    to.bulking = fields.gradient("bulking").or_else(0);
    to.shrinkage = fields.gradient("shrinkage").or_else(0);
    if (to.bulking < 0) fields.out_of_range("bulking", "0 or more");
    if (!(to.shrinkage < 1) || to.shrinkage < -1) fields.out_of_range("shrinkage", "between -1 and 1");
}

void read_surface(Fields& fields, SurfaceEntry& to) {
    to.name = fields.required_name("name");
    to.points = fields.names("points");
    to.what = fields.name("what");
    if (to.points.empty() == (to.what == no_name))
        fields.context().refuse(Code::MissingField, "a surface needs points or what, one of them");
    read_breaklines(fields, to.breaklines);
    to.inside = fields.length_pairs("inside");
    read_targets(fields, to.to);
    for (const SurfaceTarget& target : to.to) {
        if (target.surface != no_name && target.surface == to.name)
            fields.context().refuse(Code::OutOfRange, "to: a surface is not held against itself",
                                    "name another surface, or a level");
    }
    to.strip = fields.thickness("strip").or_else(0);
    read_bulking(fields, to);
    read_grid(fields, to.grid);
    to.bearing = fields.number("bearing");
    to.towards = fields.name("towards");
    if (to.bearing.has() && to.towards != no_name)
        fields.context().refuse(Code::ValueTwice, "bearing and towards exclude each other");
    to.edge = fields.choice("edge", {"open", "kerbed"}) == 1 ? SurfaceEdge::Kerbed : SurfaceEdge::Open;
    to.outlets = fields.names("outlets");
    to.flatness = fields.names("flatness");
    to.contours = fields.positive_length("contours");
}

}  // namespace

bool read_surface_entry(EntryContext& context, std::uint32_t entry) {
    return append_entry(context, entry, context.book.surfaces, read_surface);
}

}  // namespace fallwright
