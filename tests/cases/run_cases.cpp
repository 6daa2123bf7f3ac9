// run_cases: runs case files (cases/FORMAT.md) against the product's one door and says what did not hold.
//
//   run_cases [--all] [--parse] [--emit DIR] FILE_OR_FOLDER...
//
//   --all     list every expectation, with the digits that agree, not only what failed
//   --parse   read the files only
//   --emit    write each request and the answer to it into DIR, so that another build can be compared byte by
//             byte: NAME.request.json, NAME.response.json
//
// A folder is searched with those in it; each folder named, and each below it, must hold a case file. A file
// NAME.failing holds what is known to fail: it is counted apart, and complained of once everything in it
// holds. Exit 0 when all is as expected, 1 otherwise, 2 when called wrongly.
#include <algorithm>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "case_check.h"
#include "case_file.h"
#include "desk/desk.h"

namespace fs = std::filesystem;

namespace {

using namespace fallwright::cases;

struct Options {
    bool all = false;
    bool parse_only = false;
    fs::path emit;
    std::vector<fs::path> places;
};

struct Tally {
    int files = 0, cases = 0, passed = 0, failed = 0, known = 0;
};

bool is_case_file(const fs::path& path) {
    return path.extension() == ".case";
}
bool is_failing_file(const fs::path& path) {
    return path.extension() == ".failing";
}

std::string content(const fs::path& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

class Runner {
  public:
    explicit Runner(const Options& options) : options_(options) {}
    void place(const fs::path& path);
    const Tally& tally() const { return tally_; }

  private:
    void folder(const fs::path& path);
    void file(const fs::path& path);
    int run_case(const Case& c, const std::string& name, bool known_failing);
    std::string answer(const Run& run, const std::string& name) const;
    void report(const Expectation& e, const Outcome& outcome, const std::string& name) const;
    void fail(const std::string& where, const std::string& sentence);

    const Options& options_;
    Tally tally_;
};

void Runner::fail(const std::string& where, const std::string& sentence) {
    std::printf("%s: %s\n", where.c_str(), sentence.c_str());
    ++tally_.failed;
}

void Runner::place(const fs::path& path) {
    if (fs::is_directory(path))
        folder(path);
    else if (fs::exists(path))
        file(path);
    else
        fail(path.string(), "there is no such file or folder");
}

void Runner::folder(const fs::path& path) {
    std::vector<fs::path> files, folders;
    for (const fs::directory_entry& entry : fs::directory_iterator(path)) {
        if (entry.is_directory())
            folders.push_back(entry.path());
        else if (is_case_file(entry.path()) || is_failing_file(entry.path()))
            files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    std::sort(folders.begin(), folders.end());
    if (files.empty() && folders.empty()) fail(path.string(), "a folder without a case");
    for (const fs::path& f : files) file(f);
    for (const fs::path& f : folders) folder(f);
}

void Runner::file(const fs::path& path) {
    ++tally_.files;
    const CaseFile read = read_case_file(content(path));
    for (const FileComplaint& c : read.complaints)
        fail(path.string() + ":" + std::to_string(c.line), c.sentence);
    tally_.cases += static_cast<int>(read.cases.size());
    if (options_.parse_only) return;
    const bool known = is_failing_file(path);
    for (const Case& c : read.cases) {
        const int failed = run_case(c, path.string(), known);
        if (known && failed == 0)
            fail(path.string() + ":" + std::to_string(c.line), c.id + " holds now: move it to a .case file");
        (known ? tally_.known : tally_.failed) += failed;
    }
}

int Runner::run_case(const Case& c, const std::string& name, bool known_failing) {
    int failed = 0;
    Json before;
    for (const Run& run : c.runs) {
        Json response = Json::parse(answer(run, name), nullptr, false);
        if (response.is_discarded()) response = Json::object();
        for (const Expectation& e : run.expectations) {
            const Outcome outcome = check(e, response, before);
            ++(outcome.passed ? tally_.passed : failed);
            if (options_.all || (!outcome.passed && !known_failing)) report(e, outcome, name);
        }
        before = std::move(response);
    }
    return failed;
}

std::string Runner::answer(const Run& run, const std::string& name) const {
    std::string response = fallwright::desk::answer(run.request);
    if (options_.emit.empty()) return response;
    std::string stem = fs::path(name).parent_path().filename().string() + "-" +
                       fs::path(name).stem().string() + "-" + std::to_string(run.line);
    std::ofstream(options_.emit / (stem + ".request.json"), std::ios::binary) << run.request;
    std::ofstream(options_.emit / (stem + ".response.json"), std::ios::binary) << response;
    return response;
}

void Runner::report(const Expectation& e, const Outcome& outcome, const std::string& name) const {
    std::printf("%s:%d: %s\n    %s: got %s", name.c_str(), e.line, e.text.c_str(),
                outcome.passed ? "holds" : "does not hold", outcome.got.c_str());
    if (outcome.digits >= 0)
        std::printf(", difference %s, %d digits agree", outcome.difference.c_str(), outcome.digits);
    std::printf("\n");
}

bool read_options(int count, char** words, Options& options) {
    for (int i = 1; i < count; ++i) {
        const std::string word = words[i];
        if (word == "--all")
            options.all = true;
        else if (word == "--parse")
            options.parse_only = true;
        else if (word == "--emit" && i + 1 < count)
            options.emit = words[++i];
        else if (word.rfind("--", 0) == 0)
            return false;
        else
            options.places.emplace_back(word);
    }
    return !options.places.empty();
}

int run(const Options& options) {
    if (!options.emit.empty()) fs::create_directories(options.emit);
    Runner runner(options);
    for (const fs::path& place : options.places) runner.place(place);
    const Tally& tally = runner.tally();
    std::printf("%d cases in %d files", tally.cases, tally.files);
    if (tally.known > 0) std::printf(", %d known not to hold", tally.known);
    std::printf("\n%d passed, %d failed\n", tally.passed, tally.failed);
    return tally.failed == 0 ? 0 : 1;
}

}  // namespace

int main(int count, char** words) {
    try {
        Options options;
        if (read_options(count, words, options)) return run(options);
        std::fputs("run_cases [--all] [--parse] [--emit DIR] FILE_OR_FOLDER...\n", stderr);
    } catch (const std::exception& problem) {
        std::fprintf(stderr, "run_cases: %s\n", problem.what());
    }
    return 2;
}
