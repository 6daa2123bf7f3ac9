#include <algorithm>
#include <array>
#include <initializer_list>

#include "book/read_entry.h"

namespace fallwright {

namespace {

Decimal decimal(Fields& fields, std::string_view key) {
    return Decimal::metres(fields.length_or(key, 0));
}

// How many of the keys are given.
int given(Fields& fields, std::initializer_list<std::string_view> keys) {
    int count = 0;
    for (const std::string_view key : keys) count += fields.has(key) ? 1 : 0;
    return count;
}

void read_deviation(Fields& fields, Figure& figure) {
    if (fields.has("high") && fields.has("low")) {
        fields.context().refuse(Code::HighAndLow, "high and low are given together");
        return;
    }
    const std::string_view key = fields.has("high") ? "high" : fields.has("low") ? "low" : "offset";
    figure.deviation = key == "high" ? Deviation::High : key == "low" ? Deviation::Low : Deviation::Offset;
    figure.b = decimal(fields, key);
    if (figure.deviation != Deviation::Offset && figure.b < Decimal()) {
        fields.context().refuse(Code::OutOfRange, std::string(key) + " must be 0 or more",
                                "say low instead of a negative high, or the reverse");
    }
}

// A negative figure means the staff is held upside down; the figure itself is kept positive.
void set_figure(Figure& figure, Decimal value) {
    figure.inverted = figure.inverted || value < Decimal();
    figure.a = value < Decimal() ? -value : value;
}

void read_wires(Fields& fields, Figure& figure) {
    for (const std::string_view wire : {"top", "staff", "bottom"}) {
        if (!fields.has(wire))
            fields.context().refuse(Code::NoValue, "of three wires " + std::string(wire) + " is missing");
    }
    const std::array<Decimal, 3> wires = {decimal(fields, "top"), decimal(fields, "staff"),
                                          decimal(fields, "bottom")};
    const auto [least, most] = std::minmax_element(wires.begin(), wires.end());
    if (*least < Decimal() && *most > Decimal()) {
        fields.context().refuse(Code::WireOrder, "the three wires lie on both sides of 0",
                                "write all three negative, or none");
    }
    const auto magnitude = [](Decimal value) { return value < Decimal() ? -value : value; };
    figure.inverted = figure.inverted || *least < Decimal();
    figure.a = magnitude(wires[0]);
    figure.b = magnitude(wires[1]);
    figure.c = magnitude(wires[2]);
}

}  // namespace

Figure read_figure(Fields& fields) {
    Figure figure;
    figure.inverted = fields.flag("inverted");
    const bool wires = given(fields, {"top", "bottom"}) > 0;
    const bool staff = fields.has("staff");
    const bool mark = fields.has("mark");
    const int deviations = given(fields, {"high", "low", "offset"});
    if (fields.has("high") && fields.has("low")) {
        read_deviation(fields, figure);
    } else if (deviations > 1 || (staff && (mark || deviations > 0)) || (wires && (mark || deviations > 0))) {
        fields.context().refuse(Code::ValueTwice, "the value is given twice");
    } else if (wires) {
        figure.form = Form::ThreeWires;
        read_wires(fields, figure);
    } else if (staff) {
        figure.form = Form::Staff;
        set_figure(figure, decimal(fields, "staff"));
    } else if (mark && deviations == 1) {
        figure.form = Form::Mark;
        set_figure(figure, decimal(fields, "mark"));
        read_deviation(fields, figure);
    } else if (mark) {
        fields.context().refuse(Code::NoValue, "a mark without what the receiver shows",
                                "give high, low or offset; on grade is offset 0");
    } else if (fields.has("offset")) {
        fields.context().refuse(Code::NoValue, "an offset without the mark",
                                "give the mark, or high or low at the clamp");
    } else if (deviations == 1) {
        figure.form = Form::Clamp;
        read_deviation(fields, figure);
    }
    return figure;
}

}  // namespace fallwright
