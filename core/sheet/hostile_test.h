// hostile_test: texts that want out of their place, and random figures, for tests. Inside sheet only.
#pragma once

#include <rapidcheck.h>

#include <string>

#include "sheet/figure.h"

namespace fallwright::sheet {

inline rc::Gen<std::string> hostile_text() {
    return rc::gen::join(rc::gen::element(
        rc::gen::element<std::string>("</text>", "</td><script>alert(1)</script>", "\" onload=\"x", "&#0;",
                                      "]]>", "<!--", "a\nb\tc", "\xc2\xb1", "\xff\xfe", "\xed\xa0\x80",
                                      "' or '1", "&amp;",
                                      "\xe2\x80\xae"
                                      "50",
                                      "plain 1.432", "=HYPERLINK(1)", ""),
        rc::gen::string<std::string>()));
}

inline rc::Gen<At> place_on(double width, double height) {
    const auto share = [](double of) {
        return rc::gen::map(rc::gen::inRange(0, 1001), [of](int k) { return of * k / 1000; });
    };
    return rc::gen::apply([](double x, double y) { return At{x, y}; }, share(width), share(height));
}

inline Label label_at(At at, std::string text, double turn) {
    Label label;
    label.at = at;
    label.text = std::move(text);
    label.turn = turn;
    label.cleared = turn == 90;
    return label;
}

// A figure of all kinds of items, their points within its paper.
inline Figure random_figure() {
    Figure figure;
    figure.width = *rc::gen::inRange(10, 400);
    figure.height = *rc::gen::inRange(10, 400);
    figure.title = *hostile_text();
    figure.said = *hostile_text();
    const auto place = place_on(figure.width, figure.height);
    const int count = *rc::gen::inRange(0, 12);
    for (int k = 0; k < count; ++k) {
        const auto ink = static_cast<Ink>(*rc::gen::inRange(0, 8));
        const std::string about = *hostile_text();
        const auto add = [&](auto what) { figure.items.push_back({what, about}); };
        switch (*rc::gen::inRange(0, 5)) {
            case 0:
                add(Polyline{*rc::gen::container<std::vector<At>>(3, place),
                             {0.25, ink, static_cast<Dash>(*rc::gen::inRange(0, 4))},
                             *rc::gen::arbitrary<bool>()});
                break;
            case 1:
                add(Area{*rc::gen::container<std::vector<At>>(5, place),
                         {},
                         ink,
                         static_cast<Pattern>(*rc::gen::inRange(0, 7))});
                break;
            case 2:
                add(Arc{*place, 1, 0, 1.0 * *rc::gen::inRange(-400, 400), {0.25, ink, Dash::Solid}});
                break;
            case 3:
                add(label_at(*place, *hostile_text(), *rc::gen::element(0, 90, 17)));
                break;
            default:
                add(Symbol{*place, static_cast<Mark>(*rc::gen::inRange(0, 12)), 2.5, 0, ink});
        }
    }
    return figure;
}

}  // namespace fallwright::sheet
