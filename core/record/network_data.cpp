#include "record/network_data.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "record/figure_words.h"

namespace fallwright::record {

namespace {

constexpr std::size_t most_residuals = 3000;
constexpr double large_w = 2.5, some_redundancy = 1e-6;

struct Tie {
    std::int32_t setup = -1, point = -1;
    double residual = NAN;
    bool checked = false, large = false;
    std::string about;
};

class NetMaker {
  public:
    explicit NetMaker(const Evaluation& evaluation)
        : book_(*evaluation.book), model_(*evaluation.model), evaluation_(evaluation) {}

    Net run() {
        gather();
        // Bands of about one length: seven set-ups are four and three.
        const std::size_t bands = (order_.size() + most_band_setups - 1) / most_band_setups;
        if (bands > 0) in_band_ = (order_.size() + bands - 1) / bands;
        std::size_t from = 0;
        while (from < order_.size()) from = add_band(from);
        if (order_.empty() && !book_.steps.empty()) add_steps_alone();
        add_closures();
        return std::move(net_);
    }

  private:
    void gather() {
        net_.residuals = model_.sights.rows.size() + book_.steps.size() <= most_residuals;
        degree_.assign(model_.points.size(), 0);
        read_.assign(model_.points.size(), false);
        fixed_.assign(model_.points.size(), false);
        for (const Benchmark& benchmark : book_.benchmarks) {
            const std::int32_t point = model_.points.at(benchmark.point);
            if (point >= 0) fixed_[static_cast<std::size_t>(point)] = true;
        }
        std::map<std::pair<std::int32_t, std::int32_t>, std::size_t> known;
        for (std::size_t i = 0; i < model_.sights.rows.size(); ++i) {
            const SightRow& row = model_.sights.rows[i];
            const auto [at, is_new] = known.emplace(std::pair(row.setup, row.point), ties_.size());
            if (is_new) {
                ties_.push_back({row.setup, row.point, NAN, false, false,
                                 book_.id_of(book_.readings[row.reading].entry)});
                ++degree_[static_cast<std::size_t>(row.point)];
                read_[static_cast<std::size_t>(row.point)] = true;
                if (of_setup_[row.setup].empty()) order_.push_back(row.setup);
                of_setup_[row.setup].push_back(at->second);
            }
            if (net_.residuals) take_fit(ties_[at->second], model_.fit(i));
        }
        for (const Step& step : book_.steps) {
            for (const NameId name : {step.from, step.to}) {
                const std::int32_t point = model_.points.at(name);
                if (point >= 0) ++degree_[static_cast<std::size_t>(point)];
            }
        }
    }

    static void take_fit(Tie& tie, const ReadingFit& fit) {
        if (std::isnan(tie.residual) || std::fabs(fit.residual) > std::fabs(tie.residual))
            tie.residual = fit.residual;
        tie.checked = tie.checked || fit.redundancy > some_redundancy;
        tie.large = tie.large || std::fabs(fit.w) > large_w;
    }

    bool ties(std::int32_t point) const {
        const auto at = static_cast<std::size_t>(point);
        return degree_[at] > 1 || fixed_[at];
    }

    // Ties of a set-up that are drawn; how many are only counted.
    std::vector<std::size_t> shown_of(std::int32_t setup, std::size_t& counted) const {
        std::vector<std::size_t> shown, once;
        for (const std::size_t tie : of_setup_.at(setup))
            (ties(ties_[tie].point) ? shown : once).push_back(tie);
        counted = once.size() > most_read_once ? once.size() : 0;
        if (counted == 0) shown.insert(shown.end(), once.begin(), once.end());
        if (shown.size() > most_band_points) {
            counted += shown.size() - most_band_points;
            shown.resize(most_band_points);
        }
        return shown;
    }

    std::size_t add_band(std::size_t from) {
        NetBand band;
        std::map<std::int32_t, std::size_t> place;
        std::size_t at = from;
        for (; at < order_.size() && band.setups.size() < in_band_; ++at) {
            std::size_t counted = 0;
            const std::vector<std::size_t> shown = shown_of(order_[at], counted);
            std::size_t fresh = 0;
            for (const std::size_t tie : shown) fresh += place.count(ties_[tie].point) == 0 ? 1 : 0;
            if (!band.setups.empty() && band.points.size() + fresh > most_band_points) break;
            NetNode node;
            node.name = book_.name(book_.setups[static_cast<std::size_t>(order_[at])].name);
            if (counted > 0) node.more = std::to_string(counted) + " more points";
            band.setups.push_back(std::move(node));
            for (const std::size_t tie : shown) add_edge(band, place, ties_[tie]);
        }
        place_points(band);
        add_beyond(band, place);
        add_steps(band, place);
        places_.push_back(std::move(place));
        net_.bands.push_back(std::move(band));
        return at;
    }

    std::size_t point_in(NetBand& band, std::map<std::int32_t, std::size_t>& place,
                         std::int32_t point) const {
        const auto [at, is_new] = place.emplace(point, band.points.size());
        if (is_new) {
            NetNode node;
            node.name = book_.name(model_.points.name(static_cast<std::size_t>(point)));
            node.benchmark = fixed_[static_cast<std::size_t>(point)];
            band.points.push_back(std::move(node));
        }
        return at->second;
    }

    void add_edge(NetBand& band, std::map<std::int32_t, std::size_t>& place, const Tie& tie) const {
        NetEdge edge;
        edge.from = band.setups.size() - 1;
        edge.to = point_in(band, place, tie.point);
        edge.residual = tie.residual;
        edge.checked = tie.checked;
        edge.large = tie.large;
        edge.about = tie.about;
        band.edges.push_back(std::move(edge));
    }

