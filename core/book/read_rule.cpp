#include "book/read_rule.h"

#include <array>
#include <cmath>
#include <tuple>

#include "preset/ellipsoids.h"
#include "quantity/discharge.h"
#include "quantity/gradient.h"

namespace fallwright {

namespace {

// Which words are kinds is known where they are used.
void read_priors(EntryContext& context, std::uint32_t object, Fields& values, Rule& to) {
    const Node& all = context.record.node(object);
    for (std::uint32_t child = object + 1; child < all.end; child = context.record.node(child).end) {
        const std::string word(context.record.key(context.record.node(child)));
        const Maybe p = values.number(word);
        if (!p.has()) continue;
        if (p.value < 0 || p.value > 1) {
            context.refuse(Code::OutOfRange, "values." + word + " must be between 0 and 1");
        } else {
            to.priors.push_back({context.book.names.intern(word), p.value});
        }
    }
}

// Refuses what is not above 0.
Maybe above_zero(Fields& fields, std::string_view key, Maybe value) {
    if (value.has() && !(value.value > 0)) fields.out_of_range(key, "above 0");
    return value;
}

// A number in the book's unit, or text with its own: parse_discharge, parse_velocity.
template <class Quantity>
Maybe read_flowing(Fields& fields, std::string_view key, Result<Quantity> (*parse)(std::string_view, Unit),
                   double (*si)(const Quantity&)) {
    const std::uint32_t node = fields.given(key);
    if (node == 0) return {};
    EntryContext& context = fields.context();
    const Node& value = context.record.node(node);
    const Unit unit = context.book.unit;
    if (value.type == NodeType::Number)
        return above_zero(fields, key, {si(Quantity::in(unit, fields.number_at(node, key, false)))});
    if (value.type != NodeType::Text) {
        fields.wrong_type(key, "number or text");
        return {};
    }
    const Result<Quantity> read = parse(context.record.text(value), unit);
    if (!read) {
        context.refuse(Code::WrongType, fields.path(key) + ": " + read.finding().message,
                       read.finding().cure);
        return {};
    }
    return above_zero(fields, key, {si(*read)});
}

void read_hydraulics(Fields& values, HydraulicsRule& to) {
    to.roughness = values.thickness("roughness");
    to.manning = above_zero(values, "manning", values.number("manning"));
    to.viscosity = above_zero(values, "viscosity", values.number("viscosity"));
    to.flow = read_flowing<Discharge>(values, "flow", parse_discharge,
                                      [](const Discharge& flow) { return flow.cubic_metres(); });
    to.dwellings = above_zero(values, "dwellings", values.number("dwellings"));
    to.closets = values.number("closets");
    if (to.closets.has() && !(to.closets.value >= 0 && to.closets.value <= 100000))
        values.out_of_range("closets", "a count");
    to.fall = {std::fabs(values.gradient("fall").value)};
    to.velocity = read_flowing<Velocity>(values, "velocity", parse_velocity,
                                         [](const Velocity& velocity) { return velocity.metres(); });
    to.drag = above_zero(values, "drag", values.number("drag"));
    to.source = values.name("source");
    if (to.roughness.has() && to.manning.has())
        values.context().refuse(Code::ValueTwice, "roughness and manning are given together",
                                "keep one: a roughness for Colebrook-White, or Manning's n");
}

void read_cautions(Fields& values, CautionsRule& to) {
    to.depth = values.positive_length("depth");
    to.egress = values.positive_length("egress");
    to.spoil = values.positive_length("spoil");
    to.source = values.name("source");
    to.add = values.names("add");
}

// "cover", or "cover D1": of that line only.
bool is_rule(std::string_view name, std::string_view word) {
    return name.substr(0, word.size()) == word && (name.size() == word.size() || name[word.size()] == ' ');
}

Maybe zero_or_more(Fields& fields, std::string_view key) {
    const Maybe value = fields.number(key);
    if (value.has() && value.value < 0) fields.out_of_range(key, "0 or more");
    return value;
}

void read_trench(Fields& values, PipelayRule& to) {
    to.width = values.positive_length("width");
    to.batter = zero_or_more(values, "batter");
    to.surround = values.thickness("surround");
}

void read_spoil(Fields& values, PipelayRule& to) {
    const double m = values.context().book.metres_per_unit();
    to.bulking = zero_or_more(values, "bulking");
    to.load = above_zero(values, "load", values.number("load"));
    to.load.value *= m * m * m;
}

// Three numbers, lengths where so said; absent leaves zeros.
bool read_triple(Fields& values, std::string_view key, bool is_length, std::array<double, 3>& to) {
    if (!values.has(key)) return false;
    const std::vector<std::uint32_t> nodes = values.array(key);
    if (nodes.size() != to.size()) {
        values.wrong_type(key, "a list of three numbers");
        return true;
    }
    for (std::size_t i = 0; i < to.size(); ++i) to[i] = values.number_at(nodes[i], key, is_length);
    return true;
}

// The ellipsoid by its name, or its two figures.
void read_ellipsoid(Fields& values, ProjectionRule& to) {
    to.ellipsoid = values.name("ellipsoid");
    to.a = values.positive_length("a");
    to.inverse_flattening = above_zero(values, "inverse_flattening", values.number("inverse_flattening"));
    EntryContext& context = values.context();
    if (to.ellipsoid != no_name) {
        const std::string_view name = context.book.names.text(to.ellipsoid);
        const preset::Ellipsoid* known = preset::find_ellipsoid(name);
        if (known == nullptr)
            return context.refuse(
                Code::OutOfRange, "values.ellipsoid: " + std::string(name) + " is not known",
                "take one of " + preset::ellipsoid_names() + ", or give a and inverse_flattening instead");
        if (to.a.has() || to.inverse_flattening.has())
            return context.refuse(Code::ValueTwice, "the ellipsoid is given by its name and by figures",
                                  "keep its name, or a and inverse_flattening");
        to.a = {known->a};
        to.inverse_flattening = {known->inverse_flattening};
    }
    constexpr double least_inverse = 100, least_a = 1e6, most_a = 1e7;
    if (!to.a.has() || !to.inverse_flattening.has())
        return context.refuse(
            Code::MissingField, "values.ellipsoid is missing",
            "name one of " + preset::ellipsoid_names() + ", or give a and inverse_flattening");
    if (to.a.value < least_a || to.a.value > most_a) values.out_of_range("a", "the size of the Earth");
    if (to.inverse_flattening.value < least_inverse) values.out_of_range("inverse_flattening", "100 or more");
}

void read_projection(Fields& values, ProjectionRule& to) {
    constexpr double pole = 90, round = 180;
    values.choice("method", {"transverse-mercator"});
    read_ellipsoid(values, to);
    for (const auto& [key, limit, field] :
         {std::tuple("latitude", pole, &to.latitude), std::tuple("longitude", round, &to.longitude)}) {
        *field = values.number(key);
        if (!field->has()) {
            values.context().refuse(Code::MissingField, std::string("values.") + key + " is missing",
                                    "give the natural origin in degrees");
        } else if (std::fabs(field->value) > limit) {
            values.out_of_range(key, limit == pole ? "from -90 to 90 degrees" : "from -180 to 180 degrees");
        }
    }
    constexpr double least_scale = 0.9, most_scale = 1.1;
    to.scale = values.number_or("scale", 1);
    if (!(to.scale >= least_scale && to.scale <= most_scale)) values.out_of_range("scale", "0.9 to 1.1");
    to.false_east = values.length_or("false_east", 0);
    to.false_north = values.length_or("false_north", 0);
    to.shifted = read_triple(values, "shift", true, to.shift);
    to.shifted = read_triple(values, "turn", false, to.turn) || to.shifted;
    to.shifted = values.has("ppm") || to.shifted;
    to.ppm = values.number_or("ppm", 0);
}

}  // namespace

// Positive the way the water runs: what is called a fall is one, whatever its sign along the line.
Maybe read_fall(Fields& fields, std::string_view key) {
    const Maybe value = fields.gradient(key);
    const std::uint32_t node = fields.given(key);
    if (node == 0 || !value.has()) return value;
    const Node& written = fields.context().record.node(node);
    if (written.type != NodeType::Text) return value;
    return {as_fall(Gradient::ratio(value.value), fields.context().record.text(written)).ratio()};
}

void read_rule(Fields& fields, Rule& to) {
    to.name = fields.required_name("name");
    to.preset = fields.name("preset");
    if (!fields.has("values")) return;
    const std::uint32_t node = fields.take("values");
    if (fields.context().record.node(node).type != NodeType::Object)
        return fields.wrong_type("values", "object");
    Fields values(fields.context(), node, "values");
    const std::string_view name = fields.context().book.names.text(to.name);
    if (name == "misclosure") {
        const int by = values.choice("by", {"sets", "km", "model"});
        to.by = by < 0 ? no_name : values.name("by");
        to.a = values.positive_length("a");
    } else if (name == "assumed-sight") {
        to.d = values.positive_length("d");
    } else if (name == "confidence") {
        to.p = values.number("p");
        if (to.p.has() && !(to.p.value > 0.5 && to.p.value < 1))
            fields.context().refuse(Code::OutOfRange, "p must be between 0.5 and 1");
    } else if (name == "refraction") {
        to.k = values.number("k");
    } else if (name == "expectation") {
        to.sd = values.sd("sd");
    } else if (name == "suspect-priors") {
        read_priors(fields.context(), node, values, to);
    } else if (name == "hydraulics") {
        read_hydraulics(values, to.hydraulics);
    } else if (name == "cautions") {
        read_cautions(values, to.cautions);
    } else if (is_rule(name, "cover")) {
        to.pipelay.least = values.thickness("least");
    } else if (is_rule(name, "trench")) {
        read_trench(values, to.pipelay);
    } else if (is_rule(name, "spoil")) {
        read_spoil(values, to.pipelay);
    } else if (name == "projection") {
        read_projection(values, to.projection);
    } else {
        return;  // of a later version, or read where it is used
    }
    values.unknown();
}

}  // namespace fallwright
