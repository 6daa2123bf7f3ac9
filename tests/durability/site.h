// Site: programs that keep one book on a forgetful disk, and what must be so after every power cut.
//
// Adders, an import, a rewriting program and an editor take turns by a written seed, also between two system
// calls of one another; power fails, or the program is killed, at a drawn call. After each end complaint()
// says in words what was promised and is not so; it is empty when
//   - every line that was answered stands whole, once, in the order of the answers; so does a line an editor
//     left before one of those answers;
//   - of lines that go in together all stand or none does;
//   - the end left at most one torn piece, or as many as the lines of an append that was under way; with a
//   disk
//     that fails as well there may be more, none of them in an answered line.
#pragma once

#include <cstdint>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "durability/draw.h"
#include "durability/forgetful_files.h"
#include "store/book_file.h"

namespace fallwright::durability {

enum class Program : std::uint8_t { Add, AddSeveral, Import, Rewrite, Create, Edit };
enum class Start : std::uint8_t { NoFile, EmptyFile, WholeLines, NoBreakAtEnd, TornEnd, PartLeftBehind };

class Site {
  public:
    Site(ForgetfulFiles& files, std::uint64_t seed) : files_(files), draw_(seed) {}

    void set_faults(std::uint64_t one_in) {
        faults_ = one_in != 0;
        files_.set_faults(one_in);
    }

    // What is durably there before the first program.
    void start(Start state);
    // One program, stopped at the n-th of its system calls. False if it came to its end before.
    bool stop(Program program, std::uint64_t n);
    // One program after another until power fails or a program is killed within the next `calls` system
    // calls.
    void live(std::uint64_t calls);
    // Programs run to their end, `count` of them.
    void work(int count);
    // Other programs run between the calls of the one running.
    void let_others_in() {
        files_.set_between([this] {
            if (draw_.one_in(12)) others_turn();
        });
    }
    std::string complaint();

    std::size_t answered() const { return answered_.size(); }
    std::size_t torn() const { return torn_.size(); }

  private:
    store::Lines new_lines(std::size_t count);
    void run(Program program);
    Program any_program();
    void others_turn();
    void end();
    void add(std::size_t count);
    void import();
    void rewrite();
    void edit();
    void create();
    void note_answer(const store::Lines& lines);

    std::string compare(const std::vector<std::string>& pieces);
    std::string together_complaint(const std::set<std::string>& whole) const;

    ForgetfulFiles& files_;
    Draw draw_;
    std::uint64_t lines_made_ = 0;
    std::vector<std::string> answered_;
    std::set<std::string> asked_;
    std::vector<store::Lines> together_;
    store::Lines edited_;  // not durable before the next answer
    std::set<std::string> torn_;
    std::size_t largest_append_ = 1;
    bool faults_ = false;
};

extern const char* const site_book;

}  // namespace fallwright::durability
