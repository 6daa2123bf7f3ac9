// sheets: the sheets of a workbook, each from an evaluation. Inside workbook only.
#pragma once

#include "evaluation/evaluation.h"
#include "exchange/native/workbook/sheet.h"

namespace fallwright::workbook {

// A sheet is begun in its place among the others and told to write itself.
void write_level_book(const Evaluation& evaluation, Sheet& sheet);
void write_levels(const Evaluation& evaluation, Sheet& sheet);
void write_stations(const Evaluation& evaluation, Sheet& sheet);
void write_falls(const Evaluation& evaluation, Sheet& sheet);
void write_readings(const Evaluation& evaluation, Sheet& sheet);
// What to know before one reads the others: facts, findings, cautions.
struct Fact {
    std::string name, text;
};
void write_about(const Evaluation& evaluation, const std::vector<Fact>& facts, Sheet& sheet);

// Heads of their columns; lengths with the unit.
std::vector<Head> level_book_heads(const std::string& unit);
std::vector<Head> levels_heads(const std::string& unit);
std::vector<Head> stations_heads(const std::string& unit);
std::vector<Head> falls_heads(const std::string& unit);
std::vector<Head> readings_heads(const std::string& unit);
std::vector<Head> about_heads();

}  // namespace fallwright::workbook
