// causes: every single thing that may have gone wrong in a book, as columns of the one model.
//
// A cause of size b adds b times its column to the rows (evidence.h). Sizes are known ones (digits of the
// staff, twice the receiver's offset, twice a dialled grade) or free, normal about 0. What is not a column
// but another assignment of a reading (wrong point, wrong set-up) stands in reassign.h; its reading's unit
// column stands for it wherever causes are compared.
//
// Columns by kind, as what they hold of the row of a reading:
//   misread, digits-swapped, offset-..., staff-inverted: the sign of the staff, one reading
//   staff-section: the sign, figures above the joint, one set-up
//   wrong-benchmark: 1, readings of it (of a weighted one its own row)
//   moved-change-point: -1, later readings of it
//   grade-left-in, grade-reversed: u or v, one set-up
//   axes-swapped, aim-off: u and v, one set-up
//   knocked, settling: 1, or minutes, from a reading on, one tripod
//   instrument-out: u, v, d: three columns
//   wrong-distance: the gradient along the line, and the design's
//   other-beam: 1, up to four readings in a row
//
// Metres, ratios, radians, metres a minute, all as booked - true.
#pragma once

#include <array>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "suspect/evidence.h"
#include "suspect/kind.h"

namespace fallwright {

// Indices: row in Sights::rows, setup, point (Points), -1 where it has none.
struct Cause {
    SuspectKind kind = SuspectKind::Misread;
    std::int16_t axis = -1;   // 0 main, 1 cross
    std::uint8_t count = 1;   // readings in a row
    bool half_round = false;  // the body stood half round
    std::int32_t row = -1;    // the reading, or the first one concerned
    std::int32_t setup = -1;
    std::int32_t point = -1;  // the benchmark's, the change point, the point really read
    // By kind: index in Book::benchmarks, the set-up really read in, the instrument.
    std::int32_t other = -1;
    std::int32_t stretch = 0;
    NameId source = no_name;  // of benchmarks that share one
    double joint = 0;         // height of a staff's joint
    double share = 0;         // of its kind, unnormalised
};

// One size a cause may have, its share of the cause's weight, and how free it is.
struct Size {
    double share;
    bool free;
    double size;  // known
    double sd;    // free: about 0
};

// A short list that needs no memory of its own.
constexpr std::size_t most_sizes = 12;
struct Sizes {
    std::array<Size, most_sizes> all;  // of which `count` are set
    std::size_t count = 0;

    void known(double share, double size) { all[count++] = {share, false, size, 0}; }
    void free(double share, double sd) { all[count++] = {share, true, 0, sd}; }
    const Size* begin() const { return all.data(); }
    const Size* end() const { return all.data() + count; }
};

class Causes {
  public:
    // All outlive it.
    Causes(const Book& book, const Where& where, const Figures& figures, const Designs& designs,
           const Model& model, const Evidence& evidence);

    // Every cause the book can hold, in a fixed order; shares of one kind add up to whatever they do, the
    // caller divides.
    using Visit = std::function<void(const Cause&)>;
    void each(const Visit& visit) const;
    // One error of an instrument that may be out: its tilt turns with a body whose axes are known.
    struct InstrumentColumn {
        enum class What : std::uint8_t { MainTilt, CrossTilt, Cone, Collimation } what;
        double sd;  // ten times what is believed of it

        double of(double u, double v, double d, bool oriented) const {
            if (what == What::Cone || what == What::Collimation) return d;
            return !oriented ? 0 : what == What::MainTilt ? u : v;
        }
    };
    std::vector<InstrumentColumn> instrument_columns(const Cause& cause) const;
    // What one of them is of a reading; 0 for readings of other instruments and stretches.
    double instrument_coefficient(const Cause& cause, const InstrumentColumn& column,
                                  std::uint32_t row) const;
    // How many columns a cause has: 1, of an instrument none to 3.
    std::size_t columns(const Cause& cause) const;
    Shifts column(const Cause& cause, std::size_t which = 0) const;
    Sizes sizes(const Cause& cause) const;
    // What a cause of size 1 does to an upright reading taken now, in a set-up, at a place (a fresh figure is
    // read right); `which` as in column.
    double effect_now(const Cause& cause, std::size_t which, std::int32_t setup, const SightPlace& place,
                      std::int32_t point, double staff) const;

