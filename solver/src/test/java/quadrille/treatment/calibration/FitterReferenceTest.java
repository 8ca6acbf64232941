package quadrille.treatment.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import quadrille.facts.practice.Figure;

/**
 * The fit against SciPy's own of the same records; {@code reference.py} beside the two files says
 * how they were made.
 */
final class FitterReferenceTest {

  private static final double SIGMA = 0.227;

  /** Five times, all of them the clinician's work. */
  private static final List<PracticeTime> TIMES =
      IntStream.range(0, 5)
          .mapToObj(k -> new PracticeTime(PracticeTime.Kind.GROSS, k, null, new Figure(1, "test")))
          .toList();

  /** Neither clock nor time beside the work nor outliers, which the reference knows nothing of. */
  private static Assumed assumed(double shared, double own, double sigmaWeight) {
    return new Assumed(shared, own, own, 0.15, SIGMA, 0, sigmaWeight, 0.7, 1e-12, 4, 0);
  }

  @Test
  void withNothingAssumedItIsTheFreeFit() throws IOException {
    Fit fit = Fitter.fit(TIMES, assumed(0, 1000, 1e-9), records("free"));
    compare("free", fit, 1e-4, true);
  }

  @Test
  void multiplierAtItsLeastIsThatOfTheBoundedFit() throws IOException {
    // Degrees of freedom are counted otherwise where one is held, hence the spread by reference.
    Fit fit =
        Fitter.fit(
            TIMES,
            new Assumed(
                0, 1000, 1000, 0.15, number("bounded", "sigma", 2), 0, 1e9, 0.7, 1e-12, 4, 0),
            records("bounded"));
    compare("bounded", fit, 1e-3, false);
    assertEquals(0.05, fit.multipliers().get(1).value(), 1e-9);
  }

  @Test
  void withAssumptionsItIsTheMostLikely() throws IOException {
    Fit fit = Fitter.fit(TIMES, assumed(0.25, 0.25, 1e9), records("assumed"));
    compare("assumed", fit, 1e-4, true);
  }

  private static void compare(String name, Fit fit, double tolerance, boolean errors)
      throws IOException {
    for (int k = 0; k < TIMES.size(); k++) {
      String time = "x" + (k + 1);
      assertEquals(number(name, time, 2), fit.multipliers().get(k).value(), tolerance, time);
      if (errors) {
        assertEquals(
            number(name, time, 3), fit.multipliers().get(k).standardError(), tolerance, time);
      }
    }
    assertEquals(number(name, "sigma", 2), fit.spread().value(), tolerance);
  }

  private static List<TimedVisit> records(String name) throws IOException {
    List<TimedVisit> visits = new ArrayList<>();
    for (String[] row : rows("reference-records.csv")) {
      if (row[0].equals(name)) {
        double[] expected =
            IntStream.range(2, 7).mapToDouble(i -> Double.parseDouble(row[i])).toArray();
        visits.add(
            new TimedVisit("a", List.of(new Stretch(Double.parseDouble(row[1]), expected, 0, 1))));
      }
    }
    return visits;
  }

  private static double number(String name, String what, int column) throws IOException {
    return rows("reference-fits.csv").stream()
        .filter(row -> row[0].equals(name) && row[1].equals(what))
        .mapToDouble(row -> Double.parseDouble(row[column]))
        .findFirst()
        .orElseThrow();
  }

  private static List<String[]> rows(String file) throws IOException {
    try (InputStream in =
        Objects.requireNonNull(FitterReferenceTest.class.getResourceAsStream(file), file)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8)
          .lines()
          .skip(1)
          .map(line -> line.split(",", -1))
          .toList();
    }
  }
}
