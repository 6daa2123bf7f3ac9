// What the leak sanitizer is not to report: fontconfig keeps the fonts it found until the process ends, once,
// and however many papers are written (1.06 MB after one run of the tests of paper as after three).
// NOLINTNEXTLINE(bugprone-reserved-identifier): the sanitizer's own name for it
extern "C" const char* __lsan_default_suppressions();
// NOLINTNEXTLINE(bugprone-reserved-identifier)
extern "C" const char* __lsan_default_suppressions() {
    return "leak:libfontconfig\n";
}
