#include "design/join_order.h"

#include <algorithm>

namespace fallwright {

namespace {

// Depth first with a path of its own: a book may join a hundred thousand lines in a row.
class JoinWalk {
  public:
    explicit JoinWalk(const Book& book) {
        const ByName index(book.lines);
        for (const LineEntry& line : book.lines) {
            order_.joined.emplace_back();
            for (const Join& join : line.joins) order_.joined.back().push_back(index(join.line));
        }
        state_.assign(book.lines.size(), State::Unseen);
    }

    JoinOrder run() {
        for (std::size_t line = 0; line < state_.size(); ++line) {
            if (state_[line] == State::Unseen) walk_from(line);
        }
        for (const auto& [line, join] : refused_) order_.joined[line][join] = in_circle;
        return std::move(order_);
    }

  private:
    enum class State : std::uint8_t { Unseen, OnPath, Done };
    struct Stop {
        std::size_t line;
        std::size_t next_join;
    };

    void walk_from(std::size_t start) {
        enter(start);
        while (!path_.empty()) {
            Stop& stop = path_.back();
            if (stop.next_join == order_.joined[stop.line].size()) {
                state_[stop.line] = State::Done;
                order_.lines.push_back(stop.line);
                path_.pop_back();
                continue;
            }
            const std::int32_t to = order_.joined[stop.line][stop.next_join++];
            if (to >= 0) go_to(static_cast<std::size_t>(to));
        }
    }

    void enter(std::size_t line) {
        state_[line] = State::OnPath;
        path_.push_back({line, 0});
    }

    void go_to(std::size_t line) {
        if (state_[line] == State::Unseen)
            enter(line);
        else if (state_[line] == State::OnPath)
            refuse_circle(line);
    }

    // All joins from that line on along the path; each stop has just taken its join number next_join - 1.
    void refuse_circle(std::size_t line) {
        auto stop = std::find_if(path_.begin(), path_.end(), [&](const Stop& s) { return s.line == line; });
        std::vector<std::size_t> circle;
        for (; stop != path_.end(); ++stop) {
            circle.push_back(stop->line);
            refused_.emplace_back(stop->line, stop->next_join - 1);
        }
        order_.circles.push_back(std::move(circle));
    }

    JoinOrder order_;
    std::vector<State> state_;
    std::vector<Stop> path_;
    std::vector<std::pair<std::size_t, std::size_t>> refused_;
};

}  // namespace

JoinOrder order_by_joins(const Book& book) {
    return JoinWalk(book).run();
}

}  // namespace fallwright
