package quadrille.treatment.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import quadrille.treatment.calibration.SimulatedPractice.Draw;

final class FitterTest {

  @Test
  void withoutRecordsItIsTheFile() {
    Fit fit = SimulatedPractice.fit(List.of());
    fit.multipliers().forEach(one -> assertEquals(1, one.value(), 1e-9));
    // sqrt(0.25^2 + 0.25^2) by hand, 0.35 otherwise: the assumed spreads.
    assertEquals(0.354, fit.multipliers().get(0).standardError(), 1e-3);
    assertEquals(0.35, fit.multipliers().get(fit.multipliers().size() - 1).standardError(), 1e-9);
    assertEquals(SimulatedPractice.SIGMA, fit.spread().value(), 1e-9);
  }

  @Test
  void fewerRecordsLieNearerToTheFile() {
    SimulatedPractice practice = new SimulatedPractice(3, Draw.OTHERWISE, 1);
    List<TimedVisit> visits = SimulatedPractice.timed(practice.records(40));
    double far = 0;
    for (int number : new int[] {2, 10, 40}) {
      double error = 0;
      for (Estimate one : SimulatedPractice.fit(visits.subList(0, number)).multipliers()) {
        error += one.standardError();
      }
      assertTrue(far == 0 || error < far, number + " visits");
      far = error;
    }
  }

  @Test
  void visitThatWasStretchedIsFoundAndHardlyCounts() {
    for (int seed = 0; seed < 20; seed++) {
      SimulatedPractice practice = new SimulatedPractice(seed, Draw.AS_FILE, 1);
      List<TimedVisit> visits = new ArrayList<>(SimulatedPractice.timed(practice.records(20)));
      TimedVisit stretched = visits.get(7);
      List<TimedVisit> without = new ArrayList<>(visits);
      without.remove(7);
      visits.set(
          7,
          new TimedVisit(
              stretched.clinician(),
              stretched.stretches().stream()
                  .map(one -> new Stretch(4 * one.sum(), one.expected(), one.known(), 1))
                  .toList()));
      Fit fit = SimulatedPractice.fit(visits);
      Fit clean = SimulatedPractice.fit(without);
      assertTrue(fit.outlier(7), "seed " + seed);
      for (int k = 0; k < SimulatedPractice.TIMES.size(); k++) {
        assertEquals(
            clean.multipliers().get(k).value(),
            fit.multipliers().get(k).value(),
            0.5 * clean.multipliers().get(k).standardError(),
            "seed " + seed + ", " + SimulatedPractice.TIMES.get(k));
      }
    }
  }

  @Test
  void orderOfTheRecordsDoesNotMatter() {
    SimulatedPractice practice = new SimulatedPractice(11, Draw.OTHERWISE, 2);
    List<TimedVisit> visits = new ArrayList<>(SimulatedPractice.timed(practice.records(12)));
    Fit fit = SimulatedPractice.fit(visits);
    Collections.reverse(visits);
    Fit reversed = SimulatedPractice.fit(visits);
    for (int k = 0; k < SimulatedPractice.TIMES.size(); k++) {
      assertEquals(fit.multipliers().get(k).value(), reversed.multipliers().get(k).value(), 1e-6);
    }
  }

  @Test
  void cliniciansBalanceOut() {
    SimulatedPractice practice = new SimulatedPractice(12, Draw.OTHERWISE, 3);
    Fit fit = SimulatedPractice.fit(SimulatedPractice.timed(practice.records(30)));
    assertEquals(
        1,
        fit.clinicians().values().stream().mapToDouble(Estimate::value).average().orElseThrow(),
        1e-6);
    assertFalse(fit.clinicians().values().stream().allMatch(one -> one.value() == 1));
  }
}
