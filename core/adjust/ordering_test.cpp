#include "adjust/ordering.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "adjust/dense_reference.h"
#include "adjust/ldlt.h"
#include "adjust/selected_inverse.h"
#include "adjust/tree.h"

namespace fallwright::adjust {
namespace {

using Terms = std::vector<Term>;

Problem columns(int count) {
    Problem problem;
    for (int k = 0; k < count; ++k) problem.add_column();
    return problem;
}

void tie(Problem& problem, Column a, Column b) {
    problem.add_row(Terms{{a, 1.0}, {b, -1.0}}, 0, 0.001);
}

Graph graph_of(const Problem& problem) {
    const Incidence incidence = incidence_of(problem);
    return graph_of(problem, incidence, group_columns(problem, incidence));
}

Tree tree_of(const Problem& problem) {
    const Incidence incidence = incidence_of(problem);
    return tree_of(problem, incidence, elimination_order(problem, incidence));
}

int height(const Tree& tree) {
    std::vector<int> depth(tree.parent.size(), 1);
    int most = 0;
    for (std::size_t k = depth.size(); k-- > 0;) {
        if (tree.parent[k] != no_node) depth[k] = depth[tree.parent[k]] + 1;
        most = std::max(most, depth[k]);
    }
    return most;
}

void expect_permutation(std::vector<Column> order, std::size_t size) {
    std::sort(order.begin(), order.end());
    ASSERT_EQ(order.size(), size);
    for (std::size_t k = 0; k < size; ++k) EXPECT_EQ(order[k], static_cast<Column>(k));
}

TEST(Ordering, ALineIsPeeledAwayAndItsTreeIsAsLowAsItsLogarithm) {
    Problem problem = columns(4096);
    for (Column k = 0; k + 1 < 4096; ++k) tie(problem, k, k + 1);
    EXPECT_TRUE(peel(graph_of(problem)).core.empty());
    EXPECT_LE(height(tree_of(problem)), 26);
}

TEST(Ordering, ARingIsPeeledAway) {
    Problem problem = columns(1000);
    for (Column k = 0; k < 1000; ++k) tie(problem, k, (k + 1) % 1000);
    EXPECT_TRUE(peel(graph_of(problem)).core.empty());
}

TEST(Ordering, FourThatAllSeeEachOtherAreACore) {
    Problem problem = columns(6);
    for (Column a = 0; a < 4; ++a)
        for (Column b = 0; b < a; ++b) tie(problem, a, b);
    tie(problem, 3, 4);
    tie(problem, 4, 5);
    const Peeled peeled = peel(graph_of(problem));
    EXPECT_EQ(peeled.core, (std::vector<Node>{0, 1, 2, 3}));
    EXPECT_EQ(peeled.graph.neighbour.size(), 12);
}

// Two lines of 1000 points tied at every step: nothing of it can be peeled, and minimum degree alone would
// make a tree of a thousand.
TEST(Ordering, ALadderIsCutInTheMiddle) {
    Problem problem = columns(2000);
    for (Column k = 0; k < 2000; ++k) {
        if (k >= 2) tie(problem, k, k - 2);
        if (k % 2 == 1) tie(problem, k, k - 1);
    }
    EXPECT_LE(height(tree_of(problem)), 80);
}

TEST(Ordering, ColumnsOfTheSameRowsAreOneGroup) {
    Problem problem = columns(5);
    problem.add_row(Terms{{0, 1.0}, {1, 2.0}, {2, 0.0}, {3, 1.0}}, 0, 1);
    problem.add_row(Terms{{0, 1.0}, {1, 2.0}, {2, 5.0}, {4, 1.0}}, 0, 1);
    const Groups groups = group_columns(problem, incidence_of(problem));
    ASSERT_EQ(groups.size(), 3);
    EXPECT_EQ(groups.of[0], groups.of[1]);
    EXPECT_EQ(groups.of[0], groups.of[2]);
    EXPECT_NE(groups.of[3], groups.of[4]);
}

TEST(Ordering, AColumnThatAllRowsShareIsDenseAndLast) {
    Problem problem = columns(500);
    for (Column k = 2; k < 500; ++k) problem.add_row(Terms{{k, 1.0}, {k - 1, -1.0}, {0, 1.0}}, 0, 1);
    const Incidence incidence = incidence_of(problem);
    EXPECT_EQ(group_columns(problem, incidence).dense, std::vector<Column>{0});
    EXPECT_EQ(elimination_order(problem, incidence).back(), 0);
}

TEST(Ordering, EveryColumnIsOrderedOnce) {
    for (std::uint64_t seed = 1; seed <= 20; ++seed) {
        const Problem problem = dense::network(seed, 10 + 5 * seed, 7);
        expect_permutation(tree_of(problem).order, problem.columns());
    }
}

TEST(Ordering, EverySubtreeIsARange) {
    const Tree tree = tree_of(dense::network(3, 40, 6));
    std::vector<Column> below(tree.order.size(), 1);
    for (std::size_t k = 0; k < below.size(); ++k) {
        EXPECT_EQ(tree.first[k], static_cast<Column>(k) + 1 - below[k]);
        if (tree.parent[k] == no_node) continue;
        EXPECT_GT(tree.parent[k], static_cast<Node>(k));
        below[tree.parent[k]] += below[k];
    }
}

TEST(Ordering, AnyTwoColumnsOfARowMeetInTheFactor) {
    const Problem problem = dense::network(4, 40, 6);
    const Incidence incidence = incidence_of(problem);
    const Tree tree = tree_of(problem);
    const ScaledRows rows = scale_rows(problem, incidence, tree.order);
    const Ldlt l = factorise(rows, tree);
    const SelectedInverse inverse = selected_inverse(l);
    for (std::size_t i = 0; i < rows.rows(); ++i)
        for (const Column a : rows.places(i))
            for (const Column b : rows.places(i)) EXPECT_NE(inverse.find(l, a, b), nullptr);
}

}  // namespace
}  // namespace fallwright::adjust
