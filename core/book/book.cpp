#include "book/book.h"

#include <algorithm>
#include <cstring>
#include <utility>

#include "base/print.h"
#include "book/amend.h"
#include "book/read_entry.h"
#include "book/settle.h"

namespace fallwright {

namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

struct FaultText {
    Code code;
    std::string_view message;
};

FaultText fault_text(ParseFault fault) {
    switch (fault) {
        case ParseFault::TooLong:
            return {Code::LineTooLong, "the line is over 64 KiB; it is left out"};
        case ParseFault::TooDeep:
            return {Code::TooDeep, "the line is nested deeper than 32; it is left out"};
        case ParseFault::RepeatedKey:
            return {Code::RepeatedKey, "a field stands twice; the entry is left out"};
        case ParseFault::NotFinite:
            return {Code::NotFinite, "a number is not finite; the entry is left out"};
        default:
            return {Code::TornLine, "the line is torn or no JSON object; it is left out"};
    }
}

// Reads all lines of one text into a book; with `settled`, as the amendments and strikes say.
class Reader {
  public:
    Reader(Book& book, const Settled* settled) : book_(book), settled_(settled) {}

    const EntryOfId& by_id() const { return by_id_; }
    bool has_amendments() const { return has_amendments_; }

    void read_lines() {
        const auto ends = std::count(book_.text.begin(), book_.text.end(), '\n');
        book_.entries.reserve(static_cast<std::size_t>(ends) + 1);
        // Most lines are readings; what is left over is given back by read_book.
        book_.readings.reserve(book_.entries.capacity());
        std::size_t offset = std::string_view(book_.text).substr(0, 3) == byte_order_mark ? 3 : 0;
        for (std::uint32_t line = 1; offset < book_.text.size(); ++line) {
            const std::size_t end = std::min(book_.text.find('\n', offset), book_.text.size());
            read_line(line, offset, end);
            offset = end + 1;
        }
    }

  private:
    // Where the line ends but for blanks and a block of NULs that a crash left behind it; NULs alone are a
    // line.
    std::size_t end_of_content(std::size_t offset, std::size_t end) const {
        const std::string_view line = std::string_view(book_.text).substr(offset, end - offset);
        const std::size_t last = line.find_last_not_of(std::string_view("\r \t\0", 4));
        if (last != std::string_view::npos) return offset + last + 1;
        return line.find('\0') == std::string_view::npos ? offset : end;
    }

    void read_line(std::uint32_t line, std::size_t offset, std::size_t end) {
        end = end_of_content(offset, end);
        if (end == offset && line > 1) return;
        Entry entry;
        entry.line = line;
        entry.offset = offset;
        entry.length = static_cast<std::uint32_t>(std::min<std::size_t>(end - offset, UINT32_MAX));
        entry.at = last_at_;
        const auto index = static_cast<std::uint32_t>(book_.entries.size());
        book_.entries.push_back(entry);
        read_text(index);
    }

    std::string_view text_of(std::uint32_t index) const {
        if (settled_) {
            const auto changed = settled_->texts.find(index);
            if (changed != settled_->texts.end()) return changed->second;
        }
        const Entry& entry = book_.entries[index];
        return std::string_view(book_.text).substr(entry.offset, entry.length);
    }

    void read_text(std::uint32_t index) {
        const std::size_t before = book_.findings.size();
        read_record(index);
        Entry& entry = book_.entries[index];
        entry.struck = is_struck(index);
        if (!entry.struck) return;
        entry.refused = true;
        book_.findings.erase(book_.findings.begin() + static_cast<std::ptrdiff_t>(before),
                             book_.findings.end());
    }

    bool is_struck(std::uint32_t index) const { return settled_ && settled_->struck[index]; }

    void read_record(std::uint32_t index) {
        Entry& entry = book_.entries[index];
        const ParseFault fault = record_.parse(text_of(index));
        if (fault != ParseFault::None) {
            const FaultText said = fault_text(fault);
            book_.findings.push_back(finding(said.code, {book_.id_of(index)}, std::string(said.message)));
            entry.refused = true;
            return;
        }
        EntryContext context{book_, record_, book_.findings, index};
        read_head(context, index);
        if (index == 0) return read_book_line(context);
        if (is_struck(index)) return;
        if (entry.kind == Kind::Amend || entry.kind == Kind::Strike) {
            has_amendments_ = true;
            read_amendment(context);
        } else if (context.ok) {
            context.ok = read_entry(context, entry.kind, index);
        }
        entry.refused = !context.ok;
    }

    // What it amends is settled elsewhere (amend.h).
    static void read_amendment(EntryContext& context) {
        Fields fields(context, 0);
        const NameId settle = fields.name("settle");
        if (settle != no_name) context.book.on_suspicion.push_back({context.entry, settle});
        for (const std::string_view known : {"of", "set", "why", "was"}) fields.take(known);
        fields.unknown();
    }

