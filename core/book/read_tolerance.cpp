#include "book/read_tolerance.h"

#include "book/read_rule.h"

namespace fallwright {

namespace {

constexpr double millimetres = 1000;  // in a metre

// One name, or a list of them.
std::vector<NameId> read_presets(Fields& fields) {
    if (!fields.has("preset")) return {};
    const Record& record = fields.context().record;
    if (record.node(fields.take("preset")).type == NodeType::Array) return fields.names("preset");
    const NameId name = fields.name("preset");
    return name == no_name ? std::vector<NameId>() : std::vector<NameId>{name};
}

// Pairs [distance of the high spots, gap], by rising distance; not rounded, as those of a preset are.
void read_gaps(Fields& fields, preset::FlatnessCriterion& to) {
    constexpr int micrometres = 3;
    to.places = micrometres;
    for (const std::array<double, 2>& pair : fields.length_pairs("gaps")) {
        const bool rises = to.count == 0 || pair[0] > to.limits.at(to.count - 1).base;
        if (!rises || pair[0] <= 0 || pair[1] <= 0 || to.count == to.limits.size()) {
            fields.out_of_range("gaps", "up to five pairs [distance, gap] by rising distance, above 0");
            return;
        }
        to.limits.at(to.count++) = {pair[0], pair[1] * millimetres};
    }
}

void read_evenness(Fields& fields, EvennessLimits& to) {
    to.gap = fields.positive_length("gap");
    to.over = fields.positive_length("over");
    read_gaps(fields, to.gaps);
    for_each_object(fields, "irregularities", [&to](Fields& each) {
        IrregularityLimit limit;
        limit.size = each.positive_length("size").or_else(0);
        limit.length = each.positive_length("length").or_else(0);
        limit.most = each.number_or("most", -1);
        const bool whole = each.context().ok && limit.size > 0 && limit.length > 0;
        if (!whole || limit.most < 0)
            each.context().refuse(Code::MissingField,
                                  each.path("most") + ": size, length and most, 0 or more");
        to.irregularities.push_back(limit);
    });
}

}  // namespace

void read_tolerance(Fields& fields, Tolerance& to) {
    to.line = fields.required_name("line");
    to.presets = read_presets(fields);
    to.what = to.presets.empty() ? fields.required_name("what") : fields.name("what");
    read_evenness(fields, to.even);
    to.below = fields.length("below");
    to.above = fields.length("above");
    to.fall_min = read_fall(fields, "fall_min");
    to.fall_max = read_fall(fields, "fall_max");
    to.source = fields.name("source");
    if (to.below.has() && to.below.value > 0)
        fields.context().refuse(Code::OutOfRange, "below must be 0 or negative");
    if (to.above.has() && to.above.value < 0)
        fields.context().refuse(Code::OutOfRange, "above must be 0 or more");
}

}  // namespace fallwright
