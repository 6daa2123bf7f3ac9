#include "book/amend.h"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <string_view>

namespace fallwright {

namespace {

using Json = nlohmann::json;

class Settler {
  public:
    Settler(const Book& book, const EntryOfId& by_id) : book_(book), by_id_(by_id) {
        settled_.struck.assign(book.entries.size(), false);
        amends_of_.resize(book.entries.size());
    }

    Settled run() {
        for (std::size_t i = book_.entries.size(); i-- > 0;) settle(static_cast<std::uint32_t>(i));
        std::reverse(settled_.findings.begin(), settled_.findings.end());
        std::reverse(settled_.changes.begin(), settled_.changes.end());
        return std::move(settled_);
    }

  private:
    std::string_view text_of(std::uint32_t index) const {
        const auto changed = settled_.texts.find(index);
        if (changed != settled_.texts.end()) return changed->second;
        const Entry& entry = book_.entries[index];
        return std::string_view(book_.text).substr(entry.offset, entry.length);
    }

    void report(Code code, std::uint32_t index, std::string message) {
        settled_.findings.push_back(finding(code, {book_.id_of(index)}, std::move(message)));
    }

    void settle(std::uint32_t index) {
        const Entry& entry = book_.entries[index];
        if (settled_.struck[index]) return keep_undone(index);
        if (!amends_of_[index].empty()) apply_amends(index);
        if (entry.refused) return;
        if (entry.kind == Kind::Amend || entry.kind == Kind::Strike) send(index);
    }

    // Tells the entry that `of` names about this amend or strike.
    void send(std::uint32_t index) {
        const Json entry = Json::parse(text_of(index), nullptr, false);
        const bool strike = book_.entries[index].kind == Kind::Strike;
        for (const char* field : {"of", "why", "set"}) {
            const bool is_set = std::string_view(field) == "set";
            if (is_set && strike) continue;
            if (!entry.contains(field))
                return report(Code::MissingField, index, std::string(field) + " is missing");
            const bool right = is_set ? entry[field].is_object() : entry[field].is_string();
            if (!right)
                return report(Code::WrongType, index,
                              std::string(field) + (is_set ? " is no object" : " is no text"));
        }
        const std::int64_t target = find(entry["of"].get_ref<const std::string&>(), index);
        if (target < 0)
            return report(Code::UnknownOf, index,
                          "of: no entry above is called " + entry["of"].get<std::string>());
        if (strike && target == 0)
            return report(Code::UnknownOf, index, "the book's own line cannot be struck");
        BookChange& change = keep(index, static_cast<std::uint32_t>(target), entry);
        if (strike) {
            settled_.struck[change.of] = true;
            change.applied = true;
            keep_struck(change);
        } else {
            amends_of_[change.of].push_back(index);
        }
    }

    BookChange& keep(std::uint32_t index, std::uint32_t of, const Json& entry) {
        BookChange& change = settled_.changes.emplace_back();
        change.entry = index;
        change.of = of;
        change.strike = book_.entries[index].kind == Kind::Strike;
        if (entry.contains("why") && entry["why"].is_string()) change.why = entry["why"].get<std::string>();
        if (change.strike || !entry.contains("set") || !entry["set"].is_object()) return change;
        for (const auto& [field, value] : entry["set"].items())
            change.fields.push_back({field, "", value.is_null() ? "" : as_written(value)});
        return change;
    }

    void keep_struck(BookChange& change) const {
        change.before = std::string(text_of(change.of));
        const Json struck = Json::parse(change.before, nullptr, false);
        if (!struck.is_object()) return;
        for (const auto& [field, value] : struck.items()) {
            if (field != "kind" && field != "id" && field != "at" && field != "by")
                change.fields.push_back({field, as_written(value), ""});
        }
    }

    // One that was struck itself: told, though it does nothing.
    void keep_undone(std::uint32_t index) {
        const Kind kind = book_.entries[index].kind;
        if (book_.entries[index].refused || (kind != Kind::Amend && kind != Kind::Strike)) return;
        const Json entry = Json::parse(text_of(index), nullptr, false);
        if (!entry.is_object() || !entry.contains("of") || !entry["of"].is_string()) return;
        const std::int64_t target = find(entry["of"].get_ref<const std::string&>(), index);
        if (target >= 0) keep(index, static_cast<std::uint32_t>(target), entry).undone = true;
    }

