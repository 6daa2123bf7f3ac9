#include "book/join.h"

#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <utility>

#include "base/sha256.h"
#include "book/book.h"
#include "book/read_entry.h"

namespace fallwright {

namespace {

using Json = nlohmann::json;

constexpr std::size_t digits_of_content = 12;

// What is left of an entry when who and when are taken away.
Json content_of(Json entry) {
    for (const char* field : {"id", "at", "by"}) entry.erase(field);
    return entry;
}

std::string text_in(const Json& entry, const char* field) {
    return entry.contains(field) && entry[field].is_string() ? entry[field].get<std::string>() : "";
}

// The name under which an entry may stand only once: "instrument L1"; empty for kinds without one.
std::string unique_name(Kind kind, const Json& entry) {
    std::string name = text_in(entry, kind == Kind::Place ? "point" : "name");
    switch (kind) {
        case Kind::Tolerance:
            name = text_in(entry, "line") + " " + text_in(entry, "what");
            break;
        case Kind::Instrument:
        case Kind::Staff:
        case Kind::Receiver:
        case Kind::Line:
        case Kind::Place:
        case Kind::Setup:
        case Kind::What:
        case Kind::Trial:
        case Kind::Surface:
        case Kind::Rule:
            break;
        default:
            return "";
    }
    return name.empty() ? "" : std::string(kind_word(kind)) + " " + name;
}

class Joiner {
  public:
    std::optional<Finding> add(const BookText& source) {
        Result<std::unique_ptr<Book>> read = read_book(source.text);
        if (!read) {
            Finding found = read.finding();
            found.about = {source.name};
            return found;
        }
        const Book& book = **read;
        if (lines_.empty()) {
            lines_.push_back(std::string(line_of(book, 0)));
            first_ = {source.name, book.unit, book.datum, book.curvature};
            last_at_ = book.entries[0].at;
        } else if (book.unit != first_.unit || book.datum != first_.datum ||
                   book.curvature != first_.curvature) {
            return finding(Code::JoinConflict, {first_.name, source.name},
                           "the books differ in unit, datum or curvature",
                           "make them the same, then join again");
        }
        return add_entries(book, source.name);
    }

    // Entries before the first time of any book come first: they count as before all.
    std::string text() const {
        std::string all = lines_.front() + "\n";
        for (const auto* part : {&before_, &rest_}) {
            for (const std::string& line : *part) all += line + "\n";
        }
        return all;
    }

  private:
    struct Kept {
        Json content;
        std::string book;
    };
    struct First {
        std::string name;
        Unit unit = Unit::Metre;
        std::string datum;
        bool curvature = true;
    };

    static std::string_view line_of(const Book& book, std::size_t entry) {
        return std::string_view(book.text).substr(book.entries[entry].offset, book.entries[entry].length);
    }

    std::optional<Finding> add_entries(const Book& book, const std::string& name) {
        std::map<std::uint32_t, std::string> setups;
        for (const Reading& reading : book.readings) {
            if (reading.setup_is_last) setups[reading.entry] = book.name(reading.setup);
        }
        std::map<std::string, int> equal;
        std::map<std::string, std::string> renamed{{"#1", "#1"}};
        std::set<std::string> gone;
        time_text_ = text_in(Json::parse(line_of(book, 0), nullptr, false), "at");
        for (std::uint32_t i = 1; i < book.entries.size(); ++i) {
            const Entry& entry = book.entries[i];
            const std::string number = "#" + std::to_string(entry.line);
            Json object = Json::parse(line_of(book, i), nullptr, false);
            if (stays_raw(entry, object)) {
                if (entry.struck) gone.insert(number);
                if (!entry.struck)
                    keep_raw(std::string(line_of(book, i)), entry.at == before_all ? before_ : rest_);
                continue;
            }
            if (parse_time(text_in(object, "at"))) time_text_ = text_in(object, "at");
            const auto setup = setups.find(i);
            if (setup != setups.end() && text_in(object, "setup").empty()) object["setup"] = setup->second;
            if (object.contains("of") && object["of"].is_string()) {
                const std::string of = object["of"].get<std::string>();
                if (gone.count(of) > 0) {
                    gone.insert({number, book.id_of(i)});
                    continue;
                }
                object["of"] = renamed_or(renamed, of);
            }
            // Made last: equal lines that lean on different set-ups, or speak of different entries, differ.
            const std::string id = entry.id != no_name ? book.name(entry.id) : made_id(object, equal);
            object["id"] = id;
            std::string kept_as = id;
            if (auto conflict = keep(object, entry, name, kept_as)) return conflict;
            renamed[number] = kept_as;
            renamed[id] = kept_as;
        }
        return std::nullopt;
    }

