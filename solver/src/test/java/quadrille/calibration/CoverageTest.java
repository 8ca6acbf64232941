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
    for (int i = 0; i < 12; i++) {
      double g = random.nextGaussian();
      chi += g * g;
    }
    return new SimulatedVisits.Known(m, new double[] {1}, 0.227 * Math.sqrt(12 / chi));
  }

  @Test
  void coverage() {
    for (int n : new int[] {5, 20, 80}) {
      long t = System.nanoTime();
      int[] in = new int[TIMES.size() + 1];
      double[] width = new double[TIMES.size() + 1];
      double rmse = 0, rmse0 = 0, sb = 0, s2 = 0, se = 0, bias[] = new double[TIMES.size()];
      int outl = 0;
      for (int seed = 0; seed < 200; seed++) {
        Random random = new Random(1000 * n + seed);
        SimulatedVisits.Known known = known(random);
        List<TimedVisit> visits = new ArrayList<>();
        for (int v = 0; v < n; v++) {
          var timing =
              random.nextDouble() < Double.parseDouble(System.getProperty("whole", "0.6"))
                  ? SimulatedVisits.Timing.WHOLE
                  : SimulatedVisits.Timing.BOTH;
          CourseLog.Recorded r =
              SimulatedVisits.record(
                  TASKS.get(random.nextInt(TASKS.size())), known, 0, timing, 0.7, random);
          var told = WORK.told(r);
          if (told.visit() != null) visits.add(told.visit());
          else System.out.println(told.trouble());
        }
        Fit fit = Fitter.fit(byHand(), working(), ASSUMED, visits);
        for (int k = 0; k < TIMES.size(); k++) {
          if (fit.multipliers().get(k).holds(known.multipliers()[k])) in[k]++;
          bias[k] += (fit.multipliers().get(k).value() - known.multipliers()[k]) / 200;
          width[k] += fit.multipliers().get(k).standardError();
          rmse += Math.pow(fit.multipliers().get(k).value() - known.multipliers()[k], 2);
          rmse0 += Math.pow(1 - known.multipliers()[k], 2);
        }
        sb += fit.spread().value() / known.sigma() / 200;
        if (fit.spread().holds(known.sigma())) in[TIMES.size()]++;
        for (int v = 0; v < visits.size(); v++) if (fit.outlier(v)) outl++;
      }
      double all = 0;
      for (int k = 0; k < TIMES.size(); k++) {
        System.out.printf(
            "%d %-35s %.3f se %.3f bias %.3f%n",
            n, TIMES.get(k).words(), in[k] / 200.0, width[k] / 200, bias[k]);
        all += in[k] / 200.0;
      }
      System.out.printf(
          "%d spread %.3f (x %.3f sd %.3f said %.3f) all %.3f rmse ratio %.3f outl %.4f sec %.1f%n",
          n,
          in[TIMES.size()] / 200.0,
          sb, Math.sqrt(s2), se,
          all / TIMES.size(),
          Math.sqrt(rmse / rmse0),
          outl / (200.0 * n),
          (System.nanoTime() - t) / 1e9);
    }
    assertTrue(true);
  }

  @Test
  void debug() {
    Random random = new Random(7);
    double[] ones = new double[TIMES.size()];
    java.util.Arrays.fill(ones, 1);
    SimulatedVisits.Known known = new SimulatedVisits.Known(ones, new double[] {1}, 0.227);
    double[] q = new double[20], c = new double[20], mean = new double[20];
    for (int v = 0; v < 3000; v++) {
      var task = TASKS.get(random.nextInt(TASKS.size()));
      var r = SimulatedVisits.record(task, known, 0, SimulatedVisits.Timing.BOTH, 0.7, random);
      var visit = WORK.told(r).visit();
      if (visit == null) continue;
      double all = 0, allWork = 0;
      for (Stretch s : visit.stretches()) {
        all += s.sum();
        for (int k = 0; k < TIMES.size(); k++)
          if (TIMES.get(k).kind().working()) allWork += s.expected()[k];
      }
      int n = visit.stretches().size();
      double sum = 0;
      for (int i = 0; i < n; i++) {
        Stretch s = visit.stretches().get(i);
        double w = 0;
        for (int k = 0; k < TIMES.size(); k++)
          if (TIMES.get(k).kind().working()) w += s.expected()[k];
        double var =
            (0.7 * w * w + 0.3 * allWork * w) * .227 * .227
                + 600
                + .04 * (s.sum() - w) * (s.sum() - w);
        var /= s.sum() * s.sum();
        double z = Math.log(s.seconds() / s.sum()) + var / 2;
        int b = i == n - 1 ? 19 : (int) Math.min(18, 20 * s.sum() / all);
        q[b] += z * z / var;
        mean[b] += Math.log(s.seconds() / s.sum()) + var / 2;
        c[b]++;
      }
    }
    for (int b = 0; b < 20; b++)
      if (c[b] > 0)
        System.out.printf("%d n %.0f q %.3f mean %.3f%n", b, c[b], q[b] / c[b], mean[b] / c[b]);
  }
}