    // What stood in the fields an amend is about to set.
    void keep_before(std::uint32_t amend, const Json& target) {
        const auto found = std::find_if(settled_.changes.begin(), settled_.changes.end(),
                                        [amend](const BookChange& change) { return change.entry == amend; });
        if (found == settled_.changes.end()) return;
        found->applied = true;
        for (BookChange::Field& field : found->fields) {
            if (target.contains(field.name)) field.before = as_written(target[field.name]);
        }
    }

    // Bytes that are no UTF-8 are replaced: a book may hold anything.
    static std::string as_written(const Json& value) {
        return value.dump(-1, ' ', false, Json::error_handler_t::replace);
    }

    std::int64_t find(const std::string& of, std::uint32_t below) const {
        if (!of.empty() && of[0] == '#') {
            const bool digits =
                of.size() > 1 && of.size() < 10 && of.find_first_not_of("0123456789", 1) == std::string::npos;
            if (!digits) return -1;
            const auto line = static_cast<std::uint32_t>(std::stoul(of.substr(1)));
            const auto found = std::lower_bound(
                book_.entries.begin(), book_.entries.end(), line,
                [](const Entry& entry, std::uint32_t wanted) { return entry.line < wanted; });
            const bool above =
                found != book_.entries.end() && found->line == line && line < book_.entries[below].line;
            return above ? found - book_.entries.begin() : -1;
        }
        const NameId name = book_.names.find(of);
        const std::uint32_t found = name != no_name && name < by_id_.size() ? by_id_[name] : no_entry;
        return found < below ? static_cast<std::int64_t>(found) : -1;
    }

    void apply_amends(std::uint32_t index) {
        std::vector<std::uint32_t>& amends = amends_of_[index];
        std::sort(amends.begin(), amends.end(), [this](std::uint32_t a, std::uint32_t b) {
            return book_.entries[a].at != book_.entries[b].at ? book_.entries[a].at < book_.entries[b].at
                                                              : a < b;
        });
        Json target = readable(index) ? Json::parse(text_of(index), nullptr, false) : Json();
        bool changed = false;
        for (const std::uint32_t amend : amends) changed = apply(target, amend) || changed;
        if (changed) settled_.texts[index] = target.dump();
    }

    // A line that is no record has no fields; one that is, and was left out for what stands in it, can be
    // mended.
    bool readable(std::uint32_t index) const {
        const Entry& entry = book_.entries[index];
        return !entry.refused || entry.kind != Kind::Unknown;
    }

    bool apply(Json& target, std::uint32_t amend) {
        if (!target.is_object()) {
            report(Code::AmendNotApplied, amend, "the line it amends cannot be read");
            return false;
        }
        const Json entry = Json::parse(text_of(amend), nullptr, false);
        const Json& set = entry["set"];
        for (const char* fixed : {"kind", "id", "at", "by"}) {
            if (set.contains(fixed)) {
                report(Code::AmendNotApplied, amend, std::string("an amendment cannot set ") + fixed);
                return false;
            }
        }
        if (entry.contains("was") && !stands(target, entry["was"], amend)) return false;
        keep_before(amend, target);
        for (const auto& [field, value] : set.items()) {
            if (value.is_null()) {
                target.erase(field);
            } else {
                target[field] = value;
            }
        }
        return true;
    }

    // Whether every field of `was` is what stands; absent and null are the same.
    bool stands(const Json& target, const Json& was, std::uint32_t amend) {
        if (!was.is_object()) {
            report(Code::AmendNotApplied, amend, "was is no object");
            return false;
        }
        for (const auto& [field, value] : was.items()) {
            const Json now = target.contains(field) ? target[field] : Json();
            if (now != value) {
                report(Code::AmendNotApplied, amend,
                       "was: " + field + " stands at " + now.dump() + ", not at " + value.dump());
                return false;
            }
        }
        return true;
    }

    const Book& book_;
    const EntryOfId& by_id_;
    Settled settled_;
    std::vector<std::vector<std::uint32_t>> amends_of_;
};

}  // namespace

Settled settle_amendments(const Book& book, const EntryOfId& by_id) {
    return Settler(book, by_id).run();
}

}  // namespace fallwright
