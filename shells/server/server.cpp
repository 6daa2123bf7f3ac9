#include "shells/server/server.h"

#include <httplib.h>
#include <signal.h>  // sigwait and pthread_sigmask are of POSIX, not of <csignal>

#include <memory>
#include <thread>
#include <utility>

#include "shells/server/answer.h"

namespace fallwright::server {

namespace {

Asked asked_of(const httplib::Request& request) {
    return {request.method, request.path, request.get_header_value("Accept-Encoding"),
            request.get_header_value("If-None-Match")};
}

// By a provider of known length, so that the library leaves the bytes as they are: files that are worth it
// are compressed beforehand.
void give(Answer made, httplib::Response& response) {
    response.status = made.status;
    for (const Header& header : made.headers) response.set_header(header.name, header.value);
    if (made.body.empty()) {
        if (made.status == 200) response.set_header("Content-Type", made.type);
        return;
    }
    const auto body = std::make_shared<std::string>(std::move(made.body));
    response.set_content_provider(body->size(), made.type,
                                  [body](std::size_t from, std::size_t length, httplib::DataSink& sink) {
                                      return sink.write(body->data() + from, length);
                                  });
}

void set_up(const AppFiles& files, httplib::Server& server) {
    // The library would let a second server share the port in silence.
    server.set_socket_options([](socket_t socket) {
        const int yes = 1;
        setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof(yes));
    });
    constexpr std::size_t longest_body = 4096;
    server.set_payload_max_length(longest_body);
    server.set_pre_routing_handler([&files](const httplib::Request& request, httplib::Response& response) {
        give(answer(files, asked_of(request)), response);
        return httplib::Server::HandlerResponse::Handled;
    });
}

sigset_t ending_signals() {
    sigset_t set;
    sigemptyset(&set);
    sigaddset(&set, SIGINT);
    sigaddset(&set, SIGTERM);
    return set;
}

}  // namespace

bool serve(const AppFiles& files, const std::string& host, int port, const Opened& opened) {
    // Before any thread begins, so that the signal comes to sigwait alone.
    const sigset_t ending = ending_signals();
    pthread_sigmask(SIG_BLOCK, &ending, nullptr);
    httplib::Server server;
    set_up(files, server);
    const int bound = port == 0 ? server.bind_to_any_port(host.c_str())
                                : (server.bind_to_port(host.c_str(), port) ? port : -1);
    if (bound < 0) return false;
    opened(bound);
    std::thread listening([&server] { server.listen_after_bind(); });
    int signal = 0;
    sigwait(&ending, &signal);
    server.stop();
    listening.join();
    return true;
}

}  // namespace fallwright::server
