package quadrille.treatment.calibration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import quadrille.facts.practice.PracticeReader;
import quadrille.treatment.record.CourseLog;

/** Practices drawn at random, and what they record. */
final class SimulatedPractice {

  static final double SIGMA = 0.227;
  static final Assumed ASSUMED = Assumed.standard(SIGMA);
  static final VisitWork WORK = new VisitWork(CalibratedPractice.parted(PracticeReader.defaults()));
  static final List<PracticeTime> TIMES = WORK.times();
  static final List<SimulatedVisits.Task> TASKS = SimulatedVisits.tasks();

  /** Share of visits that are timed as a whole only. */
  private static final double WHOLE = 0.6;

  private static final double VISIT_SHARE = 0.7;

  /** How its visits are timed. */
  enum Clock {
    /** By hand: most as a whole, some by parts too, in whole minutes. */
    BY_HAND,
    /** As a whole only. */
    WHOLE,
    /** At the chair: each part, to the second. */
    CHAIR
  }

  /** What practices are like. */
  enum Draw {
    /** As is assumed. */
    ASSUMED,
    /** Otherwise than is assumed: lopsided, and slower than the file by a fifth. */
    OTHERWISE,
    /** Just as the practice file says. */
    AS_FILE
  }

  final Random random;
  final SimulatedVisits.Known known;

  SimulatedPractice(long seed, Draw draw, int clinicians) {
    // The first numbers of neighbouring seeds are alike; mixing parts them.
    this.random = new Random(seed * 0x9E3779B97F4A7C15L + 0x632BE59BD9B4E019L);
    for (int i = 0; i < 10; i++) {
      random.nextGaussian();
    }
    this.known = known(draw, clinicians);
  }

  private SimulatedVisits.Known known(Draw draw, int clinicians) {
    double[] multipliers = new double[TIMES.size()];
    double shared = random.nextGaussian();
    for (int k = 0; k < multipliers.length; k++) {
      boolean byHand = TIMES.get(k).kind().byHand();
      do {
        double own = random.nextGaussian();
        multipliers[k] =
            draw == Draw.AS_FILE
                ? 1
                : draw == Draw.OTHERWISE
                    ? 1.2 * Math.exp(byHand ? 0.2 * shared + 0.2 * own : 0.25 * own)
                    : 1
                        + (byHand
                            ? ASSUMED.sharedSd() * shared + ASSUMED.ownSd() * own
                            : ASSUMED.otherSd() * own);
      } while (multipliers[k] < 0.05);
    }
    double[] speeds = new double[clinicians];
    for (int c = 0; c < clinicians; c++) {
      speeds[c] = clinicians == 1 ? 1 : 1 + ASSUMED.clinicianSd() * random.nextGaussian();
    }
    double mean = Arrays.stream(speeds).average().orElseThrow();
    for (int c = 0; c < clinicians; c++) {
      speeds[c] /= mean;
    }
    if (draw == Draw.AS_FILE) {
      return new SimulatedVisits.Known(multipliers, speeds, SIGMA);
    }
    double chi = 0;
    for (int i = 0; i < ASSUMED.sigmaWeight(); i++) {
      double one = random.nextGaussian();
      chi += one * one;
    }
    return new SimulatedVisits.Known(
        multipliers, speeds, SIGMA * Math.sqrt(ASSUMED.sigmaWeight() / chi));
  }

  /** Records so many visits, in turn by each clinician. */
  List<CourseLog.Recorded> records(int visits) {
    return records(visits, Clock.BY_HAND, VISIT_SHARE);
  }

  /**
   * The same.
   *
   * @param visitShare of the variance, what a visit's parts share
   */
  List<CourseLog.Recorded> records(int visits, Clock clock, double visitShare) {
    List<CourseLog.Recorded> records = new ArrayList<>();
    for (int v = 0; v < visits; v++) {
      SimulatedVisits.Timing timing =
          switch (clock) {
            case WHOLE -> SimulatedVisits.Timing.WHOLE;
            case CHAIR -> SimulatedVisits.Timing.CHAIR;
            case BY_HAND ->
                random.nextDouble() < WHOLE
                    ? SimulatedVisits.Timing.WHOLE
                    : SimulatedVisits.Timing.BOTH;
          };
      records.add(
          SimulatedVisits.record(
              task(), known, v % known.speeds().length, timing, visitShare, random));
    }
    return records;
  }

  SimulatedVisits.Task task() {
    return TASKS.get(random.nextInt(TASKS.size()));
  }

  static List<TimedVisit> timed(List<CourseLog.Recorded> records) {
    List<TimedVisit> timed = new ArrayList<>();
    for (CourseLog.Recorded record : records) {
      TimedVisit visit = WORK.told(record).visit();
      if (visit != null) {
        timed.add(visit);
      }
    }
    return timed;
  }

  static Fit fit(List<TimedVisit> visits) {
    return Fitter.fit(TIMES, ASSUMED, visits);
  }
}
