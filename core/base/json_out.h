// JsonOut: writes JSON as a stream into one string, numbers by the printing rule (base/print.h).
//
// A tree of a large result would cost kilobytes a reading; a stream costs the bytes written. Keys are written
// in the order of the calls, so that equal results are equal bytes. Unbalanced calls are programmer errors.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <utility>

namespace fallwright {

// Example:
//   JsonOut out;
//   out.begin_object().text("point", "A").number("level", 50.25, length_places).end_object();
//   out.take() is {"point":"A","level":50.25}
class JsonOut {
  public:
    // Where finished pieces go; called with 64 KB or so at a time, in order.
    using Sink = std::function<void(std::string_view)>;

    JsonOut() = default;
    // Nothing is kept but the last piece, which take() returns.
    explicit JsonOut(Sink sink) : sink_(std::move(sink)) {}

    JsonOut& begin_object();
    JsonOut& end_object();
    JsonOut& begin_array();
    JsonOut& end_array();
    // Member name, one of ours: nothing in it needs escaping. Must be followed by exactly one value, object
    // or array.
    JsonOut& key(std::string_view name);
    // The same of a name that somebody gave: of any length, escaped.
    JsonOut& own_key(std::string_view name);

    // Values. text escapes what JSON needs escaped; raw is taken as it is.
    JsonOut& text(std::string_view value);
    JsonOut& boolean(bool value);
    JsonOut& integer(long long value);
    JsonOut& null();
    // `places` decimals at most, trailing zeros dropped; not finite writes null.
    // Numbers follow the printing rule, so equal values are equal bytes in every build.
    JsonOut& number(double value, int places);
    JsonOut& figures(double value, int figures);
    // A finished piece of JSON, as it is.
    JsonOut& raw(std::string_view json);

    // key + value in one call: the usual way to write a member. A number's places are those of base/print.h:
    // length_places, gradient_places, probability_places; figures are significant_figures.
    JsonOut& text(std::string_view name, std::string_view value) { return key(name).text(value); }
    JsonOut& boolean(std::string_view name, bool value) { return key(name).boolean(value); }
    JsonOut& integer(std::string_view name, long long value) { return key(name).integer(value); }
    JsonOut& null(std::string_view name) { return key(name).null(); }
    JsonOut& number(std::string_view name, double value, int places) {
        return key(name).number(value, places);
    }
    JsonOut& figures(std::string_view name, double value, int count) {
        return key(name).figures(value, count);
    }

    // What was written; the writer is empty afterwards.
    std::string take();

  private:
    // A place for a value of so many bytes at most, behind a comma where one is due; the piece before it has
    // gone to the sink if it was due. Whoever takes the place says with wrote() where what it put there ends.
    char* place(std::size_t size);
    void wrote(const char* end) { used_ = static_cast<std::size_t>(end - out_.data()); }
    void put(char sign);
    JsonOut& open(char bracket);
    JsonOut& close(char bracket);

    std::string out_;       // room; what was written and has not gone to the sink is its first part
    std::size_t used_ = 0;  // of out_
    Sink sink_;
    bool first_ = true;  // no comma is due before the next value
};

// Appends value as a JSON string with its quotes; control characters, quotes and backslashes escaped.
void append_json_string(std::string& out, std::string_view value);

}  // namespace fallwright
