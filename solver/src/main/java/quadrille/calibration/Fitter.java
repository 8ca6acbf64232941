package quadrille.calibration;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import org.apache.commons.statistics.distribution.ChiSquaredDistribution;
import org.apache.commons.statistics.distribution.TDistribution;
import org.ojalgo.matrix.decomposition.LU;
import org.ojalgo.matrix.store.MatrixStore;
import org.ojalgo.matrix.store.R064Store;
import org.ojalgo.matrix.store.RawStore;
import org.ojalgo.optimisation.Optimisation;
import org.ojalgo.optimisation.convex.ConvexSolver;

/**
 * Penalised, non-negative regression of recorded seconds on what was done.
 *
 * <p>A stretch's recorded seconds are the sum of its parts, each by its multiplier and the
 * clinician's, times a lognormal error. The multipliers are the most likely ones given the records
 * and {@link Assumed}: the errors weigh as shares of the stretch, the assumptions pull towards the
 * practice file. Each round linearises the logarithm and solves one quadratic programme; each visit
 * counts by the chance that it is no outlier, and the spread follows from what is left. Rounds end
 * when nothing moves.
 */
final class Fitter {

  /** No time shrinks to less than this share of the file's, so that every logarithm exists. */
  private static final double LEAST = 0.05;

  /** A round moves no stretch by more than about a factor of two. */
  private static final double LONGEST_STEP = 0.7;

  private static final int ROUNDS = 500;
  private static final double STILL = 1e-9;

  private final int times;
  private final boolean[] byHand;
  private final boolean[] working;
  private final Assumed assumed;
  private final List<TimedVisit> visits;
  private final List<String> clinicians;
  private final int size;
  private final double[][] precision;
  private final double[] balance;

  /** The state of the search: multipliers first, then clinicians. */
  private final double[] theta;

  private double variance;
  private final double[] outlierChance;

  /**
   * @param byHand which times are the clinician's own work
   * @param working which of those are steps of work, that the lognormal error is about
   */
  private Fitter(boolean[] byHand, boolean[] working, Assumed assumed, List<TimedVisit> visits) {
    this.times = byHand.length;
    this.byHand = byHand.clone();
    this.working = working.clone();
    this.assumed = assumed;
    this.visits = List.copyOf(visits);
    SortedMap<String, Integer> counts = new TreeMap<>();
    visits.forEach(visit -> counts.merge(visit.clinician(), 1, Integer::sum));
    this.clinicians = List.copyOf(counts.keySet());
    this.size = times + (clinicians.size() > 1 ? clinicians.size() : 0);
    this.balance = new double[size];
    for (int c = times; c < size; c++) {
      balance[c] = (double) counts.getOrDefault(clinicians.get(c - times), 0) / visits.size();
    }
    this.precision = precision();
    this.theta = new double[size];
    Arrays.fill(theta, 1);
    this.variance = assumed.sigma() * assumed.sigma();
    this.outlierChance = new double[visits.size()];
  }

  /**
   * Fits.
   *
   * @param byHand which times are the clinician's own work
   * @param working which of those are steps of work, that the lognormal error is about
   * @param visits in any order; the fit of none is what is assumed
   */
  static Fit fit(boolean[] byHand, boolean[] working, Assumed assumed, List<TimedVisit> visits) {
    return new Fitter(byHand, working, assumed, visits).fit();
  }

  private Fit fit() {
    double[][] covariance = covariance(precision);
    for (int round = 0; round < ROUNDS; round++) {
      Normal normal = normal();
      double[] next = solve(normal);
      covariance = covariance(normal.matrix());
      double moved = 0;
      for (int i = 0; i < size; i++) {
        moved = Math.max(moved, Math.abs(next[i] - theta[i]));
        theta[i] = next[i];
      }
      double before = variance;
      judge(covariance);
      if (moved < STILL && Math.abs(variance - before) < STILL * variance) {
        break;
      }
    }
    return result(covariance);
  }

  /** The inverse of the covariance that is assumed. */
  private double[][] precision() {
    double[][] prior = new double[size][size];
    for (int i = 0; i < times; i++) {
      for (int j = 0; j < times; j++) {
        if (byHand[i] && byHand[j]) {
          prior[i][j] = assumed.sharedSd() * assumed.sharedSd();
        }
      }
      double own = byHand[i] ? assumed.ownSd() : assumed.otherSd();
      prior[i][i] += own * own;
    }
    for (int c = times; c < size; c++) {
      prior[c][c] = assumed.clinicianSd() * assumed.clinicianSd();
    }
    return inverse(prior);
  }

  /**
   * A visit at the present state.
   *
   * @param slopes of each stretch's logarithm, by multiplier
   * @param residual logarithms, recorded over expected, their own mean taken out
   * @param weight inverse of the covariance of the residuals, for a variance of 1
   */
  private record Reading(double[][] slopes, double[] residual, double[][] weight) {}

