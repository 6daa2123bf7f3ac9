#include "shells/cli/beside.h"

#include <unistd.h>

#include <cstdio>
#include <filesystem>

namespace fallwright::cli {

int become(const std::string& name, const std::vector<std::string>& arguments) {
    std::error_code error;
    const std::filesystem::path self = std::filesystem::read_symlink("/proc/self/exe", error);
    const std::string program = (self.parent_path() / ("fallwright-" + name)).string();
    std::vector<std::string> words = arguments;
    words.insert(words.begin(), program);
    std::vector<char*> pointers;
    pointers.reserve(words.size() + 1);
    for (std::string& word : words) pointers.push_back(word.data());
    pointers.push_back(nullptr);
    std::fflush(nullptr);
    execv(program.c_str(), pointers.data());
    std::fprintf(stderr,
                 "fallwright: the program fallwright-%s is not beside this one (%s); install or build it\n",
                 name.c_str(), program.c_str());
    return 2;
}

}  // namespace fallwright::cli
