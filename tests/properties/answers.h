// answers: what the core says to a random book, and how two answers are compared.
#pragma once

#include <map>
#include <string>

#include "evaluation/evaluation.h"
#include "properties/random_book.h"

namespace fallwright::properties {

// The book evaluated; a book that cannot be read fails the property.
Evaluation evaluated(const RandomBook& book);
Evaluation evaluated(const std::string& text);

// The answer of the one door to {"verb": verb, "book": text}, its bytes and as JSON.
std::string answer_to(const std::string& text, const std::string& verb = "evaluate");
Json answer_json(const RandomBook& book);

std::map<std::string, PointLevel> levels_of(const Evaluation& evaluation);

// Both absent (NaN), or apart by no more than `tolerance`.
bool same(double a, double b, double tolerance);
// Apart by no more than `relative` of the larger one, or 1e-12.
bool alike(double a, double b, double relative);

// Level, uncertainty, count and check of every point, within 1e-9 m (sd 1e-7 of itself).
bool same_levels(const std::map<std::string, PointLevel>& a, const std::map<std::string, PointLevel>& b);

}  // namespace fallwright::properties