    const Book& book() const { return book_; }
    const Model& model() const { return model_; }
    const Where& where() const { return where_; }
    const Figures& figures() const { return figures_; }
    // Rows of the readings on one tripod, in time order.
    std::span<const std::uint32_t> on_tripod(std::size_t setup) const;
    // Where a reading stands among them.
    std::size_t place_on_tripod(std::int32_t row) const;
    // The set-up read in last; -1 where nothing is read.
    std::int32_t standing() const { return standing_; }
    const SightRow& sight(std::int32_t row) const {
        return model_.sights.rows[static_cast<std::size_t>(row)];
    }
    const Reading& reading(std::int32_t row) const { return book_.readings[sight(row).reading]; }
    // A reading of the one tripod that all shifts are of; -1 where there is none.
    std::int32_t row_of_tripod(const Cause& cause, const Shifts& shifts) const;
    // Readings on the cause's tripod from its own on, in time order.
    std::span<const std::uint32_t> from_here(const Cause& cause) const;
    // Whether the tripod was first read from in this set-up.
    bool first_on_tripod(std::int32_t setup) const;
    const std::vector<std::pair<std::int32_t, std::int32_t>>& near_pairs() const { return near_pairs_; }
    // Set-ups in the order of their first readings.
    const std::vector<std::int32_t>& setup_order() const { return setup_order_; }

  private:
    void sort_rows();
    void sort_by_point();
    std::span<const std::uint32_t> rows_of(std::int32_t point) const;
    void note_change_points();
    void each_on_tripod(std::int32_t setup, const Visit& visit) const;
    void each_of_reading(std::int32_t row, const Visit& visit) const;
    // near: memory that is used again from reading to reading.
    void each_assignment(std::int32_t row, std::vector<std::int32_t>& near, const Visit& visit) const;
    void each_of_setup(std::int32_t setup, const Visit& visit) const;
    void each_change_point(std::int32_t setup, const Visit& visit) const;
    void each_section(std::int32_t setup, const Visit& visit) const;
    void each_gap(std::int32_t tripod, const Visit& visit) const;
    void each_benchmark(const Visit& visit) const;
    void each_instrument(const Visit& visit) const;

    std::string_view point_name(std::int32_t point) const;
    std::vector<std::int32_t> benchmarks_by_name() const;

    bool laser(std::int32_t setup) const;
    void add_sizes_of_reading(const Cause& cause, Sizes& sizes) const;
    double window_of(const Cause& cause) const;  // of the receiver in use
    double offset_in(std::int32_t row) const;    // what the receiver's figure added
    bool offset_may_lack(std::int32_t row) const;
    double minutes(std::int32_t row) const;  // since the tripod's first reading
    Instant time_of(std::int32_t row) const { return book_.entries[reading(row).entry].at; }
    std::array<double, 2> metre_along(std::int32_t row) const;
    double along_line(std::int32_t row) const;  // gradient of the light along the reading's line
    const std::array<double, 2>& dialled(std::int32_t setup) const {
        return model_.sights.setups[static_cast<std::size_t>(setup)].g;
    }
    double in_setup(const Cause& cause, double u, double v) const;
    double benchmark_now(const Cause& cause, std::int32_t point) const;
    double design_gradient(std::int32_t row) const;
    bool depends_on_chainage(std::int32_t row) const;
    void add_benchmark(std::size_t benchmark, Shifts& shifts) const;
    Shifts of_setup(const Cause& cause) const;
    Shifts of_distance(const Cause& cause) const;
    Shifts of_moved(const Cause& cause) const;
    Shifts of_instrument(const Cause& cause, std::size_t which) const;

    const Book& book_;
    const Where& where_;
    const Figures& figures_;
    const Designs& designs_;
    const Model& model_;
    const Evidence& evidence_;
    ByName lines_, receivers_;
    std::vector<PlanLine> plans_;                        // by line
    std::vector<std::uint32_t> by_point_, point_start_;  // rows by point
    std::vector<std::uint32_t> by_time_;                 // rows by tripod, in time order
    std::vector<std::uint32_t> tripod_start_;            // per set-up and one more
    std::vector<std::uint32_t> place_;                   // per row: its place in by_time_
    std::vector<std::int32_t> setup_order_, order_of_;   // by first reading; and back
    std::int32_t standing_ = -1;
    struct ChangePoint {
        std::int32_t point, setup, first_row;
        double share;
    };
    std::vector<ChangePoint> change_points_;                         // by set-up
    std::vector<std::pair<std::int32_t, std::int32_t>> near_pairs_;  // of points with near-equal names
    std::map<std::int32_t, std::vector<std::int32_t>> near_names_;   // by point, where it has any
};

}  // namespace fallwright
