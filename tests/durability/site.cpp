#include "durability/site.h"

#include <algorithm>
#include <utility>

namespace fallwright::durability {

using store::IfAbsent;
using store::Lines;

const char* const site_book = "lane.book.jsonl";

namespace {

// A line break that did not reach the disk reads as a NUL behind a line that is whole and counts.
std::string without_nuls(std::string piece) {
    while (!piece.empty() && piece.back() == '\0') piece.pop_back();
    return piece;
}

std::vector<std::string> pieces_of(const std::string& bytes) {
    std::vector<std::string> pieces;
    std::size_t from = 0;
    while (from < bytes.size()) {
        const std::size_t to = std::min(bytes.find('\n', from), bytes.size());
        pieces.push_back(without_nuls(bytes.substr(from, to - from)));
        from = to + 1;
    }
    return pieces;
}

}  // namespace

// --- programs

// Lengths from one sector's part to dozens of sectors; the number at both ends tells a whole line from a
// torn.
Lines Site::new_lines(std::size_t count) {
    Lines lines;
    for (std::size_t i = 0; i < count; ++i) {
        const std::string number = std::to_string(++lines_made_);
        const std::size_t length = draw_.one_in(8) ? draw_.below(20000) : draw_.below(900);
        const std::string text(length, static_cast<char>('a' + lines_made_ % 26));
        std::string line = "{\"id\":\"site-";
        line.append(number).append("\",\"text\":\"").append(text).append(number).append("\"}");
        asked_.insert(line);
        lines.push_back(std::move(line));
    }
    return lines;
}

void Site::note_answer(const Lines& lines) {
    answered_.insert(answered_.end(), edited_.begin(), edited_.end());
    edited_.clear();
    answered_.insert(answered_.end(), lines.begin(), lines.end());
}

void Site::add(std::size_t count) {
    const Lines lines = new_lines(count);
    largest_append_ = std::max(largest_append_, count);
    const auto added =
        store::append(files_, site_book, IfAbsent::Create, [&](auto) { return Result<Lines>(lines); });
    if (added) note_answer(added->lines);
}

void Site::import() {
    const Lines lines = new_lines(draw_.between(2, 6));
    together_.push_back(lines);
    const auto added = store::append_together(files_, site_book, IfAbsent::Create,
                                              [&](auto) { return Result<Lines>(lines); });
    if (added) note_answer(added->lines);
}

// Takes out the torn pieces and adds a line, as a program would that writes a book anew.
void Site::rewrite() {
    const Lines line = new_lines(1);
    const auto written = store::rewrite(files_, site_book, [&](std::string_view now) -> Result<std::string> {
        Lines kept;
        for (const std::string& piece : pieces_of(std::string(now))) {
            if (asked_.count(piece) != 0) kept.push_back(piece);
        }
        kept.push_back(line.front());
        return store::with_breaks(kept);
    });
    if (written) note_answer(line);
}

// An editor that leaves the last line without a line break. Not while a program holds the book: against that
// only the lock helps, which editors do not ask for.
void Site::edit() {
    if (files_.locked(site_book)) return;
    std::string bytes = files_.bytes(site_book);
    if (!bytes.empty() && bytes.back() != '\n') bytes += '\n';
    edited_.push_back(new_lines(1).front());
    const bool long_ago = draw_.one_in(2);
    files_.save_by_rename(site_book, bytes + edited_.back(), long_ago);
    if (long_ago) note_answer({});
}

void Site::create() {
    together_.push_back(new_lines(2));
    const auto made = store::create_new(files_, site_book, together_.back());
    if (made) note_answer(made->lines);
}

void Site::run(Program program) {
    switch (program) {
        case Program::Add:
            return add(1);
        case Program::AddSeveral:
            return add(draw_.between(2, 5));
        case Program::Import:
            return import();
        case Program::Rewrite:
            return rewrite();
        case Program::Create:
            return create();
        case Program::Edit:
            return edit();
    }
}

Program Site::any_program() {
    const std::uint64_t choice = draw_.below(14);
    return choice <= 5 ? static_cast<Program>(choice) : Program::Add;
}

void Site::others_turn() {
    const std::uint64_t choice = draw_.below(4);
    run(choice == 0 ? Program::Rewrite : choice == 1 ? Program::Edit : Program::Add);
}

// --- days and their ends

void Site::start(Start state) {
    if (state == Start::NoFile) return;
    const Lines lines = state == Start::EmptyFile ? Lines{} : new_lines(3);
    std::string bytes = store::with_breaks(lines);
    if (state == Start::NoBreakAtEnd) bytes.pop_back();
    if (state == Start::TornEnd) bytes += new_lines(1).front().substr(0, 20) + std::string(30, '\0');
    files_.save_by_rename(site_book, bytes, true);
    if (state == Start::PartLeftBehind) {
        files_.save_by_rename(std::string(site_book) + ".part", new_lines(1).front(), true);
    }
    note_answer(lines);
    complaint();
}

void Site::end() {
    if (draw_.one_in(4)) return files_.killed();
    files_.power_cut();
    edited_.clear();
}

bool Site::stop(Program program, std::uint64_t n) {
    files_.stop_at(n);
    try {
        run(program);
    } catch (const Stopped&) {
        end();
        return true;
    }
    files_.stop_at(0);
    return false;
}

void Site::live(std::uint64_t calls) {
    files_.stop_at(draw_.between(1, calls));
    largest_append_ = 1;
    try {
        for (;;) run(any_program());
    } catch (const Stopped&) {
        end();
    }
}

void Site::work(int count) {
    for (int i = 0; i < count; ++i) run(any_program());
}

// --- what must be so

std::string Site::compare(const std::vector<std::string>& pieces) {
    std::size_t next = 0;
    std::set<std::string> whole;
    std::set<std::string> torn;
    std::size_t more = 0;
    for (const std::string& piece : pieces) {
        if (asked_.count(piece) == 0) {
            more += torn_.count(piece) == 0 ? 1 : 0;
            torn.insert(piece);
            continue;
        }
        if (!whole.insert(piece).second) return "a line stands twice: " + piece.substr(0, 20);
        if (next < answered_.size() && piece == answered_[next]) ++next;
    }
    torn_ = torn;
    if (next < answered_.size()) return "an answered line is lost: " + answered_[next].substr(0, 20);
    if (!faults_ && more > largest_append_) return std::to_string(more) + " torn pieces";
    return together_complaint(whole);
}

std::string Site::together_complaint(const std::set<std::string>& whole) const {
    for (const Lines& lines : together_) {
        const auto there = std::count_if(lines.begin(), lines.end(),
                                         [&](const std::string& line) { return whole.count(line) != 0; });
        if (there != 0 && there != static_cast<std::ptrdiff_t>(lines.size())) {
            return "of lines that go in together only some stand: " + lines.front().substr(0, 20);
        }
    }
    return "";
}

std::string Site::complaint() {
    return compare(pieces_of(files_.bytes(site_book)));
}

}  // namespace fallwright::durability
