#include "shells/cli/beside.h"

#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>

namespace fallwright::cli {

namespace {

std::string path_of(const std::string& name) {
    std::error_code error;
    const std::filesystem::path self = std::filesystem::read_symlink("/proc/self/exe", error);
    return (self.parent_path() / ("fallwright-" + name)).string();
}

// As the system wants them: the program first, a null last. They point into `words`.
std::vector<char*> pointers_to(std::vector<std::string>& words) {
    std::vector<char*> pointers;
    pointers.reserve(words.size() + 1);
    for (std::string& word : words) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    return pointers;
}

int not_started(const std::string& name, const std::string& program) {
    std::fprintf(stderr,
                 "fallwright: the program fallwright-%s is not beside this one (%s); install or build it\n",
                 name.c_str(), program.c_str());
    return 2;
}

std::vector<std::string> words_of(const std::string& program, const std::vector<std::string>& arguments) {
    std::vector<std::string> words = {program};
    words.insert(words.end(), arguments.begin(), arguments.end());
    return words;
}

}  // namespace

int become(const std::string& name, const std::vector<std::string>& arguments) {
    const std::string program = path_of(name);
    std::vector<std::string> words = words_of(program, arguments);
    std::fflush(nullptr);
    execv(program.c_str(), pointers_to(words).data());
    return not_started(name, program);
}

int run_beside(const std::string& name, const std::vector<std::string>& arguments) {
    const std::string program = path_of(name);
    std::vector<std::string> words = words_of(program, arguments);
    std::fflush(nullptr);
    pid_t child = 0;
    if (posix_spawn(&child, program.c_str(), nullptr, nullptr, pointers_to(words).data(), environ) != 0)
        return not_started(name, program);
    int status = 0;
    if (waitpid(child, &status, 0) == child && WIFEXITED(status)) return WEXITSTATUS(status);
    std::fprintf(stderr, "fallwright: fallwright-%s ended before it was done; try again\n", name.c_str());
    return 2;
}

}  // namespace fallwright::cli
