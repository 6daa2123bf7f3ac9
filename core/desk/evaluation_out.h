// evaluation_out: what the writers of an evaluation's parts share. Inside desk only.
//
// Lengths come as metres and go out in the book's unit; NaN and absent values go out as null.
#pragma once

#include <optional>
#include <string_view>

#include "base/json_out.h"
#include "base/print.h"
#include "evaluation/evaluation.h"
#include "verdict/verdict.h"

namespace fallwright {

class EvaluationOut {
  protected:
    EvaluationOut(const Evaluation& evaluation, JsonOut& out)
        : evaluation_(evaluation), book_(*evaluation.book), model_(*evaluation.model), out_(out) {}

    void length(std::string_view key, double metres) {
        out_.number(key, book_.in_unit(metres), length_places);
    }
    void length(std::string_view key, Decimal value) { length(key, value.metres()); }
    void length(std::string_view key, const std::optional<Decimal>& value) {
        if (value) {
            length(key, *value);
        } else {
            out_.null(key);
        }
    }
    void gradient(std::string_view key, double ratio) { out_.number(key, ratio, gradient_places); }

    const Evaluation& evaluation_;
    const Book& book_;
    const Model& model_;
    JsonOut& out_;
};

// The members "suspects" and "none", where somebody asked for them.
void write_suspects(const Evaluation& evaluation, JsonOut& out);
// "not_noticed" and "before_lifting".
void write_unnoticed(const Evaluation& evaluation, JsonOut& out);
// The members "pages" and "closures", and "lines" with their fits, stations and falls.
void write_pages(const Evaluation& evaluation, JsonOut& out);
void write_lines(const Evaluation& evaluation, JsonOut& out);
// The member "surfaces", where the book has any.
void write_surfaces(const Evaluation& evaluation, JsonOut& out);
// "evenness" and "sections" of one line.
void write_evenness(const Evaluation& evaluation, std::size_t line, const LineJudge& judge, JsonOut& out);

}  // namespace fallwright
