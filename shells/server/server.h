// server: the app's files on a port, until told to end.
#pragma once

#include <functional>
#include <string>

#include "shells/server/app_files.h"

namespace fallwright::server {

// What there is to say once the port is open.
using Opened = std::function<void(int port)>;

// Listens on host and port (0: one that is free), says so, and serves until SIGINT or SIGTERM. False where
// the port cannot be had.
bool serve(const AppFiles& files, const std::string& host, int port, const Opened& opened);

}  // namespace fallwright::server