  private Reading read(TimedVisit visit) {
    int rows = visit.stretches().size();
    int own = size > times ? times + clinicians.indexOf(visit.clinician()) : -1;
    double speed = own < 0 ? 1 : theta[own];
    double[] expected = new double[rows];
    double[] work = new double[rows];
    double[][] slopes = new double[rows][size];
    for (int r = 0; r < rows; r++) {
      Stretch stretch = visit.stretches().get(r);
      expected[r] = stretch.known();
      double hand = 0;
      for (int k = 0; k < times; k++) {
        double factor = byHand[k] ? speed : 1;
        slopes[r][k] = stretch.expected()[k] * factor;
        expected[r] += slopes[r][k] * theta[k];
        hand += byHand[k] ? stretch.expected()[k] * theta[k] : 0;
        work[r] += working[k] ? slopes[r][k] * theta[k] : 0;
      }
      if (own >= 0) {
        slopes[r][own] = hand;
      }
      for (int k = 0; k < size; k++) {
        slopes[r][k] /= expected[r];
      }
    }
    double[][] spread = spread(expected, work);
    double[] residual = new double[rows];
    for (int r = 0; r < rows; r++) {
      residual[r] =
          Math.log(visit.stretches().get(r).seconds() / expected[r]) + spread[r][r] * variance / 2;
    }
    return new Reading(slopes, residual, inverse(spread));
  }

  /**
   * Covariance of the stretches' logarithms, for a variance of 1. Part of the error is the visit's,
   * alike for all of its work; the rest comes with time, each stretch its own. The whole visit has
   * the variance of its working seconds, however it was timed.
   */
  private double[][] spread(double[] expected, double[] work) {
    int rows = expected.length;
    double all = Arrays.stream(expected).sum();
    double allWork = Arrays.stream(work).sum();
    double[][] spread = new double[rows][rows];
    for (int r = 0; r < rows; r++) {
      for (int s = 0; s < rows; s++) {
        spread[r][s] = assumed.visitShare() * work[r] * work[s];
      }
      spread[r][r] +=
          (1 - assumed.visitShare()) * allWork * allWork * expected[r] / all
              + assumed.clockSeconds() * assumed.clockSeconds() / variance;
      for (int s = 0; s < rows; s++) {
        spread[r][s] /= expected[r];
      }
    }
    for (int r = 0; r < rows; r++) {
      for (int s = 0; s < rows; s++) {
        spread[r][s] /= expected[s];
      }
    }
    return spread;
  }

  /** The normal equations of a round. */
  private record Normal(double[][] matrix, double[] right) {}

  private Normal normal() {
    double[][] matrix = new double[size][];
    double[] right = new double[size];
    for (int i = 0; i < size; i++) {
      matrix[i] = precision[i].clone();
      right[i] = Arrays.stream(precision[i]).sum();
    }
    for (int v = 0; v < visits.size(); v++) {
      Reading reading = read(visits.get(v));
      double counts = counts(v) / variance;
      int rows = reading.residual().length;
      double[] target = new double[rows];
      for (int r = 0; r < rows; r++) {
        target[r] = Math.max(-LONGEST_STEP, Math.min(LONGEST_STEP, reading.residual()[r]));
        for (int k = 0; k < size; k++) {
          target[r] += reading.slopes()[r][k] * theta[k];
        }
      }
      for (int i = 0; i < size; i++) {
        for (int s = 0; s < rows; s++) {
          double pull = 0;
          for (int r = 0; r < rows; r++) {
            pull += reading.slopes()[r][i] * reading.weight()[r][s];
          }
          pull *= counts;
          right[i] += pull * target[s];
          for (int j = 0; j < size; j++) {
            matrix[i][j] += pull * reading.slopes()[s][j];
          }
        }
      }
    }
    return new Normal(matrix, right);
  }

  /** How much a visit counts, 0 to 1. */
  private double counts(int visit) {
    double factor = assumed.outlierFactor();
    return 1 - outlierChance[visit] * (1 - 1 / (factor * factor));
  }

  /** Each visit's chance to be an outlier, and the spread of the others, from what is left. */
  private void judge(double[][] covariance) {
    double sum = assumed.sigmaWeight() * assumed.sigma() * assumed.sigma();
    double weight = assumed.sigmaWeight();
    double shrink = 1 / (assumed.outlierFactor() * assumed.outlierFactor());
    for (int v = 0; v < visits.size(); v++) {
      Reading reading = read(visits.get(v));
      int rows = reading.residual().length;
      double distance = form(reading.residual(), reading.weight());
      double odds =
          assumed.outliers()
              / (1 - assumed.outliers())
              * Math.pow(assumed.outlierFactor(), -rows)
              * Math.exp(Math.min(600, distance / variance * (1 - shrink) / 2));
      outlierChance[v] = odds / (1 + odds);
      sum += counts(v) * (distance + uncertain(reading, covariance));
      weight += rows;
    }
    variance = sum / weight;
  }

