#include "case_file.h"

#include <optional>

#include "case_words.h"

namespace fallwright::cases {
namespace {

using Words = std::vector<std::string>;

class Reader {
  public:
    CaseFile read(std::string_view text);

  private:
    void line(std::string_view text);
    void command(std::string_view text);
    void head_line(std::string_view word, std::string_view rest);
    void begin_case(std::string_view rest);
    void end_case();
    void begin_book(const Words& words);
    void begin_base(const Words& words);
    void run(const Words& words);
    void expect(std::string_view text, const Words& words);
    void complain(const std::string& sentence, int line) { file_.complaints.push_back({line, sentence}); }
    Case& current();

    CaseFile file_;
    int line_ = 0;
    bool open_ = false;  // a case has begun
    std::string source_, provenance_;
    std::optional<CaseBook> base_;
    CaseBook book_;
    bool has_book_ = false;
    CaseBook* within_ = nullptr;  // the book or base whose lines are being read
};

std::string_view first_word(std::string_view text) {
    return text.substr(0, std::min(text.find_first_of(" \t"), text.size()));
}

// A command begins with a small letter; every other line is commentary.
bool is_command(std::string_view text) {
    return !text.empty() && text.front() >= 'a' && text.front() <= 'z';
}

CaseFile Reader::read(std::string_view text) {
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        ++line_;
        try {
            line(trimmed_text(text.substr(0, end)));
        } catch (const std::exception& e) {
            complain(e.what(), line_);
        }
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    if (within_ != nullptr) complain("a book without its end", line_);
    end_case();
    if (file_.cases.empty()) complain("a file without a case", line_);
    return std::move(file_);
}

void Reader::line(std::string_view text) {
    if (within_ == nullptr) {
        if (is_command(text)) command(text);
        return;
    }
    if (text == "end") {
        within_->close();
        within_ = nullptr;
    } else {
        within_->add(text);
    }
}

void Reader::command(std::string_view text) {
    const std::string_view word = first_word(text);
    const std::string_view rest = trimmed_text(text.substr(word.size()));
    if (word == "source" || word == "provenance") return head_line(word, rest);
    if (word == "case") return begin_case(rest);
    const Words words = split_words(text);
    if (word == "base") return begin_base(words);
    if (word == "book") return begin_book(words);
    if (word == "run") return run(words);
    if (word == "expect") return expect(text, words);
    throw Complaint("\"" + std::string(word) +
                    "\" is no command; a line of commentary begins with anything but a small letter");
}

void Reader::head_line(std::string_view word, std::string_view rest) {
    if (word == "provenance" && rest != "published" && rest != "from memory" && rest != "derived")
        throw Complaint("provenance is published, from memory or derived");
    (word == "source" ? source_ : provenance_) = rest;
    if (!open_ || !file_.cases.back().runs.empty()) return;
    (word == "source" ? file_.cases.back().source : file_.cases.back().provenance) = rest;
}

void Reader::begin_case(std::string_view rest) {
    end_case();
    const std::string_view id = first_word(rest);
    if (id.empty()) throw Complaint("case ID TITLE");
    file_.cases.push_back({line_,
                           std::string(id),
                           std::string(trimmed_text(rest.substr(id.size()))),
                           source_,
                           provenance_,
                           {}});
    open_ = true;
    has_book_ = false;
}

void Reader::end_case() {
    if (!open_) return;
    const Case& c = file_.cases.back();
    if (c.source.empty() || c.provenance.empty())
        complain("case " + c.id + " names no source or provenance", c.line);
    if (c.runs.empty()) complain("case " + c.id + " runs nothing", c.line);
    for (const Run& r : c.runs) {
        if (r.expectations.empty()) complain("a run of which nothing is expected", r.line);
    }
}

Case& Reader::current() {
    if (!open_) throw Complaint("this stands before any case");
    return file_.cases.back();
}

void Reader::begin_base(const Words& words) {
    within_ = &base_.emplace();
    within_->head({words.begin() + 1, words.end()});
}

// `book` begins with the base of the file, else with a first line of its own; `book raw` with nothing.
void Reader::begin_book(const Words& words) {
    current();
    const bool raw = words.size() > 1 && words[1] == "raw";
    const bool own = words.size() > 1 && words[1] == "alone";
    book_ = base_ && !raw && !own ? *base_ : CaseBook();
    within_ = &book_;
    has_book_ = true;
    const Words fields(words.begin() + (raw || own ? 2 : 1), words.end());
    if (raw || (base_ && !own)) {
        if (!fields.empty()) throw Complaint("the fields of the book stand with its base");
        return;
    }
    book_.head(fields);
}

void Reader::run(const Words& words) {
    Case& c = current();
    if (words.size() < 2)
        throw Complaint("run VERB [OPTION VALUE]... [with ENTRY FIELD = VALUE]... [without ENTRY]...");
    CaseBook book = book_;
    std::string options;
    std::size_t at = 2;
    auto word = [&](std::size_t i) -> const std::string& {
        if (i >= words.size()) throw Complaint("run breaks off after \"" + words.back() + "\"");
        return words[i];
    };
    while (at < words.size()) {
        if (words[at] == "with") {
            if (word(at + 3) != "=") throw Complaint("with ENTRY FIELD = VALUE");
            book.change(words[at + 1], words[at + 2], word(at + 4));
            at += 5;
        } else if (words[at] == "without") {
            book.take_out(word(at + 1));
            at += 2;
        } else {
            options += (options.empty() ? "" : ",") + in_quotes(words[at]) + ":" + word_as_json(word(at + 1));
            at += 2;
        }
    }
    std::string request = "{\"verb\":" + in_quotes(words[1]);
    if (has_book_) request += ",\"book\":" + Json(book.text()).dump();
    request += ",\"options\":{" + options + "}}";
    c.runs.push_back({line_, std::move(request), {}});
}

void Reader::expect(std::string_view text, const Words& words) {
    Case& c = current();
    if (c.runs.empty()) throw Complaint("expect stands before any run");
    Expectation e = read_expectation({words.begin() + 1, words.end()});
    if (e.what == Expectation::What::AsBefore && c.runs.size() < 2)
        throw Complaint("\"as before\" needs a run before");
    e.line = line_;
    e.text = text;
    c.runs.back().expectations.push_back(std::move(e));
}

}  // namespace

CaseFile read_case_file(std::string_view text) {
    return Reader().read(text);
}

}  // namespace fallwright::cases
