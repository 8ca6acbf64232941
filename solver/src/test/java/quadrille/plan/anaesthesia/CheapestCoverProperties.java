package quadrille.plan.anaesthesia;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.Random;
import java.util.stream.IntStream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

/** The set cover against trying every subset of the candidates. */
final class CheapestCoverProperties {

  @Property(tries = 1000, seed = "20260101")
  void isTheFirstOfTheCheapestSubsets(
      @ForAll long seed,
      @ForAll @IntRange(min = 1, max = 11) int candidates,
      @ForAll @IntRange(min = 1, max = 20) int elements,
      @ForAll @IntRange(min = 1, max = 4) int dearest) {
    Random random = new Random(seed);
    long[] masks = new long[candidates];
    long[] weights = new long[candidates];
    for (int i = 0; i < candidates; i++) {
      // Few different weights, so that ties are common; thin masks, so that many are needed.
      masks[i] = random.nextLong() & random.nextLong() & ((1L << elements) - 1);
      weights[i] = 1 + random.nextInt(dearest);
    }
    CheapestCover cover = new CheapestCover(masks, weights);
    long asked = random.nextLong() & ((1L << elements) - 1);
    long coverable = cover.coverable(asked);

    assertEquals(asked & union(masks), coverable);
    assertArrayEquals(tryEverySubset(masks, weights, coverable), cover.solve(coverable));
  }

  @Test
  void nothingNeedsNothing() {
    assertArrayEquals(new int[0], new CheapestCover(new long[] {1}, new long[] {1}).solve(0));
  }

  @Test
  void theHighestBitIsAnElementLikeAnyOther() {
    long[] masks = {Long.MIN_VALUE, Long.MIN_VALUE | 1, 1};
    CheapestCover cover = new CheapestCover(masks, new long[] {2, 3, 2});
    assertArrayEquals(new int[] {1}, cover.solve(Long.MIN_VALUE | 1));
    assertArrayEquals(new int[] {0}, cover.solve(Long.MIN_VALUE));
  }

  /**
   * A ring of 48 elements, each pair of neighbours a candidate: only every second pair covers it
   * with half of them. Without a bound that is so sharp the search would not end.
   */
  @Test
  void aRingIsCoveredByEverySecondPair() {
    int size = 48;
    long[] masks = new long[size];
    long[] weights = new long[size];
    for (int i = 0; i < size; i++) {
      masks[i] = 1L << i | 1L << (i + 1) % size;
      weights[i] = 2;
    }
    assertArrayEquals(
        IntStream.range(0, size).filter(i -> i % 2 == 0).toArray(),
        new CheapestCover(masks, weights).solve((1L << size) - 1));
  }

  private static int[] tryEverySubset(long[] masks, long[] weights, long elements) {
    int[] best = new int[0];
    long least = Long.MAX_VALUE;
    for (int subset = 0; subset < 1 << masks.length; subset++) {
      long covered = 0;
      long weight = 0;
      int[] members = new int[Integer.bitCount(subset)];
      int count = 0;
      for (int i = 0; i < masks.length; i++) {
        if ((subset & 1 << i) != 0) {
          covered |= masks[i];
          weight += weights[i];
          members[count++] = i;
        }
      }
      boolean covers = (elements & ~covered) == 0;
      boolean better = weight < least || (weight == least && firstOf(members, best));
      if (covers && better) {
        best = members;
        least = weight;
      }
    }
    return best;
  }

  private static boolean firstOf(int[] members, int[] best) {
    return Arrays.compare(members, best) < 0;
  }

  private static long union(long[] masks) {
    return Arrays.stream(masks).reduce(0, (one, other) -> one | other);
  }
}
