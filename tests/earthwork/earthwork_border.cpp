// Volumes as text: surfaces on standard input, what lies between them on standard output, 17 digits.
//
//   spot E N LEVEL             of the surface
//   under E N LEVEL            of another one
//   plane LEVEL EAST NORTH     what it is held against: its level at 0, 0 and its rise
//   placed P                   what 1 m3 cut fills
// answers, in this order, those asked for only:
//   triangle A B C             spots, counterclockwise; one line a triangle
//   plane CUT FILL CUT_AREA FILL_AREA
//   weight CUT FILL            how both grow with a spot's level; one line a spot of the triangles, in their
//   order balance RAISED between AREA CUT FILL
// Exit 2 on a line that is none of these, or where no surface can be made.
#include <cstdio>
#include <iostream>
#include <sstream>
#include <string>
#include <vector>

#include "ground/balance.h"
#include "ground/prisms.h"

namespace {

using namespace fallwright::ground;

struct Input {
    SurfaceInput upper, lower;
    double level = 0, east = 0, north = 0, placed = 0;
};

bool read_line(const std::string& text, Input& input) {
    std::istringstream line(text);
    std::string word;
    line >> word;
    SpotLevel spot;
    if (word == "plane") return static_cast<bool>(line >> input.level >> input.east >> input.north);
    if (word == "placed") return static_cast<bool>(line >> input.placed);
    if (word != "spot" && word != "under") return false;
    if (!(line >> spot.e >> spot.n >> spot.level)) return false;
    (word == "spot" ? input.upper : input.lower).spots.push_back(spot);
    return true;
}

void write_triangles(const Sheet& sheet) {
    for (const auto& triangle : sheet.triangles) {
        std::printf("triangle");
        for (const std::int32_t corner : triangle)
            std::printf(" %d", sheet.spot[static_cast<std::size_t>(corner)]);
        std::printf("\n");
    }
}

void write_to_plane(const Sheet& sheet, const Input& input) {
    Prisms prisms = prisms_under(sheet);
    for (std::size_t i = 0; i < prisms.bases; ++i)
        prisms.height[i] -= input.level + input.east * (sheet.at[i].e + sheet.origin.e) +
                            input.north * (sheet.at[i].n + sheet.origin.n);
    prisms.settle();
    const Earthwork work = earthwork(prisms);
    std::printf("plane %.17g %.17g %.17g %.17g\n", work.cut, work.fill, work.cut_area, work.fill_area);
    const EarthworkWeights weights = earthwork_weights(prisms);
    for (std::size_t i = 0; i < prisms.bases; ++i)
        std::printf("weight %d %.17g %.17g\n", sheet.spot[i], weights.cut[i], weights.fill[i]);
    if (input.placed > 0) std::printf("balance %.17g\n", balance(prisms, input.placed).raised);
}

void write_between(const Sheet& upper, const Sheet& lower) {
    const Prisms prisms = prisms_between(upper, lower);
    double area = 0;
    for (const Prism& prism : prisms.prisms) area += prism.area;
    const Earthwork work = earthwork(prisms);
    std::printf("between %.17g %.17g %.17g\n", area, work.cut, work.fill);
}

int refuse(const char* why) {
    std::fprintf(stderr, "earthwork_border: %s\n", why);
    return 2;
}

}  // namespace

int main() {
    Input input;
    for (std::string text; std::getline(std::cin, text);) {
        if (!text.empty() && !read_line(text, input)) return refuse("a line is none of a surface");
    }
    const auto upper = triangulate(input.upper);
    if (!upper) return refuse(upper.finding().message.c_str());
    const Sheet sheet = sheet_of(*upper);
    write_triangles(sheet);
    write_to_plane(sheet, input);
    if (input.lower.spots.empty()) return 0;
    const auto lower = triangulate(input.lower);
    if (!lower) return refuse(lower.finding().message.c_str());
    write_between(sheet, sheet_of(*lower));
    return 0;
}
