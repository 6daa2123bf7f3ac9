#include <algorithm>
#include <cmath>

#include "drain/trench.h"
#include "preset/bulking.h"

namespace fallwright::drain {

namespace {

constexpr std::string_view usual_metric = "trench-en-1610-supported";
constexpr std::string_view usual_feet = "trench-astm-d2321";

class RuleReader {
  public:
    RuleReader(const Book& book, const LineEntry& line, Findings& findings)
        : book_(book), line_(line), findings_(findings) {}

    TrenchRule read() {
        const Rule* rule = rule_for(book_, "trench", line_);
        if (rule != nullptr) take_width(*rule);
        if (rule_.preset == nullptr && std::isnan(rule_.width))
            take(*preset::find_trench_width(book_.unit == Unit::Foot ? usual_feet : usual_metric));
        if (const Rule* spoil = rule_for(book_, "spoil", line_)) take_spoil(*spoil);
        return std::move(rule_);
    }

  private:
    void take_width(const Rule& rule) {
        rule_.batter = rule.pipelay.batter.or_else(rule_.batter);
        rule_.surround = rule.pipelay.surround.or_else(rule_.surround);
        if (rule.pipelay.width.has()) {
            rule_.width = rule.pipelay.width.value;
            rule_.name = book_.name(rule.name);
        } else if (rule.preset != no_name) {
            const std::string_view name = book_.names.text(rule.preset);
            const preset::TrenchWidthPreset* found = preset::find_trench_width(name);
            if (found == nullptr) return unknown(rule, "trench", name);
            take(*found);
        }
    }

    void take(const preset::TrenchWidthPreset& found) {
        rule_.preset = &found;
        rule_.name = found.name;
    }

    void take_spoil(const Rule& rule) {
        rule_.load = rule.pipelay.load.value;
        if (rule.pipelay.bulking.has()) {
            rule_.bulking = rule.pipelay.bulking.value;
            rule_.material = book_.name(rule.name);
        } else if (rule.preset != no_name) {
            const std::string_view name = book_.names.text(rule.preset);
            const preset::BulkingPreset* found = preset::find_bulking(name);
            if (found == nullptr) return unknown(rule, "spoil", name);
            rule_.bulking = found->ratio;
            rule_.material = found->material;
        }
    }

    void unknown(const Rule& rule, std::string_view of, std::string_view name) {
        std::string text(of);
        text.append(" preset ").append(name).append(" is not known");
        findings_.push_back(finding(Code::UnknownPreset, {book_.id_of(rule.entry)}, text));
    }

    const Book& book_;
    const LineEntry& line_;
    Findings& findings_;
    TrenchRule rule_;
};

}  // namespace

double TrenchRule::least_width(const Pipe& pipe, double depth) const {
    const double bore = pipe.bore.or_else(0);
    const double outside = bore + 2 * pipe.wall.or_else(0);
    return std::max(outside, preset != nullptr ? preset->least(bore, outside, depth) : width);
}

void say_from_memory(const TrenchRule& rule, Findings& findings) {
    if (rule.preset == nullptr || rule.preset->source.provenance != preset::Provenance::FromMemory) return;
    std::string text = "preset ";
    text.append(rule.name).append(" is from memory, not confirmed: its widths are a hint");
    findings.push_back(finding(Code::PresetFromMemory, {rule.name}, text));
}

TrenchRule trench_rule(const Book& book, const LineEntry& line, Findings& findings) {
    return RuleReader(book, line, findings).read();
}

}  // namespace fallwright::drain
