// What the leak sanitizer is not to report: fontconfig keeps the fonts it found until the process ends, once,
// and however many papers are written (1.06 MB after one run of the tests of paper as after three).
extern "C" const char* __lsan_default_suppressions();
extern "C" const char* __lsan_default_suppressions() {
    return "leak:libfontconfig\n";
}
