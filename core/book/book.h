// book: the entries of one file, amended and struck as the book says, ready to be evaluated.
//
// read_book() is total: any bytes give a book or the one finding that says why the file is none. A wrong line
// is left out with a finding that names it and the cure; the rest stands. Nothing is derived here but what
// the contract says about the entries themselves: ids, time order, the last set-up, names of points on a
// line.
//
// Order: the arrays stand in the order of lines; `time_order` is by time, ties by line.
#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "base/finding.h"
#include "base/result.h"
#include "book/entry.h"
#include "book/line_entry.h"
#include "quantity/unit.h"

namespace fallwright {

// Arrays hold only entries that are used: what is struck, refused or a duplicate is not in them.
// Entry::refused tells for each line. Indices into these arrays and into `names` stay valid as long as the
// book.
struct Book {
    std::string text;  // the bytes as read; whoever wants no line again may forget_text()
    Names names;
    Unit unit = Unit::Metre;   // of the file and of results; everything here is metres
    std::string title, datum;  // as written; empty where not given
    bool curvature = true;

    // Entry by entry, whatever became of it; the arrays after it hold what is used.
    std::vector<Entry> entries;  // all lines, the first is the book itself
    std::vector<Benchmark> benchmarks;
    std::vector<Instrument> instruments;
    std::vector<Staff> staffs;
    std::vector<Receiver> receivers;
    std::vector<LineEntry> lines;
    std::vector<PlaceEntry> places;
    std::vector<Setup> setups;
    std::vector<Reading> readings;
    std::vector<Step> steps;
    std::vector<WhatEntry> whats;
    std::vector<Tolerance> tolerances;
    std::vector<Trial> trials;
    std::vector<SurfaceEntry> surfaces;
    std::vector<Want> wants;
    std::vector<Rule> rules;
    std::vector<Relaid> relaids;
    std::vector<Adjusted> adjusted;
    std::vector<Remark> remarks;
    std::vector<OnSuspicion> on_suspicion;  // amends that stand

    std::vector<std::uint32_t>
        readings_by_time;  // indices of readings that are evaluated, planned ones left out
    Findings findings;     // of reading the book; later stages have their own

    // Gives back a sixth of the memory of a large book. Lines cannot be looked up any more: offsets and
    // lengths of entries lead nowhere.
    void forget_text() {
        text.clear();
        text.shrink_to_fit();
    }
    // Metres in one unit of the book: 1 or metres_per_foot.
    double metres_per_unit() const { return unit == Unit::Foot ? metres_per_foot : 1.0; }
    // A length in metres as a number of the book's unit.
    double in_unit(double metres) const { return unit == Unit::Foot ? metres / metres_per_foot : metres; }
    // "CREW-7", or "#12" for an entry without id.
    std::string id_of(std::uint32_t entry) const;
    std::string name(NameId id) const { return std::string(names.text(id)); }
};

// Reads a whole file. Fails only where the first line is no book of a known version (NotABook).
// Cost: about 4 us and a few hundred bytes a line; a book with amendments or strikes is read twice.
Result<std::unique_ptr<Book>> read_book(std::string text);

// Index of the set-up whose tripod this one stands on: itself, or where `head` leads if that set-up has a
// place. Place, bearing, staff, receiver and aim are that set-up's.
std::size_t tripod_of(const Book& book, std::size_t setup);

// Lookup by name, made once for many questions.
// Index of the entry with that name in a vector of a kind; -1 where there is none.
// Keeps no reference to the entries: it may outlive them.
class ByName {
  public:
    template <class Entries>
    explicit ByName(const Entries& entries) {
        for (std::size_t i = 0; i < entries.size(); ++i)
            index_.emplace(entries[i].name, static_cast<std::int32_t>(i));
    }
    std::int32_t operator()(NameId name) const {
        const auto found = index_.find(name);
        return found == index_.end() ? -1 : found->second;
    }

  private:
    std::unordered_map<NameId, std::int32_t> index_;
};

// The name of a point read on a line: "D1 8.000 laid", "R1 40.000 L3.500 ground"; chainage and offset in the
// book's unit with three decimals; an offset under 0.0005 is none; what defaults to ground.
std::string line_point_name(std::string_view line, double ch, double off, std::string_view what);

}  // namespace fallwright
