// booked: a small book for tests, with its pages. Inside page only.
#pragma once

#include <array>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "page/page.h"
#include "page/runs.h"

namespace fallwright {

class Booked {
  public:
    // sights: set-up, point, sight (back, inter, fore, or - for none) and figure, behind which more fields of
    // the reading may follow. entries: lines of JSON before them. Set-ups not in entries are level ones.
    Booked(const std::string& entries, const std::vector<std::array<std::string, 4>>& sights,
           const std::string& first_line_has = "", preset::MisclosureRule::By by = By::Sets)
        : book_(std::move(*read_book(lines(entries, sights, first_line_has)))),
          figures_(read_figures(*book_)),
          where_(locate(*book_, 30)),
          pages_(book_pages(*book_, figures_, where_, by)) {}

    using By = preset::MisclosureRule::By;

    const Pages& pages() const { return pages_; }
    const Page& page(std::size_t i = 0) const { return pages_.pages.at(i); }
    const PageRow& row(std::size_t i, std::size_t of_page = 0) const { return page(of_page).rows.at(i); }
    const Closure& closure(std::size_t i = 0) const { return pages_.closures.at(i); }
    std::string point(const PageRow& row) const { return name(book_->readings.at(row.reading).point); }
    std::string name(NameId id) const { return book_->name(id); }
    std::string setup(std::int32_t index) const { return name(book_->setups.at(index).name); }
    Runs runs() const { return find_runs(*book_, figures_, where_); }

  private:
    static std::string lines(const std::string& entries,
                             const std::vector<std::array<std::string, 4>>& sights,
                             const std::string& first_line_has) {
        std::string text = R"({"kind":"book","format":"fallwright","version":1)" + first_line_has +
                           "}\n{\"kind\":\"instrument\",\"name\":\"L\",\"type\":\"optical-level\"}\n" +
                           entries;
        for (const auto& [setup, point, sight, figure] : sights) {
            const std::string name = R"("name":")" + setup + R"(")";
            if (text.find(name) == std::string::npos)
                text.append(R"({"kind":"setup","instrument":"L",)").append(name).append("}\n");
            text.append(R"({"kind":"reading","setup":")").append(setup);
            text.append(R"(","point":")").append(point).append("\"");
            if (sight != "-") text.append(R"(,"sight":")").append(sight).append("\"");
            text.append(R"(,"staff":)").append(figure).append("}\n");
        }
        return text;
    }

    std::unique_ptr<Book> book_;
    Figures figures_;
    Where where_;
    Pages pages_;
};

inline std::string benchmark(const std::string& point, const std::string& level,
                             const std::string& more = "") {
    return R"({"kind":"benchmark","point":")" + point + R"(","level":)" + level + more + "}\n";
}

}  // namespace fallwright
