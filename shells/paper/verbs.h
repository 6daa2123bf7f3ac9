// verbs: what each command of fallwright-paper does. Each returns the exit code: 0 done, 2 unusable input or
// a file that cannot be written, one line said why.
#pragma once

#include <string>

#include "base/finding.h"

namespace fallwright::paper {

// Says the finding in one line on standard error, with `json` also as {"error": finding} on standard output.
int refuse(const Finding& found, bool json);

struct ReportArguments {
    std::string book, to;
    std::string paper = "A4", made_at;
    bool one_page = false;
};
// The record of a job as PDF.
int write_report(const ReportArguments& arguments, bool json);

// The book at `book` as a spreadsheet at `to`.
int export_workbook(const std::string& book, const std::string& to, bool json);

}  // namespace fallwright::paper