    static void place_points(NetBand& band) {
        std::vector<double> sum(band.points.size(), 0), count(band.points.size(), 0);
        for (const NetEdge& edge : band.edges) {
            sum[edge.to] += static_cast<double>(edge.from);
            count[edge.to] += 1;
        }
        for (std::size_t i = 0; i < band.points.size(); ++i)
            band.points[i].wanted = sum[i] / std::max(count[i], 1.0);
    }

    NetEdge step_edge(std::size_t step, std::size_t from, std::size_t to) const {
        NetEdge edge;
        edge.from = from;
        edge.to = to;
        edge.step = true;
        edge.about = book_.id_of(book_.steps[step].entry);
        if (!net_.residuals) return edge;
        const ReadingFit fit = model_.step_fit(step);
        edge.residual = fit.residual;
        edge.checked = fit.redundancy > some_redundancy;
        edge.large = std::fabs(fit.w) > large_w;
        return edge;
    }

    // Points that only a step leads to stand beside where it begins.
    void add_beyond(NetBand& band, std::map<std::int32_t, std::size_t>& place) const {
        for (const Step& step : book_.steps) {
            const std::int32_t from = model_.points.at(step.from), to = model_.points.at(step.to);
            for (const auto& [here, there] : {std::pair(from, to), std::pair(to, from)}) {
                const auto known = place.find(here);
                if (known == place.end() || there < 0 || read_[static_cast<std::size_t>(there)]) continue;
                if (place.count(there) > 0 || band.points.size() >= most_band_points) continue;
                const double wanted = band.points[known->second].wanted;
                band.points[point_in(band, place, there)].wanted = wanted;
            }
        }
    }

    // Steps whose both ends stand in the band.
    void add_steps(NetBand& band, const std::map<std::int32_t, std::size_t>& place) const {
        for (std::size_t i = 0; i < book_.steps.size(); ++i) {
            const auto from = place.find(model_.points.at(book_.steps[i].from));
            const auto to = place.find(model_.points.at(book_.steps[i].to));
            if (from != place.end() && to != place.end())
                band.edges.push_back(step_edge(i, from->second, to->second));
        }
    }

    void add_steps_alone() {
        NetBand band;
        std::map<std::int32_t, std::size_t> place;
        for (std::size_t i = 0; i < book_.steps.size(); ++i) {
            const std::int32_t from = model_.points.at(book_.steps[i].from),
                               to = model_.points.at(book_.steps[i].to);
            if (from < 0 || to < 0) continue;
            if (place.size() + 2 > most_band_points) {
                finish_steps(band, place);
            }
            const std::size_t a = point_in(band, place, from), b = point_in(band, place, to);
            band.edges.push_back(step_edge(i, a, b));
        }
        finish_steps(band, place);
    }

    void finish_steps(NetBand& band, std::map<std::int32_t, std::size_t>& place) {
        for (std::size_t i = 0; i < band.points.size(); ++i) band.points[i].wanted = static_cast<double>(i);
        if (!band.points.empty()) net_.bands.push_back(std::move(band));
        places_.push_back(std::move(place));
        band = {};
        place.clear();
    }

    void add_closures() {
        for (std::size_t i = 0; i < evaluation_.closures.size(); ++i) {
            const Closure& closure = evaluation_.pages.closures[i];
            const JudgedClosure& judged = evaluation_.closures[i];
            const std::string unit = " " + difference_unit(book_);
            const std::string found = difference_words(book_, closure.misclosure.metres()) + unit;
            std::string words = "From " + book_.name(closure.from) + " to " + book_.name(closure.to) +
                                " over " + std::to_string(closure.setups) +
                                (closure.setups == 1 ? " set-up" : " set-ups") + ": misclosure " + found;
            if (std::isnan(judged.allowed)) {
                words += ", what is allowed cannot be told";
            } else {
                std::string allowed = difference_words(book_, judged.allowed);
                if (!allowed.empty() && allowed[0] == '+') allowed.erase(0, 1);
                words += ", allowed \xc2\xb1 ";
                words += allowed;
                words += unit + " (rule " + evaluation_.rule.name + "): ";
                words += judged.ok ? "within" : "TOO LARGE";
            }
            net_.closures.push_back(words + ".");
            const std::int32_t from = model_.points.at(closure.from), to = model_.points.at(closure.to);
            for (std::size_t band = 0; band < net_.bands.size(); ++band) {
                const auto a = places_[band].find(from), b = places_[band].find(to);
                if (a == places_[band].end() || b == places_[band].end() || a == b) continue;
                net_.bands[band].closures.push_back({a->second, b->second, "misclosure " + found});
                break;
            }
        }
    }

    const Book& book_;
    const Model& model_;
    const Evaluation& evaluation_;
    Net net_;
    std::vector<Tie> ties_;
    std::map<std::int32_t, std::vector<std::size_t>> of_setup_;
    std::vector<std::int32_t> order_;
    std::size_t in_band_ = most_band_setups;
    std::vector<std::size_t> degree_;
    std::vector<bool> fixed_, read_;                           // read: from a set-up
    std::vector<std::map<std::int32_t, std::size_t>> places_;  // by band: points of the model
};

}  // namespace

Net net_of(const Evaluation& evaluation) {
    return NetMaker(evaluation).run();
}

}  // namespace fallwright::record
