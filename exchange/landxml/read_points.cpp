#include "exchange/handover/plain_number.h"
#include "exchange/landxml/context.h"

namespace fallwright::landxml {

namespace {

using handover::Point;
using handover::Standing;
using xml::Element;

bool is_held(const std::string& survey) {
    return survey == "control" || survey == "monument" || survey == "reference";
}

// The uncertainty that we write ourselves; other programs have no word for it.
double sd_of(Context& context, const Element& element) {
    const xml::XmlDocument& document = context.document;
    for (const Element* each = document.first(element); each != nullptr; each = document.next(*each)) {
        if (each->name != "Feature" || context.text(*each, "code") != "fallwright") continue;
        const Element* property = document.child(*each, "Property");
        if (property != nullptr && context.text(*property, "label") == "sd")
            return context.number(*property, "value", context.scale.linear);
    }
    return handover::unknown;
}

void read_point(Context& context, const Element& element, handover::Handover& to) {
    if (element.text.empty() && context.document.attribute(element, "pntRef")) return;
    const auto place = context.place(element);
    if (!place) return;
    Point point;
    point.name = context.text(element, "name");
    point.e = place->e;
    point.n = place->n;
    point.level = place->level;
    point.note = context.text(element, "desc");
    point.line = element.line;
    point.sd = sd_of(context, element);
    if (context.text(element, "state") == "proposed")
        point.standing = Standing::Wanted;
    else if (is_held(context.text(element, "pntSurv")))
        point.standing = Standing::Held;
    to.points.push_back(std::move(point));
}

}  // namespace

// Lists may hold lists; how deep, the document's limit says.
void read_points(Context& context, const Element& points, handover::Handover& to) {
    for (const Element* each = context.document.first(points); each != nullptr;
         each = context.document.next(*each)) {
        if (each->name == "CgPoint") read_point(context, *each, to);
        if (each->name == "CgPoints") read_points(context, *each, to);
    }
}

}  // namespace fallwright::landxml
