package quadrille.treatment.calibration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import quadrille.facts.chart.Quadrant;
import quadrille.facts.practice.Injection;
import quadrille.facts.practice.Practice;
import quadrille.facts.practice.PracticeReader;
import quadrille.plan.course.GivenInjection;
import quadrille.plan.course.Visit;
import quadrille.treatment.calibration.SimulatedPractice.Draw;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.Given;
import quadrille.treatment.record.Observation;
import quadrille.treatment.record.VisitDone;

/**
 * Practices whose times are the file's and whose blocks fail now and then, simulated: each failure
 * adds its repeat and the wait for it to the clock. What it took is no spread of the work.
 */
final class FailedBlocksTest {
  private static final Practice PRACTICE = PracticeReader.defaults();
  private static final String BLOCK = "inferior alveolar";
  private static final String AGENT = "articaine-4-200";
  private static final double ML = 1.5;

  /** More often than blocks do, so that few visits show it. */
  private static final double SHARE = 0.4;

  private static final int VISITS = 120;
  private static final int SEEDS = 4;

  /** What is recorded of a failure. */
  private enum Told {
    /** How long it kept the visit. */
    MINUTES,
    /** That it happened, and what was injected in its place. */
    REPEAT,
    /** Only what was injected. */
    NOTHING
  }

  /** Seconds of the block by the words of the practice file: handling, and its rate. */
  private static double giving() {
    Injection block = PRACTICE.injections().get(BLOCK);
    double rate =
        (block.mlPerMinute() == null ? PRACTICE.numbing().mlPerMinute() : block.mlPerMinute())
            .value();
    return PRACTICE.numbing().handlingSeconds().value() + 60 * ML / rate;
  }

  private static CourseLog.Recorded withBlock(
      CourseLog.Recorded one, boolean fails, Told told, double waiting, Random random) {
    Visit planned = one.planned();
    VisitDone done = one.done();
    List<Given> given = new ArrayList<>(done.injections());
    List<GivenInjection> meant = new ArrayList<>();
    done.injections()
        .forEach(
            other ->
                meant.add(
                    new GivenInjection(
                        other.injection(), other.quadrant(), null, other.agent(), other.ml())));
    meant.add(new GivenInjection(BLOCK, Quadrant.LR, null, AGENT, ML));
    given.add(new Given(BLOCK, Quadrant.LR, null, AGENT, ML));
    double seconds = giving();
    List<Observation> found = new ArrayList<>();
    if (fails) {
      double lost = giving() + waiting;
      seconds += lost;
      given.add(new Given(BLOCK, Quadrant.LR, null, AGENT, ML));
      if (told != Told.NOTHING) {
        found.add(
            new Observation.FailedInjection(
                BLOCK,
                Quadrant.LR,
                null,
                told == Told.MINUTES ? Math.floor(random.nextDouble() + lost / 60) : null));
      }
    }
    return new CourseLog.Recorded(
        one.entry(),
        planned == null ? null : planned.withInjections(meant),
        one.chart(),
        new VisitDone(
            done.visit(),
            done.date(),
            done.clinician(),
            done.steps(),
            given,
            done.gelCartridges(),
            done.minutes() == null ? null : done.minutes() + seconds / 60,
            done.parts(),
            done.bookedMinutes(),
            false,
            found,
            ""));
  }

  /** Mean over some practices of the spread that is found. */
  private static double sigma(double share, Told told, double waiting) {
    double sum = 0;
    for (int seed = 0; seed < SEEDS; seed++) {
      SimulatedPractice practice = new SimulatedPractice(seed, Draw.AS_FILE, 1);
      Random random = new Random(seed);
      List<CourseLog.Recorded> records = new ArrayList<>();
      for (CourseLog.Recorded one : practice.records(VISITS)) {
        records.add(withBlock(one, random.nextDouble() < share, told, waiting, random));
      }
      sum += SimulatedPractice.fit(SimulatedPractice.timed(records)).spread().value();
    }
    return sum / SEEDS;
  }

  private static double onset() {
    return 60
        * Math.max(
            PRACTICE
                .agents()
                .get(AGENT)
                .onsetMinutes()
                .get(PRACTICE.injections().get(BLOCK).technique())
                .value(),
            PRACTICE.injections().get(BLOCK).pulpOnsetMinutes() == null
                ? 0
                : PRACTICE.injections().get(BLOCK).pulpOnsetMinutes().value());
  }

  @Test
  void whatFailuresTookIsNoSpread() {
    double sound = sigma(0, Told.NOTHING, onset());
    assertEquals(SimulatedPractice.SIGMA, sound, 0.01);
    // Waits vary as all time beside the work is taken to; these do not, so less is the work's.
    assertEquals(sound, sigma(SHARE, Told.REPEAT, onset()), 0.012);
    double untold = sigma(SHARE, Told.NOTHING, onset());
    assertTrue(untold > sound + 0.005, "sound " + sound + ", untold " + untold);
    // Four times what the file expects: only the minutes noted say so.
    double slow = 4 * onset();
    assertEquals(sound, sigma(SHARE, Told.MINUTES, slow), 0.003);
    double guessed = sigma(SHARE, Told.REPEAT, slow);
    assertTrue(guessed > sound + 0.03, "sound " + sound + ", by the file's onset " + guessed);
  }

  @Test
  void bookingsAreReckonedWithFailuresAsPlansReckonThem() {
    VisitTime.Failure failure = new VisitTime.Failure(0.175, 600);
    VisitTime sound = new VisitTime(1200, 1800, 0.2, List.of());
    VisitTime may = new VisitTime(1200, 1800, 0.2, List.of(failure));
    assertEquals(
        0.825 * sound.chanceWithin(60) + 0.175 * sound.chanceWithin(50),
        may.chanceWithin(60),
        1e-12);
    // Two never fail in one visit.
    VisitTime two = new VisitTime(1200, 1800, 0.2, List.of(failure, failure));
    assertEquals(
        0.65 * sound.chanceWithin(60) + 0.35 * sound.chanceWithin(50), two.chanceWithin(60), 1e-12);
  }
}
