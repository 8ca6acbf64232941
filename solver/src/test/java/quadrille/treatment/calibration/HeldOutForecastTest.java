package quadrille.treatment.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import quadrille.mouths.Tries;
import quadrille.treatment.calibration.SimulatedPractice.Clock;
import quadrille.treatment.calibration.SimulatedPractice.Draw;
import quadrille.treatment.record.CourseLog;

/**
 * Whether calibrated times foretell visits better than the practice file's do: 60 simulated
 * practices, and 20 visits of each that the calibration has not seen.
 */
final class HeldOutForecastTest {

  private static final int PRACTICES = Tries.of(60, 200);
  private static final int HELD_OUT = 20;

  /**
   * How far off forecasts were.
   *
   * @param file root mean square of the logarithm of recorded over expected, by the file's times
   * @param calibrated the same by calibrated times
   * @param withinFile share of visits that a booking by the file's times and spread, to the minute
   *     and with 80 % certainty, would have held
   * @param within the same by calibrated times
   * @param unevenFile root mean square, over the practices, of that share less 80 %, by the file's
   *     times: a share that is right on average may be far off in each practice
   * @param uneven the same by calibrated times
   */
  private record Off(
      double file,
      double calibrated,
      double withinFile,
      double within,
      double unevenFile,
      double uneven) {}

  @ParameterizedTest
  @EnumSource(Draw.class)
  void fromFiveVisitsOnTheyAreBetterAndNeverMuchWorse(Draw draw) {
    better(draw, Clock.BY_HAND);
  }

  /** By the times of each part, as the chair records them. */
  @ParameterizedTest
  @EnumSource(Draw.class)
  void sameFromTheChair(Draw draw) {
    better(draw, Clock.CHAIR);
  }

  @ParameterizedTest
  @EnumSource(Draw.class)
  void sameFromWholeVisitsAlone(Draw draw) {
    better(draw, Clock.WHOLE);
  }

  private static void better(Draw draw, Clock clock) {
    for (int visits : Tries.of(new int[] {1, 3, 5, 20}, new int[] {1, 2, 3, 5, 20, 80})) {
      Off off = off(draw, visits, clock);
      String said = String.format(Locale.ROOT, "%s, %s, %d visits: %s", draw, clock, visits, off);
      if (Boolean.getBoolean("calibration.table")) {
        System.out.println(said);
      }
      if (draw == Draw.AS_FILE) {
        // The file is right already, so that nothing can be gained: the worst case, which is one
        // visit (1.251 times as far off).
        assertTrue(off.calibrated() < 1.26 * off.file(), said);
      } else {
        assertTrue(off.calibrated() < off.file(), said);
        // In each practice nearer to what is promised.
        assertTrue(off.uneven() < off.unevenFile(), said);
      }
      if (visits >= 20) {
        // Measured over 200 practices: 0.763 to 0.792. The spread does not hold what is not known
        // of
        // the multipliers.
        assertEquals(0.8, off.within(), 0.05, said);
      }
    }
  }

  private static Off off(Draw draw, int visits, Clock clock) {
    double file = 0;
    double calibrated = 0;
    double uneven = 0;
    double unevenFile = 0;
    int withinFile = 0;
    int within = 0;
    double[] ones = new double[SimulatedPractice.TIMES.size()];
    Arrays.fill(ones, 1);
    for (int seed = 0; seed < PRACTICES; seed++) {
      SimulatedPractice practice = new SimulatedPractice(5000L + seed, draw, 1);
      Fit fit =
          SimulatedPractice.fit(SimulatedPractice.timed(practice.records(visits, clock, 0.7)));
      List<CourseLog.Recorded> heldOut = practice.records(HELD_OUT);
      int before = within;
      int beforeFile = withinFile;
      for (CourseLog.Recorded record : heldOut) {
        Double minutes = record.done().minutes();
        double took = minutes == null ? 0 : minutes;
        file += Math.pow(Math.log(60 * took / time(record, ones, 0).expectedSeconds()), 2);
        VisitTime time = time(record, fit.values(), fit.bookingSpread().value());
        calibrated += Math.pow(Math.log(60 * took / time.expectedSeconds()), 2);
        withinFile += took <= time(record, ones, SimulatedPractice.SIGMA).booked(1, 0.8) ? 1 : 0;
        within += took <= time.booked(1, 0.8) ? 1 : 0;
      }
      uneven += Math.pow((double) (within - before) / HELD_OUT - 0.8, 2);
      unevenFile += Math.pow((double) (withinFile - beforeFile) / HELD_OUT - 0.8, 2);
    }
    double all = PRACTICES * HELD_OUT;
    return new Off(
        Math.sqrt(file / all),
        Math.sqrt(calibrated / all),
        withinFile / all,
        within / all,
        Math.sqrt(unevenFile / PRACTICES),
        Math.sqrt(uneven / PRACTICES));
  }

  private static VisitTime time(CourseLog.Recorded record, double[] multipliers, double sigma) {
    double[] expected = SimulatedPractice.WORK.expected(record);
    double fixed = SimulatedPractice.WORK.known(record);
    double working = 0;
    for (int k = 0; k < expected.length; k++) {
      double seconds = expected[k] * multipliers[k];
      if (SimulatedPractice.TIMES.get(k).kind().working()) {
        working += seconds;
      } else {
        fixed += seconds;
      }
    }
    return new VisitTime(fixed, working, sigma, List.of());
  }
}
