/* The border of the WebAssembly module: open, run, free, version. Plain C, so that any host can call it.
 *
 * Who owns what
 *   in    The caller allocates (in the module: the exported malloc), writes UTF-8 bytes, passes pointer and
 *         size, and frees its own buffer (the exported free) as soon as the call has returned. Nothing is
 *         kept of it; a terminating zero is neither needed nor looked for. (NULL, 0) is an empty text.
 *   out   Every call answers with one fw_reply, owned by the caller until fw_free. A reply does not move;
 *         in WebAssembly the memory may grow in any call, so take fresh views of it after each one.
 *   null  instead of a reply: there was no memory left, or the module failed inside. What is held already
 *         is still readable, but start a new instance before going on.
 *
 * No exception crosses the border, nothing is printed, read, or kept between calls except in replies; calls
 * on different replies may run in different threads natively.
 *
 *     fw_reply* book = fw_open(text, size);                      status 0, or 1 with {"error": ...}
 *     fw_reply* reply = fw_run(book, request, request_size);     {"verb": "evaluate", "options": {}}
 *     ... reply->text, reply->size ...
 *     fw_free(reply);
 *     fw_free(book);
 */
#ifndef FALLWRIGHT_SHELLS_WASM_BORDER_H
#define FALLWRIGHT_SHELLS_WASM_BORDER_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/* In WebAssembly three 32-bit words: text at 0, size at 4, status at 8. */
typedef struct fw_reply {
    const char* text; /* JSON, UTF-8, not terminated by zero */
    size_t size;      /* bytes of text */
    int status; /* 0 answered, also where the answer is an error of the request; 1 fw_open found no book */
} fw_reply;

/* Reads a whole book file. Status 0: an open book, text empty, to be passed to fw_run as often as wanted.
 * Status 1: text is {"error": finding}; fw_run on such a reply answers with the same text. */
fw_reply* fw_open(const char* book, size_t size);

/* Answers one request, with the bytes that the command line gives with --json.
 *   opened   from fw_open: the request is {"verb", "options"}
 *            NULL: the request says everything itself, {"verb", "book", "options"}; book only for verbs
 *            that need one */
fw_reply* fw_run(const fw_reply* opened, const char* request, size_t size);

/* Gives back a reply or an open book; NULL is allowed. Replies made from a book outlive it. */
void fw_free(fw_reply* reply);

/* The version of the core, like 1.0.0: static, terminated by zero, never freed. */
const char* fw_version(void);

#ifdef __cplusplus
}
#endif

#endif
