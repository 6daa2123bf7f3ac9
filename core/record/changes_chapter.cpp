#include "record/chapters.h"
#include "record/times.h"

namespace fallwright::record {

namespace {

// A JSON text without its quotation marks, where nothing in it is escaped.
std::string plain(const std::string& json) {
    const bool text = json.size() >= 2 && json.front() == '"' && json.find('\\') == std::string::npos;
    return text ? json.substr(1, json.size() - 2) : json;
}

std::string after(const BookChange::Field& field) {
    return field.after.empty() ? "removed" : plain(field.after);
}

std::string before(const BookChange::Field& field) {
    return field.before.empty() ? "nothing" : plain(field.before);
}

std::string standing(const Book& book, const BookChange& change) {
    if (change.undone) return "taken back";
    if (!change.strike && book.entries[change.of].struck) return "its entry is struck";
    return change.applied ? "stands" : "not applied";
}

// What an amendment set, field by field: what stood before, what stands after.
std::string fields(const BookChange& change) {
    std::string text;
    for (const BookChange::Field& field : change.fields) {
        text += text.empty() ? "" : "; ";
        text += change.applied ? field.name + ": " + before(field) + ", now " + after(field)
                               : field.name + " to " + after(field);
    }
    return text;
}

// What stood in a struck entry; the line itself where it could not be read.
std::string struck(const BookChange& change) {
    if (change.fields.empty()) return change.before;
    std::string text;
    for (const BookChange::Field& field : change.fields)
        text += (text.empty() ? "" : "; ") + field.name + " " + before(field);
    return text;
}

void add_changes_of(Writer& out, const std::vector<BookChange>& changes, bool strikes) {
    Rows rows("", {words_column("entry"), words_column("by"), words_column("when"), words_column("of"),
                   text_column(strikes ? "what stood" : "what stood before, and what stands now"),
                   text_column("why"), words_column("")});
    for (const BookChange& change : changes) {
        if (change.strike != strikes) continue;
        const Entry& entry = out.book.entries[change.entry];
        rows.add({out.book.id_of(change.entry), entry.by == no_name ? "" : out.name(entry.by),
                  time_words(entry.at), out.book.id_of(change.of), strikes ? struck(change) : fields(change),
                  change.why.empty() ? "not said" : change.why, standing(out.book, change)});
    }
    out.table(std::move(rows));
}

}  // namespace

void add_changes(Writer& out, const Wanted& wanted) {
    out.heading(1, "Amendments and strikes");
    if (wanted.changes.empty()) {
        out.say("None: every entry stands as it was first written.");
        return;
    }
    out.say(
        "Nothing is rubbed out: what was written stays in the book, and its amendments and strikes stand "
        "after it with their reasons.");
    out.heading(2, "Amended");
    add_changes_of(out, wanted.changes, false);
    out.heading(2, "Struck");
    add_changes_of(out, wanted.changes, true);
}

}  // namespace fallwright::record
