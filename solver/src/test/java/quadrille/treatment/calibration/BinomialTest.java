package quadrille.treatment.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

final class BinomialTest {

  /** SciPy 1.10.1: beta.ppf(0.025, 4, 7) and beta.ppf(0.975, 5, 6). */
  @Test
  void intervalIsClopperAndPearsons() {
    assertEquals(0.1215523, Binomial.low(4, 10, 0.95), 1e-6);
    assertEquals(0.7376219, Binomial.high(4, 10, 0.95), 1e-6);
    assertEquals(0, Binomial.low(0, 10, 0.95));
    // The rule of three in its exact form: 1 - 0.025^(1/10).
    assertEquals(1 - Math.pow(0.025, 0.1), Binomial.high(0, 10, 0.95), 1e-9);
    assertEquals(1, Binomial.high(10, 10, 0.95));
  }

  /** Three fair coins: 1, 3, 3, 1 of 8. */
  @Test
  void equalChancesAreTheBinomial() {
    double[] coins = new double[3];
    Arrays.fill(coins, 0.5);
    assertEquals(0.5, Binomial.atMost(1, coins), 1e-12);
    assertEquals(0.875, Binomial.atLeast(1, coins), 1e-12);
  }

  /** One sure, one impossible, one even. */
  @Test
  void unequalChancesAreCountedEach() {
    double[] chances = {1, 0, 0.5};
    assertEquals(0, Binomial.atMost(0, chances), 1e-12);
    assertEquals(0.5, Binomial.atMost(1, chances), 1e-12);
    assertEquals(0.5, Binomial.atLeast(2, chances), 1e-12);
    assertEquals(0, Binomial.atLeast(3, chances), 1e-12);
  }
}
