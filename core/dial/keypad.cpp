#include "dial/keypad.h"

#include <cmath>

#include "base/print.h"

namespace fallwright {

namespace {

constexpr double percent = 100;
constexpr double permille = 1000;

double unit_of(const Keypad& keypad) {
    return keypad.permille ? permille : percent;
}
double main_sign(const Keypad& keypad) {
    return keypad.main_plus_rises ? 1 : -1;
}
// A rise to the right is a fall to the left.
double cross_sign(const Keypad& keypad) {
    return keypad.cross_plus_rises == keypad.cross_right ? 1 : -1;
}

double nesting(double main, const Keypad& keypad) {
    return keypad.nested ? std::sqrt(1 + main * main) : 1;
}

double stepped(double tangent, double step) {
    return step > 0 ? rounded_to(tangent / step, 0) * step : tangent;
}

}  // namespace

Axes tangents_for(const Axes& grades, const Keypad& keypad) {
    return {grades.main, grades.cross / nesting(grades.main, keypad)};
}

Axes grades_of(const Axes& tangents, const Keypad& keypad) {
    return {tangents.main, tangents.cross * nesting(tangents.main, keypad)};
}

Axes to_step(const Axes& tangents, double step) {
    return {stepped(tangents.main, step), stepped(tangents.cross, step)};
}

Axes as_keyed(const Axes& tangents, const Keypad& keypad) {
    const double unit = unit_of(keypad);
    return {main_sign(keypad) * tangents.main * unit, cross_sign(keypad) * tangents.cross * unit};
}

Axes from_keyed(const Axes& keyed, const Keypad& keypad) {
    const double unit = unit_of(keypad);
    return {main_sign(keypad) * keyed.main / unit, cross_sign(keypad) * keyed.cross / unit};
}

std::string_view keypad_unit(const Keypad& keypad) {
    return keypad.permille ? "permille" : "%";
}

int keypad_places(const Keypad& keypad, double step) {
    const int finest = keypad.permille ? gradient_places - 3 : gradient_places - 2;
    if (step <= 0) return finest;
    double shown = step * unit_of(keypad);
    for (int places = 0; places < finest; ++places) {
        if (rounded_to(shown, 6) == rounded_to(shown, 0)) return places;
        shown *= 10;
    }
    return finest;
}

}  // namespace fallwright
