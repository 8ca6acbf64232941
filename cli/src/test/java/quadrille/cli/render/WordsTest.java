package quadrille.cli.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import org.junit.jupiter.api.Test;

final class WordsTest {

  @Test
  void aSmallRiskNeverReadsAsNone() {
    assertEquals("0\u00a0%", Words.percent(0));
    assertEquals("<1\u00a0%", Words.percent(0.0004));
    assertEquals("17\u00a0%", Words.percent(0.174));
    assertEquals("100\u00a0%", Words.percent(1));
  }

  @Test
  void numbersHaveNoIdleZeros() {
    assertEquals("132", Words.number(132, 1));
    assertEquals("0.0165", Words.number(0.0165, 4));
    assertEquals("1.5", Words.number(1.50, 2));
    assertEquals("100", Words.number(100, 0));
  }
}
