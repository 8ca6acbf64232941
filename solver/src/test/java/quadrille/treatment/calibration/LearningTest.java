package quadrille.treatment.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Whether a clinician became quicker is told from chance. */
final class LearningTest {

  private static List<Double> visits(int count, double power, Random random) {
    List<Double> residuals = new ArrayList<>();
    for (int i = 1; i <= count; i++) {
      residuals.add(-power * Math.log(i) + 0.2 * random.nextGaussian());
    }
    return residuals;
  }

  @Test
  void chanceAloneShowsOneInAHundred() {
    Random random = new Random(4);
    int shown = 0;
    for (int trial = 0; trial < 2000; trial++) {
      shown += Learning.of(visits(12, 0, random)) == null ? 0 : 1;
    }
    assertTrue(shown <= 35, shown + " of 2000");
    assertTrue(shown >= 5, shown + " of 2000");
  }

  /** 30 visits, each doubling of them a sixth quicker; visits that vary by 20 %. */
  @Test
  void oneWhoBecomesQuickerIsShownNearlyAlways() {
    Random random = new Random(5);
    int shown = 0;
    double ratio = 0;
    for (int trial = 0; trial < 200; trial++) {
      Learning learning = Learning.of(visits(30, 0.25, random));
      if (learning != null) {
        shown++;
        ratio += Math.log(learning.first() / learning.last());
      }
    }
    assertTrue(shown > 190, shown + " of 200");
    assertEquals(0.25 * Math.log(30), ratio / shown, 0.05);
  }

  @Test
  void aStraightPowerIsFoundExactlyAndASlowerOneOrTooFewVisitsAreNot() {
    List<Double> exact = new ArrayList<>();
    for (int i = 1; i <= 10; i++) {
      exact.add(0.3 - 0.2 * Math.log(i));
    }
    Learning learning = Learning.of(exact);
    assertNotNull(learning);
    assertEquals(Math.exp(0.3), learning.first(), 1e-9);
    assertEquals(Math.exp(0.3) * Math.pow(10, -0.2), learning.last(), 1e-9);
    assertNull(Learning.of(exact.stream().map(one -> -one).toList()));
    assertNull(Learning.of(exact.subList(0, 7)));
  }
}
