// report_answer: the signed record of a book, as one HTML file or as text.
//
// The stage record chooses and words it (record/report.h); here the request is read and the answer written.
// Shells that make paper of it take the document itself. Cautions stand in every form and have no option.
#pragma once

#include <memory>
#include <string>

#include "base/result.h"
#include "desk/options.h"
#include "evaluation/evaluation.h"
#include "record/report.h"

namespace fallwright {

// The evaluation stays with the answer.
struct ReportAnswer {
    std::shared_ptr<const Evaluation> evaluation;
    record::Wanted wanted;
    sheet::Document document;
    bool html = true;  // else text
};

// Options, all of them optional: form (full, one-page), paper (A4, Letter), as (html, text); fingerprint (64
// hexadecimal digits), book_name and made_at (RFC 3339), which only a shell knows.
// changes: of the same book (book/change.h).
Result<ReportAnswer> report_answer(const std::shared_ptr<const Book>& book, std::vector<BookChange> changes,
                                   desk::Options& options);
// The JSON of api/schema/v1/report.schema.json.
std::string report_json(const ReportAnswer& answer);

}  // namespace fallwright
