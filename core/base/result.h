// Result: a value, or the one finding that says why there is none.
//
// User errors are values of this type; programmer errors are assertions. Nothing in core throws across its
// border.
#pragma once

#include <cassert>
#include <utility>
#include <variant>

#include "base/finding.h"

namespace fallwright {

// Example:
//   Result<Gradient> fall = parse_gradient("1 in 80 fall");
//   if (!fall) return fall.finding();
//   use(fall->ratio());

template <class T>
class Result {
  public:
    Result(T value) : held_(std::in_place_index<0>, std::move(value)) {}
    Result(Finding finding) : held_(std::in_place_index<1>, std::move(finding)) {}

    explicit operator bool() const { return held_.index() == 0; }

    // Only where operator bool is true.
    const T& operator*() const { return std::get<0>(held_); }
    T& operator*() { return std::get<0>(held_); }
    const T* operator->() const { return &std::get<0>(held_); }
    T* operator->() { return &std::get<0>(held_); }

    // Only where operator bool is false.
    const Finding& finding() const { return std::get<1>(held_); }

  private:
    std::variant<T, Finding> held_;
};

}  // namespace fallwright
