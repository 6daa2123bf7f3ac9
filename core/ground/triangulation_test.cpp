#include "ground/triangulation.h"

#include <gtest/gtest.h>

namespace fallwright::ground {
namespace {

TEST(Triangulation, SquareIsCutThroughItsSouthWestCorner) {
    SurfaceInput input;
    input.spots = {{10, 10, 3}, {0, 0, 1}, {0, 10, 2}, {10, 0, 2}};
    const Result<Triangulation> made = triangulate(input);
    ASSERT_TRUE(made);
    EXPECT_EQ(made->triangles(), 2);
    EXPECT_DOUBLE_EQ(level_at(*made, {2.5, 2.5}), 1.5);
    EXPECT_DOUBLE_EQ(level_at(*made, {10, 10}), 3);
}

}  // namespace
}  // namespace fallwright::ground