  /** What the uncertainty of the multipliers adds to the mean square of a visit's residuals. */
  private double uncertain(Reading reading, double[][] covariance) {
    int rows = reading.residual().length;
    double sum = 0;
    for (int r = 0; r < rows; r++) {
      for (int s = 0; s < rows; s++) {
        double between = 0;
        for (int i = 0; i < size; i++) {
          for (int j = 0; j < size; j++) {
            between += reading.slopes()[r][i] * covariance[i][j] * reading.slopes()[s][j];
          }
        }
        sum += reading.weight()[r][s] * between;
      }
    }
    return sum;
  }

  private static double form(double[] vector, double[][] matrix) {
    double sum = 0;
    for (int r = 0; r < vector.length; r++) {
      for (int s = 0; s < vector.length; s++) {
        sum += vector[r] * matrix[r][s] * vector[s];
      }
    }
    return sum;
  }

  private double[] solve(Normal normal) {
    R064Store objective = matrix(normal.matrix());
    R064Store right = R064Store.FACTORY.column(normal.right());
    ConvexSolver.Builder programme = ConvexSolver.newBuilder().objective(objective, right);
    if (size > times) {
      programme.equalities(
          matrix(new double[][] {balance}), R064Store.FACTORY.column(new double[] {1}));
    }
    double[][] floor = new double[size][size];
    double[] least = new double[size];
    for (int i = 0; i < size; i++) {
      floor[i][i] = -1;
      least[i] = -LEAST;
    }
    programme.inequalities(matrix(floor), R064Store.FACTORY.column(least));
    Optimisation.Result result = programme.build().solve();
    if (!result.getState().isFeasible()) {
      throw new IllegalStateException("No multipliers were found: " + result.getState() + ".");
    }
    double[] found = new double[size];
    for (int i = 0; i < size; i++) {
      found[i] = Math.max(LEAST, result.doubleValue(i));
    }
    return found;
  }

  /** The inverse; where clinicians balance out, within that condition. */
  private double[][] covariance(double[][] matrix) {
    if (size == times) {
      return inverse(matrix);
    }
    double[][] bordered = new double[size + 1][size + 1];
    for (int i = 0; i < size; i++) {
      System.arraycopy(matrix[i], 0, bordered[i], 0, size);
      bordered[i][size] = balance[i];
      bordered[size][i] = balance[i];
    }
    double[][] inverse = inverse(bordered);
    double[][] covariance = new double[size][];
    for (int i = 0; i < size; i++) {
      covariance[i] = Arrays.copyOf(inverse[i], size);
    }
    return covariance;
  }

  private static R064Store matrix(double[][] rows) {
    return R064Store.FACTORY.copy(RawStore.wrap(rows));
  }

  private static double[][] inverse(double[][] matrix) {
    LU<Double> lu = LU.R064.make(matrix.length, matrix.length);
    lu.decompose(matrix(matrix));
    MatrixStore<Double> inverse = lu.getInverse();
    return inverse.toRawCopy2D();
  }

  private Fit result(double[][] covariance) {
    double stretches = 0;
    double used = 0;
    for (int v = 0; v < visits.size(); v++) {
      double counted = 1 - outlierChance[v];
      Reading reading = read(visits.get(v));
      stretches += counted * reading.residual().length;
      used += counted * uncertain(reading, covariance) / variance;
    }
    double freedom = assumed.sigmaWeight() + Math.max(0, stretches - used);
    double reach = TDistribution.of(freedom).inverseCumulativeProbability((1 + Fit.CERTAINTY) / 2);
    List<Estimate> multipliers = new ArrayList<>();
    for (int k = 0; k < times; k++) {
      multipliers.add(estimate(k, covariance, reach));
    }
    SortedMap<String, Estimate> speeds = new TreeMap<>();
    for (int c = 0; c < clinicians.size(); c++) {
      speeds.put(
          clinicians.get(c),
          size == times ? Estimate.fixed(1) : estimate(times + c, covariance, reach));
    }
    return new Fit(multipliers, speeds, spread(freedom), outlierChance.clone());
  }

  private Estimate estimate(int index, double[][] covariance, double reach) {
    double error = Math.sqrt(Math.max(0, covariance[index][index]));
    double value = theta[index];
    return new Estimate(value, Math.max(0, value - reach * error), value + reach * error, error);
  }

  private Estimate spread(double freedom) {
    ChiSquaredDistribution chi = ChiSquaredDistribution.of(freedom);
    double tail = (1 - Fit.CERTAINTY) / 2;
    double sigma = Math.sqrt(variance);
    return new Estimate(
        sigma,
        sigma * Math.sqrt(freedom / chi.inverseSurvivalProbability(tail)),
        sigma * Math.sqrt(freedom / chi.inverseCumulativeProbability(tail)),
        sigma / Math.sqrt(2 * freedom));
  }
}
