#include "record/figure_words.h"

#include <cmath>

#include "base/print.h"
#include "quantity/gradient.h"

namespace fallwright::record {

namespace {

constexpr double thousand = 1000;
constexpr double short_size = 1;  // metres: below it people say millimetres

}  // namespace

std::string level_words(const Book& book, double metres) {
    return std::isnan(metres) ? "" : fixed(book.in_unit(metres), 3);
}

std::string size_words(const Book& book, double metres) {
    if (std::isnan(metres)) return "";
    if (book.unit == Unit::Foot) return fixed(book.in_unit(metres), 3) + " ft";
    return std::fabs(metres) < short_size ? trimmed(metres * thousand, 1) + " mm" : fixed(metres, 3) + " m";
}

std::string difference_words(const Book& book, double metres) {
    if (std::isnan(metres)) return "";
    const bool feet = book.unit == Unit::Foot;
    const int places = feet ? 3 : 1;
    const double value = feet ? book.in_unit(metres) : metres * thousand;
    const std::string text = fixed(value, places);
    return rounded_to(value, places) > 0 ? "+" + text : text;
}

std::string short_difference_words(const Book& book, double metres) {
    const double value = book.unit == Unit::Foot ? book.in_unit(metres) : metres * thousand;
    const std::string text = trimmed(value, 3);
    return rounded_to(value, 3) > 0 ? "+" + text : text;
}

std::string difference_unit(const Book& book) {
    return book.unit == Unit::Foot ? "ft" : "mm";
}

std::string unit_words(const Book& book) {
    return book.unit == Unit::Foot ? "ft" : "m";
}

std::string short_words(const Book& book, double metres) {
    return trimmed(book.in_unit(metres), 3);
}

std::string fall_words(double ratio) {
    const Gradient gradient = Gradient::ratio(std::fabs(ratio));
    std::string one_in = all_ways(gradient, 4).one_in;
    if (one_in == "level") return one_in;
    return one_in.substr(0, one_in.rfind(' ')) + " (" + all_ways(gradient, 3).percent + ")";
}

sheet::Mark mark_of(const Judgement& judged, double deviation) {
    switch (judged.verdict) {
        case Verdict::Within:
            return sheet::Mark::OnBar;
        case Verdict::Outside:
            return deviation > 0 ? sheet::Mark::DigWedge : sheet::Mark::FillWedge;
        case Verdict::Undecided:
            return sheet::Mark::Undecided;
        case Verdict::Untested:
            break;
    }
    return sheet::Mark::Spot;
}

sheet::Ink ink_of(const Judgement& judged, double deviation) {
    if (judged.verdict != Verdict::Outside) return sheet::Ink::Line;
    return deviation > 0 ? sheet::Ink::Dig : sheet::Ink::Fill;
}

std::string word_of(const Judgement& judged, double deviation) {
    switch (judged.verdict) {
        case Verdict::Within:
            return "within";
        case Verdict::Outside:
            return deviation > 0 ? "HIGH" : "LOW";
        case Verdict::Undecided:
            return "too close to call";
        case Verdict::Untested:
            break;
    }
    return "";
}

}  // namespace fallwright::record