    // What cannot be read, or has an id that is refused, must stay so: written anew it might be read. Where
    // it is struck somebody has dealt with it: it goes, and what speaks of it.
    static bool stays_raw(const Entry& entry, const Json& object) {
        const bool unread = entry.refused && entry.kind == Kind::Unknown;
        return unread || !object.is_object() || (entry.id == no_name && !text_in(object, "id").empty());
    }

    // An entry without a time takes that of the nearest above that has one, which another book's entries may
    // have changed; then it says its time itself.
    void write(Json object, const Entry& entry) {
        if (entry.at == before_all) return before_.push_back(object.dump());
        const bool has_time = object.contains("at") && !object["at"].is_null();
        if (!has_time && entry.at != last_at_) object["at"] = time_text_;
        last_at_ = entry.at;
        rest_.push_back(object.dump());
    }

    // A line number that leads to no entry in its own book must lead to none in the joined one.
    static std::string renamed_or(const std::map<std::string, std::string>& renamed, const std::string& of) {
        const auto found = renamed.find(of);
        if (found != renamed.end()) return found->second;
        const bool is_line =
            !of.empty() && of.front() == '#' && of.find_first_not_of("0123456789", 1) == std::string::npos;
        return is_line ? of + " (no line above)" : of;
    }

    static std::string made_id(const Json& object, std::map<std::string, int>& equal) {
        const std::string digest = sha256_hex(object.dump()).substr(0, digits_of_content);
        return digest + "-" + std::to_string(++equal[digest]);
    }

    void keep_raw(const std::string& line, std::vector<std::string>& to) {
        if (raw_.emplace(line, true).second) to.push_back(line);
    }

    std::optional<Finding> keep(const Json& object, const Entry& entry, const std::string& book,
                                std::string& kept_as) {
        const std::string id = object["id"].get<std::string>();
        const auto [same_id, is_new] = by_id_.emplace(id, Kept{object, book});
        if (!is_new) {
            if (same_id->second.content == object) return std::nullopt;
            return finding(Code::JoinConflict, {same_id->second.book, book, id},
                           "entry " + id + " is not the same in both books",
                           "give one of the two another id");
        }
        const std::string unique = entry.refused ? "" : unique_name(entry.kind, object);
        if (!unique.empty()) {
            const auto [same_name, new_name] =
                by_name_.emplace(unique, std::pair(id, Kept{content_of(object), book}));
            if (!new_name && same_name->second.second.book != book) {
                if (same_name->second.second.content != content_of(object)) {
                    return finding(Code::JoinConflict, {same_name->second.second.book, book, unique},
                                   unique + " is not the same in both books",
                                   "give it another name in one of the two, and in the entries that name it");
                }
                kept_as = same_name->second.first;
                return std::nullopt;
            }
        }
        write(object, entry);
        return std::nullopt;
    }

    First first_;
    Instant last_at_ = before_all;  // what a line added to rest_ without a time would take
    std::string time_text_;         // the time of the book being added, as written
    std::vector<std::string> lines_, before_, rest_;
    std::map<std::string, Kept> by_id_;
    std::map<std::string, std::pair<std::string, Kept>> by_name_;
    std::map<std::string, bool> raw_;
};

}  // namespace

Result<std::string> join_books(const std::vector<BookText>& books) {
    Joiner joiner;
    for (const BookText& book : books) {
        if (auto conflict = joiner.add(book)) return *conflict;
    }
    return joiner.text();
}

}  // namespace fallwright
