package quadrille.plan.visit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import java.util.Random;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Orders with nothing to numb, against published optima and against all orders. */
final class OrderSearchTest {
  private static final int ALL = 3_000_000;

  /**
   * Sequential ordering problems of TSPLIB (Reinelt, "TSPLIB: a traveling salesman problem
   * library", 1991), with the optima that its page lists. The files are not ours to carry: {@code
   * -Dtsplib.sop=FOLDER} names where they are, by default {@code shared/data/tsplib-sop} beside or
   * above this checkout.
   */
  @ParameterizedTest
  @CsvSource({"ESC07, 2125", "ESC12, 1675", "br17.12, 55"})
  void reachesThePublishedOptimum(String name, int optimum) throws IOException {
    Path folder = folder();
    assumeTrue(folder != null, "the folder shared/data/tsplib-sop is not here");
    Path file = Objects.requireNonNull(folder).resolve(name + ".sop");
    assumeTrue(Files.exists(file), file + " is not here");
    OrderSearch.Found found = OrderSearch.run(problem(matrix(file)), ALL);
    assertEquals(optimum, found.end());
    assertEquals(optimum, found.bound());
  }

  /** A narrow beam may miss the best order, but what it says of it holds. */
  @ParameterizedTest
  @ValueSource(ints = {1, 3, 20})
  void theBoundOfANarrowSearchNeverLiesAboveTheBestOrder(int width) {
    int missed = 0;
    for (int seed = 0; seed < 60; seed++) {
      OrderProblem problem = problem(random(seed));
      int best = OrderSearch.run(problem, ALL).end();
      OrderSearch.Found narrow = OrderSearch.run(problem, width);
      assertTrue(narrow.bound() <= best && best <= narrow.end());
      missed += narrow.end() > best ? 1 : 0;
    }
    assertTrue(width > 1 || missed > 0, "the narrowest never misses");
  }

  @Test
  void findsNothingThatDoesNotEndSooner() {
    OrderProblem problem = problem(random(1));
    int best = OrderSearch.run(problem, ALL).end();
    OrderSearch.Found found = OrderSearch.run(problem, ALL, OrderSearch.rank(best, best));
    assertNull(found.order());
    assertEquals(best, found.bound());
    assertTrue(found.exact());
  }

  private static @Nullable Path folder() {
    String named = System.getProperty("tsplib.sop");
    if (named != null) {
      return Path.of(named);
    }
    for (Path up = Path.of("").toAbsolutePath(); up != null; up = up.getParent()) {
      Path folder = up.resolve("shared/data/tsplib-sop");
      if (Files.isDirectory(folder)) {
        return folder;
      }
    }
    return null;
  }

  /** The matrix of a sequential ordering problem: -1 in row i, column j: j comes before i. */
  private static int[][] matrix(Path file) throws IOException {
    String text = Files.readString(file);
    String numbers =
        text.substring(text.indexOf("EDGE_WEIGHT_SECTION") + 19).replace("EOF", "").trim();
    String[] words = numbers.split("\\s+");
    int n = Integer.parseInt(words[0]);
    int[][] matrix = new int[n][n];
    for (int i = 0; i < n * n; i++) {
      matrix[i / n][i % n] = Integer.parseInt(words[i + 1]);
    }
    return matrix;
  }

  private static int[][] random(int seed) {
    Random random = new Random(seed);
    int n = 9;
    int[][] matrix = new int[n][n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        boolean before = j < i && (j == 0 || i == n - 1 || random.nextInt(6) == 0);
        matrix[i][j] = i == j ? 0 : before ? -1 : 1 + random.nextInt(100);
      }
    }
    return matrix;
  }

  /** As steps of no length, of which the first takes all others after it. */
  private static OrderProblem problem(int[][] matrix) {
    int n = matrix.length;
    int[][] change = new int[n][n];
    long[] before = new long[n];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < n; j++) {
        change[i][j] = Math.max(0, matrix[i][j]);
        before[i] |= matrix[i][j] < 0 ? 1L << j : 0;
      }
    }
    return new OrderProblem(
        0, new int[n], change, before, new int[0], new int[n][0], false, (done, last) -> 0);
  }
}
