package quadrille.calibration;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import quadrille.practice.PracticeReader;
import quadrille.record.CourseLog;

final class CoverageTest {
  private static final Assumed ASSUMED = Assumed.standard(0.227);
  private static final VisitWork WORK = new VisitWork(PracticeReader.defaults());
  private static final List<PracticeTime> TIMES = WORK.times();
  private static final List<SimulatedVisits.Task> TASKS = SimulatedVisits.tasks();

  static boolean[] byHand() {
    boolean[] is = new boolean[TIMES.size()];
    for (int k = 0; k < is.length; k++) is[k] = TIMES.get(k).kind().byHand();
    return is;
  }

  static boolean[] working() {
    boolean[] is = new boolean[TIMES.size()];
    for (int k = 0; k < is.length; k++) is[k] = TIMES.get(k).kind().working();
    return is;
  }

  static SimulatedVisits.Known known(Random random) {
    double shared = ASSUMED.sharedSd() * random.nextGaussian();
    double[] m = new double[TIMES.size()];
    for (int k = 0; k < m.length; k++) {
      do {
        m[k] =
            1
                + (TIMES.get(k).kind().byHand()
                    ? shared + ASSUMED.ownSd() * random.nextGaussian()
                    : ASSUMED.otherSd() * random.nextGaussian());
      } while (m[k] < 0.05);
    }
    double chi = 0;
    for (int i = 0; i < 8; i++) {
      double g = random.nextGaussian();
      chi += g * g;
    }
    return new SimulatedVisits.Known(m, new double[] {1}, 0.227 * Math.sqrt(8 / chi));
  }

  @Test
  void coverage() {
    for (int n : new int[] {5, 20, 80}) {
      long t = System.nanoTime();
      int[] in = new int[TIMES.size() + 1];
      double[] width = new double[TIMES.size() + 1];
      double rmse = 0, rmse0 = 0;
      int outl = 0;
      for (int seed = 0; seed < 200; seed++) {
        Random random = new Random(1000 * n + seed);
        SimulatedVisits.Known known = known(random);
        List<TimedVisit> visits = new ArrayList<>();
        for (int v = 0; v < n; v++) {
          var timing =
              random.nextDouble() < 0.6
                  ? SimulatedVisits.Timing.WHOLE
                  : SimulatedVisits.Timing.BOTH;
          CourseLog.Recorded r =
              SimulatedVisits.record(
                  TASKS.get(random.nextInt(TASKS.size())), known, 0, timing, 0.5, random);
          var told = WORK.told(r);
          if (told.visit() != null) visits.add(told.visit());
          else System.out.println(told.trouble());
        }
        Fit fit = Fitter.fit(byHand(), working(), ASSUMED, visits);
        for (int k = 0; k < TIMES.size(); k++) {
          if (fit.multipliers().get(k).holds(known.multipliers()[k])) in[k]++;
          width[k] += fit.multipliers().get(k).standardError();
          rmse += Math.pow(fit.multipliers().get(k).value() - known.multipliers()[k], 2);
          rmse0 += Math.pow(1 - known.multipliers()[k], 2);
        }
        if (fit.spread().holds(known.sigma())) in[TIMES.size()]++;
        for (int v = 0; v < visits.size(); v++) if (fit.outlier(v)) outl++;
      }
      double all = 0;
      for (int k = 0; k < TIMES.size(); k++) {
        System.out.printf(
            "%d %-35s %.3f se %.3f%n", n, TIMES.get(k).words(), in[k] / 200.0, width[k] / 200);
        all += in[k] / 200.0;
      }
      System.out.printf(
          "%d spread %.3f all %.3f rmse ratio %.3f outliers %.4f sec %.1f%n",
          n,
          in[TIMES.size()] / 200.0,
          all / TIMES.size(),
          Math.sqrt(rmse / rmse0),
          outl / (200.0 * n),
          (System.nanoTime() - t) / 1e9);
    }
    assertTrue(true);
  }
}
