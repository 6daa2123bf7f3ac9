// A case file, read: its cases, their runs with the requests they make, and what is expected of each answer.
// The language is described in cases/FORMAT.md.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "case_book.h"
#include "case_path.h"

namespace fallwright::cases {

struct Expectation {
    enum class What { Figure, Value, Below, Above, Contains, Finding, NoFinding, Failure, AsBefore };
    What what = What::Value;
    int line = 0;
    std::string text;  // as written, for the report

    struct Term {
        std::string path;
        bool subtract = false;
    };
    std::vector<Term> terms;  // the figure is their sum; one term for anything else
    double value = 0;         // in the product's units
    double tolerance = 0;
    std::string json;  // Value, Contains: the value as JSON text
    std::string code;  // Finding, NoFinding (empty: any), Failure
    std::string about;
};

struct Run {
    int line = 0;
    std::string request;
    std::vector<Expectation> expectations;
};

struct Case {
    int line = 0;
    std::string id, title, source, provenance;
    std::vector<Run> runs;
};

struct FileComplaint {
    int line = 0;
    std::string sentence;
};

struct CaseFile {
    std::vector<Case> cases;
    std::vector<FileComplaint> complaints;
};

CaseFile read_case_file(std::string_view text);

// The words after `expect`. Throws Complaint.
Expectation read_expectation(const std::vector<std::string>& words);

}  // namespace fallwright::cases
