// figure_check: what must hold for every figure, worked out from its items alone. Inside record only.
//
// For tests. Each check answers with what it found wrong, in words that name the figure and the label, so
// that a property that fails says where to look; "" is well.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <variant>
#include <vector>

#include "sheet/figure.h"
#include "sheet/type.h"

namespace fallwright::record {

// In painting order; they point into the figure.
inline std::vector<const sheet::Label*> labels_of(const sheet::Figure& figure) {
    std::vector<const sheet::Label*> labels;
    for (const sheet::Item& item : figure.items) {
        if (const auto* label = std::get_if<sheet::Label>(&item.what)) labels.push_back(label);
    }
    return labels;
}

// The first two labels whose boxes meet; "" where none do.
inline std::string overlapping_labels(const sheet::Figure& figure) {
    const std::vector<const sheet::Label*> labels = labels_of(figure);
    constexpr double hair_breadth = 1e-9;  // labels may touch
    for (std::size_t i = 0; i < labels.size(); ++i) {
        sheet::Box box = sheet::box_of(*labels[i]);
        box = {box.left + hair_breadth, box.top + hair_breadth, box.right - hair_breadth,
               box.bottom - hair_breadth};
        for (std::size_t k = 0; k < i; ++k) {
            if (box.meets(sheet::box_of(*labels[k])))
                return figure.title + ": " + labels[k]->text + " | " + labels[i]->text;
        }
    }
    return "";
}

// All corners of an item.
inline std::vector<sheet::At> corners_of(const sheet::Item& item) {
    std::vector<sheet::At> all;
    if (const auto* line = std::get_if<sheet::Polyline>(&item.what)) all = line->points;
    if (const auto* area = std::get_if<sheet::Area>(&item.what)) {
        all = area->outline;
        for (const auto& hole : area->holes) all.insert(all.end(), hole.begin(), hole.end());
    }
    if (const auto* arc = std::get_if<sheet::Arc>(&item.what)) {
        all = {{arc->centre.x - arc->radius, arc->centre.y - arc->radius},
               {arc->centre.x + arc->radius, arc->centre.y + arc->radius}};
    }
    if (const auto* label = std::get_if<sheet::Label>(&item.what)) {
        const sheet::Box box = sheet::box_of(*label);
        all = {{box.left, box.top}, {box.right, box.bottom}};
    }
    if (const auto* symbol = std::get_if<sheet::Symbol>(&item.what)) all = {symbol->at};
    return all;
}

// What first leaves the sheet, or is no number; "" where nothing does.
inline std::string off_the_sheet(const sheet::Figure& figure) {
    constexpr double slack = 0.05;
    for (const sheet::Item& item : figure.items) {
        for (const sheet::At& at : corners_of(item)) {
            const bool on = at.x >= -slack && at.y >= -slack && at.x <= figure.width + slack &&
                            at.y <= figure.height + slack;
            if (on) continue;
            const auto* label = std::get_if<sheet::Label>(&item.what);
            return figure.title + ": " +
                   (label != nullptr ? label->text : "item of kind " + std::to_string(item.what.index())) +
                   " at " + std::to_string(at.x) + ", " + std::to_string(at.y);
        }
    }
    return "";
}

// The first label that begins so; nullptr where none does.
inline const sheet::Label* label_that(const sheet::Figure& figure, const std::string& begins) {
    for (const sheet::Label* label : labels_of(figure)) {
        if (label->text.rfind(begins, 0) == 0) return label;
    }
    return nullptr;
}

}  // namespace fallwright::record
