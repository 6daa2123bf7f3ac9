#include "ground/contour_pieces.h"

#include <algorithm>
#include <array>
#include <utility>

namespace fallwright::ground {

namespace {

bool one_place(const Crossed& a, const Crossed& b) {
    return a.at.e == b.at.e && a.at.n == b.at.n;
}

// Follows parts from vertex to vertex as long as there is but one way on.
class Joining {
  public:
    explicit Joining(const std::vector<CrestPart>& parts) : parts_(parts), used_(parts.size()) {
        for (std::size_t i = 0; i < parts.size(); ++i)
            for (const Crossed& end : parts[i]) at_.push_back({end.vertex, i});
        std::sort(at_.begin(), at_.end());
    }

    std::vector<LinePiece> run() {
        for (const bool branches : {true, false})
            for (const auto& [vertex, part] : at_)
                if (!used_[part] && (!branches || degree(vertex) != 2)) follow(vertex, part);
        return std::move(found_);
    }

  private:
    using Ends = std::vector<std::pair<Vertex, std::size_t>>;

    std::pair<Ends::const_iterator, Ends::const_iterator> around(Vertex v) const {
        return {std::lower_bound(at_.begin(), at_.end(), std::pair{v, std::size_t{0}}),
                std::lower_bound(at_.begin(), at_.end(), std::pair{v + 1, std::size_t{0}})};
    }
    std::ptrdiff_t degree(Vertex v) const {
        const auto [first, last] = around(v);
        return last - first;
    }

    void follow(Vertex start, std::size_t part) {
        LinePiece line;
        Vertex from = start;
        for (;;) {
            used_[part] = true;
            const bool forward = parts_[part][0].vertex == from;
            Crossed here = parts_[part][forward ? 0 : 1];
            const Crossed& there = parts_[part][forward ? 1 : 0];
            here.triangle = parts_[part][0].triangle;
            line.points.push_back(here);
            from = there.vertex;
            const auto [first, last] = around(from);
            const auto on = std::find_if(first, last, [&](const auto& end) { return !used_[end.second]; });
            if (last - first == 2 && on != last) {
                part = on->second;
                continue;
            }
            line.closed = from == start && last - first == 2;
            if (!line.closed) line.points.push_back(there);
            break;
        }
        found_.push_back(std::move(line));
    }

    const std::vector<CrestPart>& parts_;
    std::vector<bool> used_;
    Ends at_;
    std::vector<LinePiece> found_;
};

}  // namespace

// Of points one upon the other the last knows the way on.
void Pieces::thin_out(const Traced& traced) {
    thin_.clear();
    for (const Crossed& point : traced.points) {
        if (!thin_.empty() && one_place(thin_.back(), point)) thin_.pop_back();
        thin_.push_back(point);
    }
    if (traced.closed && thin_.size() > 1 && one_place(thin_.front(), thin_.back())) thin_.pop_back();
}

// Ends the pieces after the first `keep` ones.
void Pieces::end(std::size_t keep) {
    for (; open_.size() > keep; open_.pop_back()) {
        std::vector<Crossed>& piece = open_.back();
        const bool closed = one_place(piece.front(), piece.back());
        if (closed) piece.pop_back();
        if (piece.size() >= 2) found_.push_back({std::move(piece), closed});
    }
}

void Pieces::step(const Crossed& from, const Crossed& to) {
    std::size_t on = open_.size();
    while (on > 0 && !one_place(open_[on - 1].back(), from)) --on;
    if (on == 0) {
        open_.push_back({from});
    } else {
        end(on);
        open_.back().back() = from;
    }
    open_.back().push_back(to);
}

// A closed line is begun where a crest ends, if it has one.
const std::vector<LinePiece>& Pieces::of(const Traced& traced) {
    found_.clear();
    open_.clear();
    thin_out(traced);
    const std::size_t count = thin_.size();
    if (count < 2) return found_;
    std::size_t start = 0;
    for (std::size_t i = 0; traced.closed && i < count; ++i)
        if (thin_[i].crest && !thin_[(i + 1) % count].crest) start = (i + 1) % count;
    for (std::size_t i = 0; i + (traced.closed ? 0 : 1) < count; ++i) {
        const Crossed& from = thin_[(start + i) % count];
        if (!from.crest) step(from, thin_[(start + i + 1) % count]);
    }
    end(0);
    return found_;
}

std::vector<LinePiece> join_crests(const std::vector<CrestPart>& parts) {
    return Joining(parts).run();
}

}  // namespace fallwright::ground