    void read_head(EntryContext& context, std::uint32_t index) {
        Entry& entry = book_.entries[index];
        Fields head(context, 0);
        read_id(context, head, index);
        entry.by = head.name("by");
        read_time(context, head, entry);
        const NameId word = head.required_name("kind");
        entry.kind = kind_of(book_.name(word));
        if (index > 0 && context.ok && (entry.kind == Kind::Unknown || entry.kind == Kind::Book)) {
            entry.kind = Kind::Unknown;
            book_.findings.push_back(
                finding(Code::UnknownKind, {context.id()},
                        "kind " + book_.name(word) + " is not known here; the entry is kept, not used"));
        }
    }

    void read_time(EntryContext& context, Fields& head, Entry& entry) {
        if (!head.has("at")) return;
        const Node& text = context.record.node(head.take("at"));
        const std::optional<Instant> at =
            text.type == NodeType::Text ? parse_time(context.record.text(text)) : std::nullopt;
        if (at) {
            entry.at = last_at_ = *at;
        } else {
            book_.findings.push_back(
                finding(Code::BadTime, {context.id()}, "at is no RFC 3339 time; it is not used"));
        }
    }

    // False where the id is another entry's already.
    bool claim(NameId id, std::uint32_t index) {
        if (id >= by_id_.size()) by_id_.resize(std::max<std::size_t>(id + 1, 2 * by_id_.size()), no_entry);
        if (by_id_[id] != no_entry) return false;
        by_id_[id] = index;
        return true;
    }

    void read_id(EntryContext& context, Fields& head, std::uint32_t index) {
        const NameId id = head.name("id");
        if (id == no_name) return;
        if (book_.names.text(id).front() == '#') {
            context.refuse(Code::BadId, "id " + book_.name(id) + " begins with #");
        } else if (!claim(id, index)) {
            context.refuse(Code::DuplicateId, "id " + book_.name(id) + " is used twice; the first stands");
        } else {
            book_.entries[index].id = id;
        }
    }

    void read_book_line(EntryContext& context) {
        Fields fields(context, 0);
        const bool known = fields.text("format") == "fallwright" && fields.number_or("version", 0) == 1;
        if (!known) context.ok = false;
        book_.unit = fields.choice("unit", {"m", "ft"}) == 1 ? Unit::Foot : Unit::Metre;
        book_.title = fields.text("title");
        book_.datum = fields.text("datum");
        book_.curvature = fields.flag("curvature", true);
        fields.unknown();
        book_.entries[0].refused = !known || book_.entries[0].kind != Kind::Book;
    }

    Book& book_;
    const Settled* settled_;
    Record record_;
    EntryOfId by_id_;
    Instant last_at_ = before_all;
    bool has_amendments_ = false;
};

Finding not_a_book(const Book& book) {
    std::string message = "the first line is no book of version 1";
    if (book.text.empty()) message = "the file is empty";
    return finding(Code::NotABook, {"#1"}, message);
}

}  // namespace

std::string Book::id_of(std::uint32_t entry) const {
    const Entry& found = entries[entry];
    return found.id != no_name ? std::string(names.text(found.id)) : "#" + std::to_string(found.line);
}

Result<std::unique_ptr<Book>> read_book(std::string text) {
    auto book = std::make_unique<Book>();
    book->text = std::move(text);
    Reader first(*book, nullptr);
    first.read_lines();
    if (book->entries.empty() || book->entries[0].refused) return not_a_book(*book);
    if (first.has_amendments()) {
        Settled settled = settle_amendments(*book, first.by_id());
        auto again = std::make_unique<Book>();
        again->text = std::move(book->text);
        Reader second(*again, &settled);
        second.read_lines();
        if (again->entries[0].refused) return not_a_book(*again);
        again->findings.insert(again->findings.end(), settled.findings.begin(), settled.findings.end());
        book = std::move(again);
    }
    settle_entries(*book);
    // What grew by doubling or found room for more is kept as long as the book: give the rest back.
    book->names.fit();
    book->readings.shrink_to_fit();
    book->setups.shrink_to_fit();
    book->places.shrink_to_fit();
    return book;
}

std::vector<BookChange> changes_of(const Book& book) {
    const bool any = std::any_of(book.entries.begin(), book.entries.end(), [](const Entry& entry) {
        return entry.kind == Kind::Amend || entry.kind == Kind::Strike;
    });
    if (!any) return {};
    Book again;
    again.text = book.text;
    Reader reader(again, nullptr);
    reader.read_lines();
    return settle_amendments(again, reader.by_id()).changes;
}

std::size_t tripod_of(const Book& book, std::size_t setup) {
    std::size_t root = setup;
    while (book.setups[root].head_at >= 0) root = static_cast<std::size_t>(book.setups[root].head_at);
    return book.setups[root].position.kind == Position::Kind::None ? setup : root;
}

std::string line_point_name(std::string_view line, double ch, double off, std::string_view what) {
    std::string name(line);
    name += ' ';
    append_fixed(name, ch, 3);
    if (rounded_to(off, 3) != 0) {
        name += off > 0 ? " R" : " L";
        append_fixed(name, std::fabs(off), 3);
    }
    name += ' ';
    name += what.empty() ? "ground" : what;
    return name;
}

}  // namespace fallwright
