// beside: the programs that lie beside this one, for verbs that need libraries a command should not load at
// its start.
#pragma once

#include <string>
#include <vector>

namespace fallwright::cli {

// Runs fallwright-NAME with these arguments in this program's place, so that what it says and its exit code
// are the verb's. It is looked for in the folder this program lies in. Returns only where it cannot be
// started: 2, one line said.
int become(const std::string& name, const std::vector<std::string>& arguments);

// Runs it beside this one and waits: its exit code; 2, one line said, where it cannot be started or was ended
// by a signal.
int run_beside(const std::string& name, const std::vector<std::string>& arguments);

}  // namespace fallwright::cli
