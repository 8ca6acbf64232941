package quadrille.treatment.calibration;

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

  /**
   * By so much the estimated variance varies more than that of normal errors would: the logarithm
   * of a sum of lognormal parts is not quite normal. Found by simulation (docs/calibration.md).
   */
  private static final double SPREAD_CAUTION = 1.35;

  private static final int ROUNDS = 500;
  private static final double STILL = 1e-7;

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

  /** What time beside the work adds to the variance where plans put it on the work. */
  private final double besideWork;

  private double variance;
  private final double[] outlierChance;

  private Fitter(List<PracticeTime> times, Assumed assumed, List<TimedVisit> visits) {
    this.times = times.size();
    this.byHand = new boolean[this.times];
    this.working = new boolean[this.times];
    for (int k = 0; k < this.times; k++) {
      byHand[k] = times.get(k).kind().byHand();
      working[k] = times.get(k).kind().working();
    }
    this.assumed = assumed;
    this.visits = List.copyOf(visits);
    SortedMap<String, Integer> counts = new TreeMap<>();
    visits.forEach(visit -> counts.merge(visit.clinician(), 1, Integer::sum));
    this.clinicians = List.copyOf(counts.keySet());
    this.size = this.times + (clinicians.size() > 1 ? clinicians.size() : 0);
    this.balance = new double[size];
    for (int c = this.times; c < size; c++) {
      balance[c] = (double) counts.getOrDefault(clinicians.get(c - this.times), 0) / visits.size();
    }
    this.precision = precision();
    this.theta = new double[size];
    Arrays.fill(theta, 1);
    this.besideWork = besideWork();
    this.variance = square(assumed.sigma());
    this.outlierChance = new double[visits.size()];
  }

  /**
   * Fits.
   *
   * @param times the practice's times, in the order of the visits' expected seconds
   * @param visits in any order; the fit of none is what is assumed
   */
  static Fit fit(List<PracticeTime> times, Assumed assumed, List<TimedVisit> visits) {
    return new Fitter(times, assumed, visits).fit();
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

  private double besideWork() {
    double fixed = 0;
    double work = 0;
    for (TimedVisit visit : visits) {
      double visitFixed = 0;
      double visitWork = 0;
      for (Stretch stretch : visit.stretches()) {
        visitFixed += stretch.sum();
        for (int k = 0; k < times; k++) {
          visitWork += working[k] ? stretch.expected()[k] : 0;
        }
      }
      fixed += square(visitFixed - visitWork);
      work += square(visitWork);
    }
    return work == 0 ? 0 : square(assumed.fixedShare()) * fixed / work;
  }

  private static double square(double value) {
    return value * value;
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
   * @param weight inverse of the covariance of the residuals
   * @param work that covariance for the error of the work alone and a variance of 1
   */
  private record Reading(double[][] slopes, double[] residual, double[][] weight, double[][] work) {

    int rows() {
      return residual.length;
    }
  }

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
    double[][] share = workShare(work, expected);
    double[][] spread = new double[rows][rows];
    double[] residual = new double[rows];
    for (int r = 0; r < rows; r++) {
      for (int s = 0; s < rows; s++) {
        spread[r][s] = variance * share[r][s];
      }
      spread[r][r] +=
          (square(assumed.fixedShare() * (expected[r] - work[r]))
                  + visit.stretches().get(r).readings() * square(assumed.clockSeconds()))
              / square(expected[r]);
      residual[r] = Math.log(visit.stretches().get(r).seconds() / expected[r]) + spread[r][r] / 2;
    }
    return new Reading(slopes, residual, inverse(spread), share);
  }

  /**
   * Covariance of the stretches' logarithms by the error of the work alone, for a variance of 1.
   * Part of that error is the visit's, alike for all of its work; the rest comes with the work,
   * each stretch its own, so that a whole visit's work has the variance however it was timed.
   */
  private double[][] workShare(double[] work, double[] expected) {
    int rows = expected.length;
    double all = Arrays.stream(work).sum();
    double[][] share = new double[rows][rows];
    for (int r = 0; r < rows; r++) {
      for (int s = 0; s < rows; s++) {
        double seconds = assumed.visitShare() * work[r] * work[s];
        if (r == s) {
          seconds += (1 - assumed.visitShare()) * all * work[r];
        }
        share[r][s] = seconds / (expected[r] * expected[s]);
      }
    }
    return share;
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
      double counts = counts(v);
      int rows = reading.rows();
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

  /**
   * Each visit's chance to be an outlier, and the spread of the others: of what is left, the part
   * that the work's error is expected to have.
   */
  private void judge(double[][] covariance) {
    double sum = assumed.sigmaWeight() * square(assumed.sigma());
    double weight = assumed.sigmaWeight();
    double shrink = 1 / square(assumed.outlierFactor());
    for (int v = 0; v < visits.size(); v++) {
      Reading reading = read(visits.get(v));
      double distance = form(reading.residual(), reading.weight());
      double odds =
          assumed.outliers()
              / (1 - assumed.outliers())
              * Math.pow(assumed.outlierFactor(), -reading.rows())
              * Math.exp(Math.min(600, distance * (1 - shrink) / 2));
      outlierChance[v] = odds / (1 + odds);
      double[][] weighted = product(reading.weight(), reading.work());
      double[][] left = left(reading, covariance);
      int worked = 0;
      double fits = 0;
      for (int r = 0; r < reading.rows(); r++) {
        worked += reading.work()[r][r] > 0 ? 1 : 0;
        fits += weighted[r][r];
      }
      double found = trace(product(weighted, reading.weight()), left);
      sum += (1 - outlierChance[v]) * (square(variance) * (found - fits) + worked * variance);
      weight += (1 - outlierChance[v]) * worked;
    }
    variance = sum / weight;
  }

  /** Mean products of a visit's residuals, given that the multipliers are not known exactly. */
  private double[][] left(Reading reading, double[][] covariance) {
    double[][] left = between(reading, covariance);
    for (int r = 0; r < reading.rows(); r++) {
      for (int s = 0; s < reading.rows(); s++) {
        left[r][s] += reading.residual()[r] * reading.residual()[s];
      }
    }
    return left;
  }

  /** Covariance of a visit's expected logarithms by the uncertainty of the multipliers. */
  private double[][] between(Reading reading, double[][] covariance) {
    double[][] half = product(reading.slopes(), covariance);
    double[][] between = new double[reading.rows()][reading.rows()];
    for (int r = 0; r < reading.rows(); r++) {
      for (int s = 0; s < reading.rows(); s++) {
        for (int j = 0; j < size; j++) {
          between[r][s] += half[r][j] * reading.slopes()[s][j];
        }
      }
    }
    return between;
  }

  private static double[][] product(double[][] left, double[][] right) {
    double[][] product = new double[left.length][right[0].length];
    for (int i = 0; i < left.length; i++) {
      for (int k = 0; k < right.length; k++) {
        for (int j = 0; j < right[0].length; j++) {
          product[i][j] += left[i][k] * right[k][j];
        }
      }
    }
    return product;
  }

  /** The trace of a product. */
  private static double trace(double[][] left, double[][] right) {
    double trace = 0;
    for (int i = 0; i < left.length; i++) {
      for (int k = 0; k < right.length; k++) {
        trace += left[i][k] * right[k][i];
      }
    }
    return trace;
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
    double[] free = free(normal);
    if (Arrays.stream(free).allMatch(value -> value >= LEAST)) {
      return free;
    }
    ConvexSolver.Builder programme =
        ConvexSolver.newBuilder()
            .objective(matrix(normal.matrix()), R064Store.FACTORY.column(normal.right()));
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

  /** The multipliers where none is held at its least. */
  private double[] free(Normal normal) {
    int rows = size == times ? size : size + 1;
    double[] right = Arrays.copyOf(normal.right(), rows);
    if (rows > size) {
      right[size] = 1;
    }
    double[] free = new double[size];
    double[][] inverse = inverse(bordered(normal.matrix()));
    for (int i = 0; i < size; i++) {
      for (int j = 0; j < rows; j++) {
        free[i] += inverse[i][j] * right[j];
      }
    }
    return free;
  }

  /**
   * The matrix, with a border for the condition that clinicians balance out where there are any.
   */
  private double[][] bordered(double[][] matrix) {
    if (size == times) {
      return matrix;
    }
    double[][] bordered = new double[size + 1][size + 1];
    for (int i = 0; i < size; i++) {
      System.arraycopy(matrix[i], 0, bordered[i], 0, size);
      bordered[i][size] = balance[i];
      bordered[size][i] = balance[i];
    }
    return bordered;
  }

  /** The inverse; where clinicians balance out, within that condition. */
  private double[][] covariance(double[][] matrix) {
    double[][] inverse = inverse(bordered(matrix));
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
    if (matrix.length == 1) {
      return new double[][] {{1 / matrix[0][0]}};
    }
    LU<Double> lu = LU.R064.make(matrix.length, matrix.length);
    lu.decompose(matrix(matrix));
    MatrixStore<Double> inverse = lu.getInverse();
    return inverse.toRawCopy2D();
  }

  private Fit result(double[][] covariance) {
    double freedom = assumed.sigmaWeight();
    for (int v = 0; v < visits.size(); v++) {
      Reading reading = read(visits.get(v));
      double[][] weighted = product(reading.weight(), reading.work());
      double told = square(variance) * trace(weighted, weighted);
      double used = trace(reading.weight(), between(reading, covariance));
      freedom += (1 - outlierChance[v]) * told * Math.max(0, 1 - used / reading.rows());
    }
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
    Whole whole = whole(covariance);
    return new Fit(
        multipliers,
        speeds,
        spread(whole, 0),
        spread(whole, besideWork),
        outlierChance.clone(),
        covariance);
  }

  /**
   * What whole visits tell of the work's variance.
   *
   * @param freedom degrees of freedom, those of the assumption among them
   */
  private record Whole(double variance, double freedom) {}

  /**
   * A visit as one stretch.
   *
   * @param residual logarithm of recorded over expected
   * @param work share of its expected seconds that is work, squared
   * @param other variance of that logarithm by all but the work
   * @param unsure variance of the expected logarithm by the uncertainty of the multipliers
   */
  private record Total(double residual, double work, double other, double unsure) {}

  /**
   * The work's variance by the visits' totals alone: one residual a cluster, whatever share of it
   * the stretches of a visit have in common (the between-cluster estimate of Liang and Zeger 1986,
   * Biometrika 73:13). Expectation and maximisation, as for the fit.
   */
  private Whole whole(double[][] covariance) {
    List<Total> totals = visits.stream().map(visit -> total(visit, covariance)).toList();
    double found = variance;
    for (int round = 0; round < ROUNDS; round++) {
      double sum = assumed.sigmaWeight() * square(assumed.sigma());
      double weight = assumed.sigmaWeight();
      for (int v = 0; v < totals.size(); v++) {
        Total one = totals.get(v);
        double counts = one.work() > 0 ? 1 - outlierChance[v] : 0;
        double all = found * one.work() + one.other();
        double left = square(one.residual() + all / 2) + one.unsure();
        sum += counts * (square(found / all) * one.work() * (left - all) + found);
        weight += counts;
      }
      double before = found;
      found = sum / weight;
      if (Math.abs(found - before) < STILL * found) {
        break;
      }
    }
    double freedom = assumed.sigmaWeight();
    for (int v = 0; v < totals.size(); v++) {
      Total one = totals.get(v);
      double all = found * one.work() + one.other();
      double told = square(found * one.work() / all) * Math.max(0, 1 - one.unsure() / all);
      freedom += (1 - outlierChance[v]) * told;
    }
    return new Whole(found, freedom);
  }

  private Total total(TimedVisit visit, double[][] covariance) {
    int own = size > times ? times + clinicians.indexOf(visit.clinician()) : -1;
    double speed = own < 0 ? 1 : theta[own];
    double[] slopes = new double[size];
    double seconds = 0;
    double expected = 0;
    double work = 0;
    double other = 0;
    for (Stretch stretch : visit.stretches()) {
      seconds += stretch.seconds();
      double rowWork = 0;
      double row = stretch.known();
      for (int k = 0; k < times; k++) {
        double slope = stretch.expected()[k] * (byHand[k] ? speed : 1);
        slopes[k] += slope;
        row += slope * theta[k];
        rowWork += working[k] ? slope * theta[k] : 0;
        if (own >= 0 && byHand[k]) {
          slopes[own] += stretch.expected()[k] * theta[k];
        }
      }
      expected += row;
      work += rowWork;
      other +=
          square(assumed.fixedShare() * (row - rowWork))
              + stretch.readings() * square(assumed.clockSeconds());
    }
    double unsure = 0;
    for (int i = 0; i < size; i++) {
      for (int j = 0; j < size; j++) {
        unsure += slopes[i] * covariance[i][j] * slopes[j];
      }
    }
    return new Total(
        Math.log(seconds / expected),
        square(work / expected),
        other / square(expected),
        unsure / square(expected));
  }

  private Estimate estimate(int index, double[][] covariance, double reach) {
    double error = Math.sqrt(Math.max(0, covariance[index][index]));
    double value = theta[index];
    return new Estimate(value, Math.max(0, value - reach * error), value + reach * error, error);
  }

  /**
   * @param more added to the variance
   */
  private static Estimate spread(Whole whole, double more) {
    double told = whole.freedom() / SPREAD_CAUTION;
    ChiSquaredDistribution chi = ChiSquaredDistribution.of(told);
    double tail = (1 - Fit.CERTAINTY) / 2;
    double sigma = Math.sqrt(whole.variance() + more);
    return new Estimate(
        sigma,
        Math.sqrt(whole.variance() * told / chi.inverseSurvivalProbability(tail) + more),
        Math.sqrt(whole.variance() * told / chi.inverseCumulativeProbability(tail) + more),
        whole.variance() / (sigma * Math.sqrt(2 * told)));
  }
}
