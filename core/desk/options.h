// options: what a request asks for, as a person types it: numbers, or text with its unit.
//
// Every getter returns nothing where the option is absent, and records the first thing wrong as the request's
// finding.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <vector>

#include "base/finding.h"
#include "quantity/discharge.h"
#include "quantity/gradient.h"
#include "quantity/length.h"

namespace fallwright::desk {

// Pure reading: it knows no verb. Whoever uses it asks for what its verb needs, then looks at fault() once.
class Options {
  public:
    // The object must outlive this.
    explicit Options(const nlohmann::json& object);

    // A unit named by the option "unit", else metres, or what the caller assumes.
    Unit unit();
    // Of numbers and texts that name none, from here on: a book's.
    void assume(Unit unit) { assumed_ = unit; }
    // A number is in that unit; text names its own or takes that one.
    std::optional<Length> length(const char* name);
    // With its uncertainty, where the text gives one.
    std::optional<Measured> measured(const char* name);
    // Text that begins with a letter, such as a name where a figure could stand too; absent for all else.
    std::optional<std::string> word(const char* name) const;
    // A figure without a unit: a number, or text of a bare figure.
    bool bare(const char* name) const;
    std::optional<Discharge> discharge(const char* name);
    std::optional<Velocity> velocity(const char* name);
    // Text with a % as a share of a whole: 0.75; absent for any other text.
    std::optional<double> share(const char* name);
    // Positive the way the water runs; a number is a ratio.
    std::optional<Gradient> fall(const char* name);
    // A number is a ratio.
    std::optional<Gradient> gradient(const char* name);
    // Lists; empty where the option is absent.
    std::vector<Length> lengths(const char* name);
    std::vector<Length> chainages(const char* name);
    // Names; anything but text in the list is a fault.
    std::vector<std::string> texts(const char* name);
    // A plain number: a count, degrees of temperature.
    std::optional<double> number(const char* name);
    // Plain text and switches.
    std::optional<std::string> text(const char* name);
    bool flag(const char* name);
    // Given and not null.
    bool has(const char* name) const;

    // Only the first fault is kept: a request is refused for one reason at a time.
    void refuse(Finding found);
    const std::optional<Finding>& fault() const { return fault_; }

  private:
    // A number through from_number, text through parse; anything else is a fault.
    template <class T, class Parse, class FromNumber>
    std::optional<T> typed(const nlohmann::json& value, const char* name, Parse parse,
                           FromNumber from_number);
    template <class Parse>
    std::vector<Length> list(const char* name, Parse parse);

    const nlohmann::json& object_;
    std::optional<Finding> fault_;  // the first
    Unit assumed_ = Unit::Metre;
};

}  // namespace fallwright::desk
