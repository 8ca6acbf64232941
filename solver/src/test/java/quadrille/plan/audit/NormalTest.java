package quadrille.plan.audit;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class NormalTest {

  /** Abramowitz and Stegun, Handbook of Mathematical Functions, table 26.1 (15 decimals). */
  @ParameterizedTest
  @CsvSource({
    "0, 0.5",
    "1, 0.841344746068543",
    "2, 0.977249868051821",
    "3, 0.998650101968370",
    "-1, 0.158655253931457",
    "-9, 0",
    "9, 1"
  })
  void below(double x, double chance) {
    assertEquals(chance, Normal.below(x), 1e-14);
  }
}
