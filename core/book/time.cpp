#include "book/time.h"

namespace fallwright {

namespace {

// A cursor over fixed-width digits; `ok` turns false on the first thing that does not fit.
struct Cursor {
    std::string_view text;
    std::size_t at = 0;
    bool ok = true;

    int digits(int count) {
        int value = 0;
        for (int i = 0; i < count; ++i, ++at) {
            if (at >= text.size() || text[at] < '0' || text[at] > '9') {
                ok = false;
                return 0;
            }
            value = value * 10 + (text[at] - '0');
        }
        return value;
    }
    void one_of(std::string_view allowed) {
        if (at < text.size() && allowed.find(text[at]) != std::string_view::npos) {
            ++at;
        } else {
            ok = false;
        }
    }
    bool is(char c) const { return at < text.size() && text[at] == c; }
};

// Days since 1970-01-01 of a date of the Gregorian calendar (era arithmetic on years that begin in March).
std::int64_t days_of(int year, int month, int day) {
    const std::int64_t y = month <= 2 ? year - 1 : year;
    const std::int64_t era = (y >= 0 ? y : y - 399) / 400;
    const std::int64_t year_of_era = y - era * 400;
    const std::int64_t day_of_year = (153 * (month + (month > 2 ? -3 : 9)) + 2) / 5 + day - 1;
    return era * 146097 + year_of_era * 365 + year_of_era / 4 - year_of_era / 100 + day_of_year - 719468;
}

// The reverse.
struct Date {
    std::int64_t year;
    int month, day;
};
Date date_of(std::int64_t days) {
    const std::int64_t z = days + 719468;
    const std::int64_t era = (z >= 0 ? z : z - 146096) / 146097;
    const std::int64_t day = z - era * 146097;
    const std::int64_t year = (day - day / 1460 + day / 36524 - day / 146096) / 365;
    const auto of_year = static_cast<int>(day - (365 * year + year / 4 - year / 100));
    const int month = (5 * of_year + 2) / 153;
    const int calendar = month < 10 ? month + 3 : month - 9;
    return {year + era * 400 + (calendar <= 2 ? 1 : 0), calendar, of_year - (153 * month + 2) / 5 + 1};
}

std::string padded(std::int64_t value, std::size_t width) {
    std::string digits = std::to_string(value);
    return digits.size() < width ? std::string(width - digits.size(), '0') + digits : digits;
}

int days_in(int year, int month) {
    if (month == 2) return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0) ? 29 : 28;
    return month == 4 || month == 6 || month == 9 || month == 11 ? 30 : 31;
}

std::int64_t fraction_micros(Cursor& cursor) {
    if (!cursor.is('.')) return 0;
    ++cursor.at;
    std::int64_t micros = 0;
    std::int64_t unit = 100000;
    const std::size_t first = cursor.at;
    while (cursor.at < cursor.text.size() && cursor.text[cursor.at] >= '0' && cursor.text[cursor.at] <= '9') {
        micros += unit * (cursor.text[cursor.at] - '0');
        unit /= 10;
        ++cursor.at;
    }
    if (cursor.at == first) cursor.ok = false;
    return micros;
}

int offset_minutes(Cursor& cursor) {
    if (cursor.is('Z') || cursor.is('z')) {
        ++cursor.at;
        return 0;
    }
    const int sign = cursor.is('-') ? -1 : 1;
    cursor.one_of("+-");
    const int hours = cursor.digits(2);
    cursor.one_of(":");
    const int minutes = cursor.digits(2);
    if (hours > 23 || minutes > 59) cursor.ok = false;
    return sign * (hours * 60 + minutes);
}

}  // namespace

std::optional<Instant> parse_time(std::string_view text) {
    Cursor cursor{text};
    const int year = cursor.digits(4);
    cursor.one_of("-");
    const int month = cursor.digits(2);
    cursor.one_of("-");
    const int day = cursor.digits(2);
    cursor.one_of("Tt ");
    const int hour = cursor.digits(2);
    cursor.one_of(":");
    const int minute = cursor.digits(2);
    cursor.one_of(":");
    const int second = cursor.digits(2);
    const std::int64_t micros = fraction_micros(cursor);
    const int offset = offset_minutes(cursor);
    if (!cursor.ok || cursor.at != text.size() || month < 1 || month > 12 || hour > 23 || minute > 59 ||
        second > 60)
        return {};
    if (day < 1 || day > days_in(year, month)) return {};
    const std::int64_t minutes = days_of(year, month, day) * 1440 + std::int64_t{hour} * 60 + minute - offset;
    return (minutes * 60 + second) * 1000000 + micros;
}

std::string format_time(Instant at) {
    if (at == before_all) return "";
    constexpr std::int64_t second = 1000000;
    constexpr std::int64_t day = 86400 * second;
    const std::int64_t days = at >= 0 ? at / day : -((-at + day - 1) / day);
    const std::int64_t rest = at - days * day;
    const Date date = date_of(days);
    std::string fraction = padded(rest % second, 6);
    fraction.erase(fraction.find_last_not_of('0') + 1);
    const std::int64_t seconds = rest / second;
    return padded(date.year, 4) + "-" + padded(date.month, 2) + "-" + padded(date.day, 2) + "T" +
           padded(seconds / 3600, 2) + ":" + padded(seconds / 60 % 60, 2) + ":" + padded(seconds % 60, 2) +
           (fraction.empty() ? "" : "." + fraction) + "Z";
}

}  // namespace fallwright
